"""The Parts of a pattern: pieces drawn large, sizes, chart, asks, notions; added and changed."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, ClassVar, cast

from rich.text import Text
from textual import on
from textual.containers import Container
from textual.widgets import DataTable, Static

from stash.garment.pattern import Piece
from stash.services import pattern_parts, patterns
from stash.services.pattern_parts import PartKind
from stash.tui.actions import bindings
from stash.tui.messages import Answered, Changed
from stash.tui.screens.choose import ChooseScreen
from stash.tui.screens.confirm import ConfirmScreen
from stash.tui.screens.part_forms import adding, adding_piece, changing
from stash.tui.screens.room import Room
from stash.tui.show import counted
from stash.tui.widgets.detail import Detail
from stash.tui.widgets.outlines import fitted
from stash.tui.widgets.rows import Column, Row, Rows
from stash.tui.work import ask, stash_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from textual.widget import Widget

    from stash.garment.pattern import Pattern
    from stash.services.pattern_parts import Part
    from stash.services.pieces import FamilyForm
    from stash.services.stash import Stash
    from stash.tui.screens.form import FormScreen

WHAT = {
    PartKind.PIECE: "Piece: drawn from a few measurements",
    PartKind.SIZE: "Size: body and finished measures",
    PartKind.CHART: "Chart row: an amount as the envelope prints it",
    PartKind.ASKS: "Asks: what a role asks of its cloth",
    PartKind.NOTION: "Notion: something small to have ready",
}


class PartsRead(Answered):
    """The pattern and its parts were read."""


class FamiliesRead(Answered):
    """The families a piece can be drawn from were read."""


class PartFormReady(Answered):
    """The form of a part was filled."""


class PartGone(Answered):
    """A part was taken out."""


class PartsScreen(Room):
    """Opens over the Patterns."""

    place = "parts"
    BINDINGS = bindings("parts")
    columns: ClassVar[tuple[Column, ...]] = (
        Column("What", 9),
        Column("Which", 22),
        Column("Says", 44),
    )

    def __init__(self, pattern: str) -> None:
        super().__init__()
        self.pattern_id = pattern
        self.pattern: Pattern | None = None
        self.parts: tuple[Part, ...] = ()

    def content(self) -> Iterable[Widget]:
        """Table, and the chosen part beside it."""
        yield Container(Rows(self.columns, id="rows"), Detail(), classes="with-detail -tall")
        yield Static("", classes="empty", markup=False)

    def reload(self) -> None:
        """Read the pattern again."""
        stash, ref = stash_of(self), self.pattern_id

        def read() -> tuple[Pattern, tuple[Part, ...]]:
            pattern = patterns.get_pattern(stash, ref)
            return pattern, pattern_parts.parts_of(stash, pattern)

        ask(self, "read", lambda _: read(), PartsRead)

    @on(PartsRead)
    def _show(self, message: PartsRead) -> None:
        pattern, parts = cast("tuple[Pattern, tuple[Part, ...]]", message.answer)
        self.pattern, self.parts = pattern, parts
        self.head(f"{pattern.name}: {counted(len(parts), 'part')}")
        rows = [
            Row(str(p.number), (Text(p.kind.value), Text(p.title), Text(p.words))) for p in parts
        ]
        self.show_rows(rows, nothing=False)
        self._describe()

    @property
    def chosen(self) -> Part | None:
        """The part under the cursor."""
        key = self.query_one(Rows).chosen
        return next((part for part in self.parts if str(part.number) == key), None)

    @on(DataTable.RowHighlighted)
    def _describe(self) -> None:
        part = self.chosen
        if part is None:
            return
        detail = self.query_one(Detail)
        room = detail.scrollable_content_region
        text = Text.styled(f"{part.kind.value.capitalize()} {part.title}", "bold")
        text.append(f"\n{part.words}")
        if isinstance(part.value, Piece):
            for word in part.value.typed:
                text.append(f"\n  {word.replace('=', ': ', 1).replace('_', ' ')}")
            rows = max(6, room.height - 4)
            text.append("\n" + "\n".join(fitted(part.value, max(12, room.width), rows)))
        detail.show(text)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Changing wants a part, taking out one that is the pattern's own."""
        if action in ("edit", "remove"):
            part = self.chosen if self.parts else None
            if part is None or (action == "remove" and not part.own):
                return None
        return super().check_action(action, parameters)

    def action_add(self) -> None:
        """Choose what to add."""
        options = [(kind.value, text) for kind, text in WHAT.items()]
        self.app.push_screen(ChooseScreen("What is added?", options), self._add)

    def _add(self, chosen: str | None) -> None:
        if chosen is None or self.pattern is None:
            return
        if chosen == PartKind.PIECE.value:
            from stash.services.pieces import families

            ask(self, "families", lambda _: families(), FamiliesRead)
        else:
            self._open(adding(stash_of(self), self.pattern, PartKind(chosen)))

    @on(FamiliesRead)
    def _choose_family(self, message: FamiliesRead) -> None:
        found = cast("tuple[FamilyForm, ...]", message.answer)
        by_key = {family.key: family for family in found}
        options = [(f.key, f"{f.key}: {f.help}") for f in found]
        screen = ChooseScreen("What shape is the piece?", options)
        self.app.push_screen(screen, partial(self._draw_piece, by_key))

    def _draw_piece(self, by_key: Mapping[str, FamilyForm], chosen: str | None) -> None:
        if chosen is not None and self.pattern is not None:
            self._open(adding_piece(stash_of(self), self.pattern, by_key[chosen]))

    def action_edit(self) -> None:
        """Open a form on the chosen part."""
        part, pattern, stash = self.chosen, self.pattern, stash_of(self)
        if part is not None and pattern is not None:
            ask(self, "form", lambda _: changing(stash, pattern, part), PartFormReady)

    @on(PartFormReady)
    def _form_ready(self, message: PartFormReady) -> None:
        self._open(cast("FormScreen", message.answer))

    def _open(self, form: FormScreen) -> None:
        self.app.push_screen(form, partial(self._kept, form.form.changing))

    def _kept(self, changed: bool, kept: object) -> None:
        if kept is None or self.pattern is None:
            return
        from stash.services.chart_doubts import chart_doubts
        from stash.services.half_pieces import half_words
        from stash.services.part_words import replaced_words

        now, before, system = cast("Pattern", kept), self.pattern, stash_of(self).settings.system
        lost = "" if changed else replaced_words(before, now, system)
        typed = [row for row in now.charts if row not in before.charts]
        halves = half_words(before, now)
        told = ("✓ Kept. ctrl+z undoes it.", lost, halves, *chart_doubts(now, typed, system))
        self.post_message(Changed(" ".join(filter(None, told))))

    def action_remove(self) -> None:
        """Ask, then take the chosen part out."""
        part = self.chosen
        if part is not None:
            question = f"Take the {part.kind.value} “{part.title}” out?"
            screen = ConfirmScreen(question, yes="Take out", no="Keep")
            self.app.push_screen(screen, partial(self._remove, part))

    def _remove(self, part: Part, sure: bool | None) -> None:
        pattern, stash = self.pattern, stash_of(self)
        if sure and pattern is not None:
            ask(self, "take", lambda _: _taken_out(pattern, part, stash), PartGone)

    @on(PartGone)
    def _gone(self, message: PartGone) -> None:
        self.post_message(Changed(f"✓ Took out {message.answer}. ctrl+z undoes it."))

    async def action_back(self) -> None:
        """Back to the Patterns."""
        self.dismiss(None)


def _taken_out(pattern: Pattern, part: Part, stash: Stash) -> str:
    pattern_parts.take_out(stash, pattern, [part])
    return f"{part.kind.value} {part.title}"
