"""The Widths: what a pattern would need, whatever width is found in the shop."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, cast

from rich.text import Text
from textual import on
from textual.containers import Container
from textual.widgets import DataTable, Static

from stash.garment.sizing import size_labels
from stash.lay.problem import LayKind
from stash.report.needs_text import lies, sure
from stash.services.width_needs import width_needs
from stash.tui.actions import bindings
from stash.tui.messages import Answered
from stash.tui.screens.choose import ChooseScreen
from stash.tui.screens.room import Room
from stash.tui.show import heading, width
from stash.tui.widgets.detail import Detail
from stash.tui.widgets.rows import Column, Row, Rows
from stash.tui.work import ask, stash_of
from stash.units.format_length import Measure, show_length

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from textual.widget import Widget

    from stash.garment.pattern import Pattern
    from stash.pairing.judgement import Need
    from stash.report.records import WidthNeed, WidthNeeds
    from stash.tui.work import Teller

NOTHING = """Nothing can be said about the length it needs.

Press esc, then enter, then a: give it a piece or a line of the envelope's chart."""


class NeedsFound(Answered):
    """The needs over all widths were worked out."""


class WidthNeedsScreen(Room):
    """Opens over the Patterns."""

    place = "widths"
    slow = "widths"
    BINDINGS = bindings("widths")
    columns: ClassVar[tuple[Column, ...]] = (
        Column("Role", 11),
        Column("Width", 6),
        Column("No nap", 8),
        Column("With nap", 8),
        Column("Lies", 13),
        Column("Sure", 10),
        Column("Chart", 8),
    )

    def __init__(self, pattern: Pattern) -> None:
        super().__init__()
        self.pattern = pattern
        self.wanted_size = ""
        self.wanted_view = ""
        self.lies: LayKind | None = None
        self.found: WidthNeeds | None = None

    def content(self) -> Iterable[Widget]:
        """Table, and where the numbers of the chosen row come from."""
        yield Container(Rows(self.columns, id="rows"), Detail(), classes="with-detail")
        yield Static(NOTHING, classes="empty", markup=False)

    def reload(self) -> None:
        """Lay every role at every width."""
        stash, ref = stash_of(self), str(self.pattern.id)
        size, view, kind = self.wanted_size, self.wanted_view, self.lies
        self.said.say("Laying the pieces on every width …")

        def find(teller: Teller) -> WidthNeeds:
            return width_needs(
                stash,
                ref,
                size=size,
                view=view,
                kind=kind,
                progress=teller.progress,
                cancelled=teller.cancelled,
            )

        ask(self, "widths", find, NeedsFound)

    @on(NeedsFound)
    def _show(self, message: NeedsFound) -> None:
        self.found = found = cast("WidthNeeds", message.answer)
        words = [found.pattern.name]
        words += [f"view {found.view}"] if found.view else []
        words += [f"size {found.size}"] if found.size else []
        words.append(f"{found.kind} lay" if found.kind else "shortest lay")
        self.head(", ".join(words))
        self.end_progress()
        rows = [self._row(place, row) for place, row in enumerate(found.rows)]
        self.show_rows(rows, nothing=not rows)
        self._describe()

    def _row(self, place: int, row: WidthNeed) -> Row:
        settings = stash_of(self).settings
        charted = row.charted
        chart = show_length(charted, settings.system, Measure.NEED) if charted else ""
        cells = (
            row.role.value,
            Text(width(row.width, settings), justify="right"),
            *(self._length(need) for need in (row.plain, row.napped)),
            lies(row),
            sure(row),
            Text(chart, justify="right"),
        )
        return Row(str(place), cells)

    def _length(self, need: Need) -> Text:
        """What has to be there, the high end of an estimate; its range stands in the detail."""
        system = stash_of(self).settings.system
        words = show_length(need.length, system, Measure.NEED) if need.length else "–"
        return Text(words, justify="right")

    @property
    def chosen(self) -> WidthNeed | None:
        """The row under the cursor."""
        if self.found is None:
            return None
        key = self.query_one(Rows).chosen
        return None if key is None else self.found.rows[int(key)]

    @on(DataTable.RowHighlighted)
    def _describe(self) -> None:
        row = self.chosen
        if row is None:
            return
        colours, settings = self.app.theme_variables, stash_of(self).settings
        text = Text.styled(f"{row.role.value} at {width(row.width, settings)}", "bold")
        for name, need in (("Without nap", row.plain), ("With nap", row.napped)):
            heading(text, name, colours)
            text.append(f"\n{self._need(need)}")
        self.query_one(Detail).show(text)

    def _need(self, need: Need) -> str:
        system = stash_of(self).settings.system
        if need.length is None:
            return need.why
        words = f"{show_length(need.length, system, Measure.NEED)}, {need.sureness}"
        if need.low is not None and need.high is not None and need.low < need.high:
            low, high = (show_length(end, system, Measure.NEED) for end in (need.low, need.high))
            words += f", {low} to {high}"
        return f"{words}: {need.why}"

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys that have nothing to choose from are not shown."""
        if action == "size" and len(size_labels(self.pattern)) < 2:
            return None
        if action == "view" and len(self.pattern.views) < 2:
            return None
        if action == "lay" and self.chosen is None:
            return None
        return super().check_action(action, parameters)

    def action_size(self) -> None:
        """Choose the size."""
        now = self.found.size if self.found else ""
        self._choose("Which size?", size_labels(self.pattern), now, self._take_size)

    def action_view(self) -> None:
        """Choose the view."""
        now = self.found.view if self.found else ""
        self._choose("Which view?", self.pattern.views, now, self._take_view)

    def _choose(
        self, title: str, names: Sequence[str], now: str, take: Callable[[str], None]
    ) -> None:
        def chosen(name: str | None) -> None:
            if name is not None:
                take(name)
                self.reload()

        self.app.push_screen(ChooseScreen(title, [(name, name) for name in names], now), chosen)

    def _take_size(self, name: str) -> None:
        self.wanted_size = name

    def _take_view(self, name: str) -> None:
        self.wanted_view = name

    def action_kind(self) -> None:
        """Go to the next kind of lay."""
        kinds = (None, *LayKind)
        self.lies = kinds[(kinds.index(self.lies) + 1) % len(kinds)]
        self.reload()

    def action_lay(self) -> None:
        """Draw the lay of the chosen row."""
        from stash.tui.screens.lay import LayScreen
        from stash.tui.screens.lay_asks import LayQuestion

        row, found = self.chosen, self.found
        if row is not None and found is not None:
            question = LayQuestion(
                pattern=str(self.pattern.id),
                view=found.view,
                size=found.size,
                role=row.role,
                width=width(row.width, stash_of(self).settings),
                kind=found.kind,
                nap=True,
            )
            self.app.push_screen(LayScreen(question))

    async def action_back(self) -> None:
        """Back to the Patterns."""
        self.dismiss(None)
