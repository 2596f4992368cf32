"""The Patterns: what can be made, with the pieces drawn small and the charts."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, ClassVar, cast

from rich.text import Text
from textual import on
from textual.containers import Container
from textual.widgets import Static

from stash.garment.size_pieces import lacking_words
from stash.garment.sizing import middle_size
from stash.services import patterns
from stash.services.pattern_fields import PATTERN_FIELDS
from stash.services.pattern_parts import PartKind
from stash.tui.actions import bindings
from stash.tui.messages import Answered, Changed
from stash.tui.screens.choose import ChooseScreen
from stash.tui.screens.form import Form, FormScreen
from stash.tui.screens.keeping import KeepingRoom
from stash.tui.screens.part_forms import adding, adding_piece
from stash.tui.screens.pieces_file import FILE_FIELDS, READING, read_look
from stash.tui.show import amount, counted, heading, width
from stash.tui.widgets.detail import Detail
from stash.tui.widgets.filter_bar import FilterBar
from stash.tui.widgets.outlines import sheet
from stash.tui.widgets.rows import Column, Row, Rows
from stash.tui.work import ask, stash_of
from stash.units.format_length import Measure

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from textual.widget import Widget

    from stash.garment.pattern import Pattern
    from stash.services.pattern_import import Look
    from stash.services.patterns import PatternRow
    from stash.services.pieces import FamilyForm
    from stash.services.stash import Stash

EMPTY = """There is no pattern yet.

Press a to add one: its name and what kind of garment it is are enough. Then give it \
its pieces, so that it can be laid out: p draws one from a few measurements, \
i reads them from an SVG, DXF or PDF file, c adds a line of the envelope's chart."""


class PatternsRead(Answered):
    """The patterns were read."""


class FamiliesRead(Answered):
    """The families a piece can be drawn from were read."""


class PatternsRoom(KeepingRoom):
    """A table of patterns; the chosen one's pieces and charts beside it."""

    place = "patterns"
    noun = "pattern"
    needs_row = frozenset({"edit", "remove", "piece", "chart", "import", "parts", "widths", "lay"})
    BINDINGS = bindings("patterns")
    columns: ClassVar[tuple[Column, ...]] = (
        Column("Pattern", 23),
        Column("Kind", 16),
        Column("Sizes", 12),
        Column("Pieces", 6),
        Column("Amounts", 9),
    )

    def __init__(self) -> None:
        super().__init__()
        self.found: dict[str, PatternRow] = {}

    def content(self) -> Iterable[Widget]:
        """Filter, table, detail, and what to do when there is nothing."""
        yield FilterBar("words of the name or of the kind")
        yield Container(Rows(self.columns, id="rows"), Detail(), classes="with-detail -tall")
        yield Static(EMPTY, classes="empty", markup=False)

    def reload(self) -> None:
        """Read the patterns through the filter."""
        query, stash = self.query_one(FilterBar).value, stash_of(self)
        ask(self, "read", lambda _: patterns.all_patterns(stash, query), PatternsRead)

    @on(PatternsRead)
    def _show(self, message: PatternsRead) -> None:
        rows: tuple[PatternRow, ...] = message.answer  # type: ignore[assignment]
        self.found = {str(row.pattern.id): row for row in rows}
        self.fill([self._row(row) for row in rows])
        self.head(counted(len(rows), "pattern"))
        chosen = self.table.chosen
        if chosen in self.found:
            self.study(chosen)

    def _row(self, row: PatternRow) -> Row:
        pattern = row.pattern
        cells = (
            pattern.name,
            pattern.kind.value,
            ", ".join(size.label for size in pattern.sizes),
            Text(str(row.pieces), justify="right"),
            row.sureness,
        )
        return Row(str(pattern.id), cells)

    def study(self, key: str) -> None:
        """Draw the pieces and list the charts."""
        if key in self.found:
            detail = self.query_one(Detail)
            columns = max(24, detail.scrollable_content_region.width or 40)
            detail.show(self._describe(self.found[key].pattern, columns))

    def _describe(self, pattern: Pattern, columns: int) -> Text:
        colours, settings = self.app.theme_variables, stash_of(self).settings
        text = Text.styled(f"{pattern.name}, {pattern.kind}", "bold")
        size = middle_size(pattern)
        view = pattern.views[0] if pattern.views else ""
        shown = pattern.drawn_for(view, size)
        if shown:
            text.append(f", size {size}" if size else "")
            text.append("\n" + "\n".join(sheet(shown, columns)))
            if lacked := lacking_words(pattern, view, size):
                text.append(f"\nno {lacked}", colours["warning"])
        else:
            text.append("\nno pieces yet: p draws one, i reads a file")
        said = [
            pattern.form,
            pattern.kept_in,
            "tested" if pattern.tested else "untested",
            f"liked {pattern.liked} of 5",
            f"traced: {', '.join(pattern.traced)}" if pattern.traced else "",
            f"picture: {pattern.picture}" if pattern.picture else "",
        ]
        text.append(f"\n{', '.join(filter(None, said))}")
        if pattern.charts:
            heading(text, "Chart", colours)
            for row in pattern.charts:
                where = " ".join(word for word in (row.view, row.size, row.role.value) if word)
                nap = "with nap" if row.with_nap else "without nap"
                text.append(
                    f"\n{where}: {amount(row.amount, settings, Measure.NEED)} of "
                    f"{width(row.width, settings)}, {nap}"
                )
        if pattern.notes:
            heading(text, "Notes", colours)
            text.append(f"\n{pattern.notes}")
        return text

    def add_form(self) -> Form:
        """A form for a new pattern."""
        stash = stash_of(self)
        return Form(
            title="A new pattern",
            fields=PATTERN_FIELDS,
            save=partial(self._add_pattern, stash),
        )

    def _add_pattern(self, stash: Stash, texts: Mapping[str, str]) -> Pattern:
        kept = patterns.add_pattern(stash, texts)
        self.remark = patterns.near_ones(stash, kept)
        return kept

    def edit_form(self, key: str) -> Form:
        """A form for the head of the chosen pattern."""
        stash, pattern = stash_of(self), self.found[key].pattern
        return Form(
            title=pattern.name,
            fields=PATTERN_FIELDS,
            texts=patterns.pattern_texts(stash, pattern),
            changing=True,
            save=lambda texts: patterns.edit_pattern(stash, key, texts, base=pattern),
            over=lambda texts, now: patterns.edit_pattern(stash, key, texts, base=now),
        )

    def name_of(self, key: str) -> str:
        """Name of a pattern."""
        return self.found[key].pattern.name

    def forget(self, key: str) -> object:
        """Remove a pattern; called in a worker."""
        return patterns.remove_pattern(stash_of(self), key)

    def action_piece(self) -> None:
        """Choose the family of shapes, then type its measurements."""
        from stash.services.pieces import families

        ask(self, "families", lambda _: families(), FamiliesRead)

    @on(FamiliesRead)
    def _choose_family(self, message: FamiliesRead) -> None:
        found: tuple[FamilyForm, ...] = message.answer  # type: ignore[assignment]
        by_key = {family.key: family for family in found}
        screen = ChooseScreen(
            "What shape is the piece?", [(f.key, f"{f.key}: {f.help}") for f in found]
        )
        self.app.push_screen(screen, partial(self._draw_piece, by_key))

    def _draw_piece(self, by_key: Mapping[str, FamilyForm], chosen: str | None) -> None:
        key, stash = self.table.chosen, stash_of(self)
        if chosen is None or key is None:
            return
        form = adding_piece(stash, self.found[key].pattern, by_key[chosen])
        self.app.push_screen(form, partial(self._piece_kept, self.found[key].pattern, form.form))

    def _piece_kept(self, before: Pattern, form: Form, kept: object) -> None:
        from stash.services.half_pieces import half_words

        if kept is not None:
            self.remark = half_words(before, cast("Pattern", kept))
        self._kept(form, kept)

    def action_chart(self) -> None:
        """Type one line of the envelope's chart."""
        key = self.table.chosen
        if key is not None:
            form = adding(stash_of(self), self.found[key].pattern, PartKind.CHART)
            self.app.push_screen(form, partial(self._row_kept, form.form))

    def _row_kept(self, form: Form, kept: object) -> None:
        from stash.services.chart_doubts import chart_doubts

        if kept is not None:
            pattern, system = cast("Pattern", kept), stash_of(self).settings.system
            self.remark = " ".join(chart_doubts(pattern, pattern.charts[-1:], system))
        self._kept(form, kept)

    def action_parts(self) -> None:
        """Open the parts of the chosen pattern."""
        from stash.tui.screens.parts import PartsScreen

        key = self.table.chosen
        if key is not None:
            self.app.push_screen(PartsScreen(key))

    def action_widths(self) -> None:
        """Work out what the chosen pattern needs over all common widths."""
        from stash.tui.screens.width_needs import WidthNeedsScreen

        key = self.table.chosen
        if key is not None:
            self.app.push_screen(WidthNeedsScreen(self.found[key].pattern))

    def action_import(self) -> None:
        """Look at a file with drawn pieces, and choose among them."""
        key = self.table.chosen
        if key is None:
            return
        pattern = self.found[key].pattern
        form = Form(
            title=f"Pieces for {pattern.name} from a file",
            fields=FILE_FIELDS,
            doing=READING,
            save=lambda texts: (texts, read_look(texts, pattern)),
        )
        self.app.push_screen(FormScreen(form), partial(self._choose_pieces, pattern))

    def _choose_pieces(self, pattern: Pattern, answer: object) -> None:
        from stash.tui.screens.pieces_found import FoundScreen

        if answer is None:
            return
        texts, look = cast("tuple[dict[str, str], Look]", answer)
        screen = FoundScreen(pattern, texts, look)
        self.app.push_screen(screen, lambda _: self._pieces_taken(screen.taken))

    def _pieces_taken(self, taken: str) -> None:
        if taken:
            self.post_message(Changed(taken))

    def action_lay(self) -> None:
        """Lay the chosen pattern; the lay asks for the width."""
        from stash.tui.screens.lay import LayScreen
        from stash.tui.screens.lay_asks import LayQuestion

        key = self.table.chosen
        if key is not None:
            self.app.push_screen(LayScreen(LayQuestion(pattern=key)))
