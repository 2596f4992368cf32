"""The outlines found in a file, drawn one by one, to be chosen before any is kept."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar, cast

from rich.text import Text
from textual import on
from textual.containers import Container
from textual.widgets import DataTable, Static

from stash.services.part_words import replaced_words
from stash.tui.actions import bindings
from stash.tui.messages import Answered
from stash.tui.screens.choose import ChooseScreen
from stash.tui.screens.form import Form, FormScreen
from stash.tui.screens.pieces_file import FILE_FIELDS, READING, read_look
from stash.tui.screens.room import Room
from stash.tui.show import counted, heading
from stash.tui.widgets.detail import Detail
from stash.tui.widgets.outlines import as_drawn, fitted
from stash.tui.widgets.rows import Column, Row, Rows
from stash.tui.work import app_of, ask, stash_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from textual.widget import Widget

    from stash.garment.pattern import Pattern
    from stash.report.drawn_text import FoundOutline
    from stash.services.pattern_import import Look
    from stash.services.stash import Stash

MARK = ""
"""Heading of the column that says what becomes of an outline."""
ALL = "all"
"""Chooses every drawn size, or the sizes as they are drawn."""


class FileRead(Answered):
    """The file was read again, another size of it or with other answers."""


class PiecesTaken(Answered):
    """The chosen pieces were kept."""


class FoundScreen(Room):
    """Opens over the Patterns; nothing is kept before Enter."""

    place = "found"
    BINDINGS = bindings("found")
    columns: ClassVar[tuple[Column, ...]] = (
        Column(MARK, 1),
        Column("No", 3),
        Column("Piece", 17),
        Column("Size", 6),
        Column("Cut", 9),
        Column("Along x across", 17),
        Column("Grain", 10),
    )

    def __init__(self, pattern: Pattern, texts: Mapping[str, str], look: Look) -> None:
        super().__init__()
        self.pattern = pattern
        self.texts = dict(texts)
        """What was typed about the file."""
        self.seen = look
        self.drawn_size = ""
        """The drawn size that is shown; empty: all."""
        self.keep_as = ""
        """The pattern's size the pieces are kept under; empty: as drawn."""
        self.wanted: set[int] = set()
        """Numbers of the outlines that are chosen."""
        self.taken = ""
        """What was kept, once it was."""

    def content(self) -> Iterable[Widget]:
        """What the file says of itself, every outline, and the chosen one drawn."""
        yield Static(id="figures", markup=False)
        yield Container(Rows(self.columns, id="rows"), Detail(), classes="with-detail -tall")
        yield Static("", classes="empty", markup=False)

    def on_mount(self) -> None:
        """Show what was read already."""
        self._seen = app_of(self).revision
        self._show(self.seen)

    def reload(self) -> None:
        """Read the file again."""
        texts, pattern, size = self.texts, self.pattern, self.drawn_size
        if not self._news:
            self.said.say(READING)
        ask(self, "read", lambda _: read_look(texts, pattern, size), FileRead)

    @on(FileRead)
    def _read_again(self, message: FileRead) -> None:
        self.end_progress()
        self._show(cast("Look", message.answer))

    def _show(self, look: Look) -> None:
        self.seen = look
        self.wanted = {one.number for one in look.taken if one.piece is not None}
        self._draw()

    def _draw(self) -> None:
        self.show_rows([self._row(one) for one in self.seen.sheet.found], nothing=False)
        self._tell()
        self.call_after_refresh(self._study)

    def _tell(self) -> None:
        """How many are chosen, and what the file says of itself."""
        sheet = self.seen.sheet
        wrong = sum(one.piece is None for one in sheet.found)
        told = [f"{len(self.wanted)} of {counted(len(sheet.found), 'outline')} chosen"]
        told += [f"✗ {wrong} cannot be used"] if wrong else []
        self.query_one("#heading", Static).update(f"{sheet.file}   {', '.join(told)}")
        lines = []
        if sheet.sizes:
            shown = f"only {self.drawn_size} is shown" if self.drawn_size else "all are shown"
            lines.append(f"Sizes drawn: {', '.join(sheet.sizes)}; {shown}.")
        if self.keep_as:
            lines.append(f"Kept as size {self.keep_as}.")
        lines += [f"{note}." for note in sheet.notes]
        self.query_one("#figures", Static).update(" ".join(lines))
        self.refresh_bindings()

    def _mark(self, one: FoundOutline) -> Text:
        if one.piece is None:
            return Text("✗", style=self.app.theme_variables["error"])
        return Text("✓" if one.number in self.wanted else "·")

    def _row(self, one: FoundOutline) -> Row:
        from stash.report.drawn_text import piece_cells

        system = stash_of(self).settings.system
        cut, grain, extent, _ = piece_cells(one.piece, system) if one.piece else ("", "", "", "")
        number = Text(str(one.number), justify="right")
        cells = (self._mark(one), number, one.name, one.size, cut, extent, grain)
        return Row(str(one.number), cells)

    @property
    def chosen(self) -> FoundOutline | None:
        """The outline under the cursor."""
        key = self.query_one(Rows).chosen
        return next((one for one in self.seen.sheet.found if str(one.number) == key), None)

    @on(DataTable.RowHighlighted)
    def _study(self) -> None:
        one = self.chosen
        if one is None:
            return
        detail, colours = self.query_one(Detail), self.app.theme_variables
        fate = "cannot be used" if one.piece is None else "is not chosen"
        fate = "will be taken" if one.number in self.wanted else fate
        room = detail.scrollable_content_region
        columns = max(12, room.width)
        text = Text.styled(f"{one.number} {one.name} {fate}", "bold")
        for trouble in one.wrong:
            text.append(f"\n✗ {trouble}", style=colours["error"])
        for guess in one.guessed if one.piece is not None else ():
            text.append(f"\n? {guess}")
        rows = max(6, room.height - len(text.wrap(self.app.console, columns)))
        if one.piece is not None:
            lines = fitted(one.piece, columns, rows)
        else:
            lines = as_drawn(one.line, columns, rows, closed=one.closed)
        text.append("\n" + "\n".join(lines))
        if self.seen.sheet.notes:
            heading(text, "The file", colours)
            for note in self.seen.sheet.notes:
                text.append(f"\n{note}.")
        detail.show(text)

    def on_resize(self) -> None:
        """Draw it as large as it goes now."""
        self.call_after_refresh(self._study)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys that have nothing to act on are not shown."""
        if action == "size" and not self.seen.sheet.sizes:
            return None
        if action == "keep_as" and not self.pattern.sizes:
            return None
        if action == "take" and not self.wanted:
            return None
        return super().check_action(action, parameters)

    def action_choose_piece(self) -> None:
        """Take the outline under the cursor, or leave it."""
        one = self.chosen
        if one is None:
            return
        if one.piece is None:
            self.said.say(f"! {one.name} cannot be used: mend the drawing first.")
            return
        self.wanted ^= {one.number}
        self.query_one(Rows).update_cell(str(one.number), MARK, self._mark(one))
        self._tell()
        self._study()

    def action_choose_all(self) -> None:
        """Choose every outline that can be used, or none."""
        good = {one.number for one in self.seen.sheet.found if one.piece is not None}
        self.wanted = set() if self.wanted else good
        self._draw()

    def action_size(self) -> None:
        """Choose one of the drawn sizes."""
        sizes = self.seen.sheet.sizes
        options = [(ALL, "All sizes"), *((f"={size}", f"Only {size}") for size in sizes)]
        now = f"={self.drawn_size}" if self.drawn_size else ALL
        self.app.push_screen(ChooseScreen("Which drawn size?", options, now), self._size_chosen)

    def _size_chosen(self, key: str | None) -> None:
        if key is not None:
            self.drawn_size = key.removeprefix("=") if key != ALL else ""
            self.reload()

    def action_keep_as(self) -> None:
        """Choose the size of the pattern that the pieces are."""
        options = [(ALL, "As they are drawn")]
        options += [(f"={size.label}", f"Size {size.label}") for size in self.pattern.sizes]
        now = f"={self.keep_as}" if self.keep_as else ALL
        self.app.push_screen(ChooseScreen("Kept as which size?", options, now), self._kept_as)

    def _kept_as(self, key: str | None) -> None:
        if key is not None:
            self.keep_as = key.removeprefix("=") if key != ALL else ""
            self._tell()

    def action_answers(self) -> None:
        """Change what was said about scale, grain, seam and pages, and read again."""
        pattern, size = self.pattern, self.drawn_size

        def read(texts: dict[str, str]) -> object:
            return texts, read_look(texts, pattern, size)

        form = Form(
            title=f"Pieces for {pattern.name} from a file",
            fields=FILE_FIELDS,
            doing=READING,
            texts=self.texts,
            save=read,
        )
        self.app.push_screen(FormScreen(form), self._answered)

    def _answered(self, answer: object) -> None:
        if answer is not None:
            self.texts, look = cast("tuple[dict[str, str], Look]", answer)
            self._show(look)

    def action_take(self) -> None:
        """Keep what is chosen, all in one change."""
        chosen = [one for one in self.seen.sheet.found if one.number in self.wanted]
        drawn = {one.size for one in chosen if one.size}
        strange = drawn - {size.label for size in self.pattern.sizes}
        if self.keep_as and len(drawn) > 1:
            self.said.say("! Several drawn sizes would be kept as one: z shows only one of them.")
        elif strange and not self.keep_as:
            named = f"{self.pattern.name} has no size {', '.join(sorted(strange))}"
            way = "k keeps the pieces as one of its sizes" if self.pattern.sizes else "add it first"
            self.said.say(f"! {named}: {way}.")
        else:
            look = replace(self.seen, picked=frozenset(self.wanted))
            stash, ref, keep_as = stash_of(self), str(self.pattern.id), self.keep_as
            ask(self, "take", lambda _: _taken(stash, ref, look, keep_as), PiecesTaken)

    @on(PiecesTaken)
    def _pieces_taken(self, message: PiecesTaken) -> None:
        kept = cast("Pattern", message.answer)
        lost = replaced_words(self.pattern, kept, stash_of(self).settings.system)
        told = f"✓ Kept {counted(len(self.wanted), 'piece')} for {kept.name}. ctrl+z undoes it."
        self.taken = f"{told} {lost}".rstrip()
        self.dismiss(None)

    async def action_back(self) -> None:
        """Back to the Patterns."""
        self.dismiss(None)


def _taken(stash: Stash, ref: str, look: Look, keep_as: str) -> Pattern:
    from stash.services.pattern_import import take_pieces

    return take_pieces(stash, ref, look, keep_as)
