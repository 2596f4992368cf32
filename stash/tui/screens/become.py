"""Become: everything one cloth could be cut for, best first, with the reasons."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, cast

from rich.text import Text
from textual import on
from textual.containers import Container
from textual.widgets import DataTable, Static

from stash.report.become_text import title_of
from stash.report.plan_text import amounts
from stash.report.suit_text import suit_words
from stash.tui.actions import bindings
from stash.tui.messages import Answered
from stash.tui.screens.room import Room
from stash.tui.show import amount as shown_amount
from stash.tui.show import enough, heading, reason_line, suit_text, verdict_text
from stash.tui.widgets.detail import Detail
from stash.tui.widgets.rows import Column, Row, Rows
from stash.tui.work import ask, stash_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual.widget import Widget

    from stash.report.records import Becoming, Could
    from stash.tui.work import Teller

NOTHING = """No pattern is known yet, so nothing says what it could become.

Press esc, then 3 for the patterns; a adds one."""


class BecomingFound(Answered):
    """What the cloth could become was worked out."""


class BecomeScreen(Room):
    """Opens over the Shelf."""

    place = "become"
    slow = "become"
    BINDINGS = bindings("become")
    columns: ClassVar[tuple[Column, ...]] = (
        Column("Could become", 33),
        Column("Verdict", 12),
        Column("Spare", 10),
        Column("Suit", 12),
    )

    def __init__(self, cloth: str) -> None:
        super().__init__()
        self.cloth = cloth
        self.found: Becoming | None = None

    def content(self) -> Iterable[Widget]:
        """Table and reasons."""
        yield Container(Rows(self.columns, id="rows"), Detail(), classes="with-detail -tall")
        yield Static(NOTHING, classes="empty", markup=False)

    def reload(self) -> None:
        """Set the cloth against every pattern."""
        cloth, stash = self.cloth, stash_of(self)
        self.said.say("Setting it against every pattern …")

        def find(teller: Teller) -> Becoming:
            from stash.services.becoming import could_become

            return could_become(stash, cloth, progress=teller.progress, cancelled=teller.cancelled)

        ask(self, "become", find, BecomingFound)

    @on(BecomingFound)
    def _show(self, message: BecomingFound) -> None:
        self.found = found = cast("Becoming", message.answer)
        able = sum(1 for could in found.could if could.pairing.verdict.can_be_cut)
        self.head(f"{found.cloth.name}: {able} of {len(found.could)} can be cut from it")
        self.end_progress()
        rows = [self._row(place, could) for place, could in enumerate(found.could)]
        self.show_rows(rows, nothing=not rows)

    def _row(self, place: int, could: Could) -> Row:
        settings, pairing = stash_of(self).settings, could.pairing
        shown = enough(pairing.need.length, pairing.have, settings)
        spare = shown.signed if shown else shown_amount(None, settings)
        cells = (
            Text(title_of(could)),
            verdict_text(pairing.verdict, self.app.theme_variables),
            Text(spare, justify="right"),
            suit_text(pairing),
        )
        return Row(str(place), cells)

    @property
    def chosen(self) -> Could | None:
        """What the cursor is on."""
        key = self.query_one(Rows).chosen
        if self.found is None or key is None or int(key) >= len(self.found.could):
            return None
        return self.found.could[int(key)]

    @on(DataTable.RowHighlighted)
    def _explain(self) -> None:
        could = self.chosen
        if could is not None:
            self.query_one(Detail).show(self._describe(could))

    def _describe(self, could: Could) -> Text:
        colours, pairing = self.app.theme_variables, could.pairing
        text = Text.styled(title_of(could), "bold")
        text.append("\n")
        text.append_text(verdict_text(pairing.verdict, colours))
        text.append(f"\n{amounts(pairing, stash_of(self).settings.system)}")
        if could.waiting:
            text.append(f"\nIn the queue: {', '.join(could.waiting)}")
        heading(text, suit_words(pairing).capitalize(), colours)
        for reason in sorted(pairing.reasons, key=lambda r: 1.0 if r.mark is None else r.mark):
            text.append(f"\n{reason_line(reason)}")
        if pairing.cautions:
            heading(text, "Mind", colours)
            text.append("".join(f"\n! {caution}" for caution in pairing.cautions))
        return text

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A lay wants something to lay."""
        if action == "lay" and self.chosen is None:
            return None
        return super().check_action(action, parameters)

    def action_lay(self) -> None:
        """Draw the lay of the chosen pattern on the cloth."""
        from stash.tui.screens.lay import LayScreen
        from stash.tui.screens.lay_asks import LayQuestion

        could, found = self.chosen, self.found
        if could is not None and found is not None:
            question = LayQuestion(
                pattern=str(could.pattern.id),
                view=could.view,
                size=could.size,
                role=could.pairing.role,
                cloth=str(found.cloth.id),
            )
            self.app.push_screen(LayScreen(question))

    async def action_back(self) -> None:
        """Back to the Shelf."""
        self.dismiss(None)
