"""A table people keep, looked at row by row before any of it is taken."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar, cast

from rich.text import Text
from textual import on
from textual.containers import Container
from textual.widgets import DataTable, Static

from stash.services import ready_fields as ready
from stash.services.fields import REQUIRED
from stash.services.import_rows import Standing
from stash.services.importing import preview, take
from stash.tui.actions import bindings
from stash.tui.messages import Answered, Changed
from stash.tui.screens.choose import ChooseScreen
from stash.tui.screens.confirm import ConfirmScreen
from stash.tui.screens.form import Form, FormScreen
from stash.tui.screens.import_form import TABLE_FIELDS, Opened, look_at
from stash.tui.screens.room import Room
from stash.tui.show import counted, heading
from stash.tui.widgets.detail import Detail
from stash.tui.widgets.rows import Column, Row, Rows
from stash.tui.work import app_of, ask, stash_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual.widget import Widget

    from stash.services.import_choices import Choices
    from stash.services.import_rows import RowRead
    from stash.services.importing import Preview, Taken

EMPTY = """There is no row below the headings.

Press esc to go back and name another file or sheet."""

NOTES, LEAVE = "notes", "leave"
MARK = ""
"""Heading of the column that says what becomes of a row."""
WIDTHS = (20, 10, 9, 11, 9)
"""Cells of the columns a preview shows; the last takes what is left."""


class TableRead(Answered):
    """The table was read again, with other choices."""


class RowsTaken(Answered):
    """Rows were taken into the stash."""


def ask_for_table(room: Room) -> None:
    """Ask for a file; once it can be read, show how."""
    stash = stash_of(room)
    form = Form(
        title="Bring in a table you keep",
        fields=TABLE_FIELDS,
        doing="Reading the file …",
        save=lambda texts: look_at(stash, texts),
    )

    def show(opened: object) -> None:
        if opened is not None:
            room.app.push_screen(ImportScreen(cast("Opened", opened)))

    room.app.push_screen(FormScreen(form), show)


class ImportScreen(Room):
    """Opens over a room; nothing is written before Enter and yes."""

    place = "import"
    BINDINGS = bindings("import")
    marks: ClassVar[dict[Standing, str]] = {Standing.THERE: "=", Standing.PROBLEM: "✗"}

    def __init__(self, opened: Opened) -> None:
        super().__init__()
        self.choices: Choices = opened.choices
        self.seen: Preview = opened.seen
        self.left_out: set[int] = set()
        """Numbers of good rows that are not wanted."""

    def content(self) -> Iterable[Widget]:
        """What is not known yet, every row, and the chosen one's reading."""
        kind = self.seen.kind
        widths = (*WIDTHS[: len(kind.shown) - 1], None)
        shown = [Column(kind.labels[k], w) for k, w in zip(kind.shown, widths, strict=True)]
        yield Static(id="figures", markup=False)
        with Container(classes="with-detail"):
            yield Rows([Column(MARK, 1), Column("Row", 5), *shown], id="rows")
            yield Detail()
        yield Static(EMPTY, classes="empty", markup=False)

    def on_mount(self) -> None:
        """Show what was read already."""
        self._seen = app_of(self).revision
        self._draw()

    def reload(self) -> None:
        """Read the file again: the choices or the stash may have changed."""
        stash, path, choices = stash_of(self), self.seen.path, self.choices
        if not self._news:
            self.said.say("Reading the file …")
        ask(self, "read", lambda _: preview(stash, path, choices), TableRead)

    @on(TableRead)
    def _read_again(self, message: TableRead) -> None:
        self.end_progress()
        self.seen = cast("Preview", message.answer)
        self._draw()

    @property
    def wanted(self) -> frozenset[int]:
        """Numbers of the rows that would be taken."""
        return frozenset(row.number for row in self.seen.ready) - self.left_out

    def _draw(self) -> None:
        self.show_rows([self._row(row) for row in self.seen.rows], nothing=not self.seen.rows)
        self._tell()

    def _tell(self) -> None:
        """How many rows are chosen, what is not known, and the row under the cursor."""
        seen, key = self.seen, self.query_one(Rows).chosen
        standing = [row.standing for row in seen.rows]
        told = [f"{len(self.wanted)} of {counted(len(seen.rows), 'row')} chosen"]
        for which, words in (
            (Standing.THERE, "there already"),
            (Standing.PROBLEM, "not understood"),
        ):
            if which in standing:
                told.append(f"{self.marks[which]} {standing.count(which)} {words}")
        self.query_one("#heading", Static).update(f"{seen.path.name}   {', '.join(told)}")
        self.query_one("#figures", Static).update(_columns_text(seen))
        if key is not None:
            self._study(key)

    def _mark(self, row: RowRead) -> Text:
        mark = self.marks.get(row.standing) or ("·" if row.number in self.left_out else "✓")
        return Text(mark, style=self.app.theme_variables["error"] if row.troubles else "")

    def _row(self, row: RowRead) -> Row:
        texts = (" ".join(row.texts.get(key, "").split()) for key in self.seen.kind.shown)
        number = Text(str(row.number), justify="right")
        return Row(str(row.number), (self._mark(row), number, *texts))

    @on(DataTable.RowHighlighted)
    def _rest_on(self, event: DataTable.RowHighlighted) -> None:
        if event.row_key.value is not None:
            self._study(event.row_key.value)

    def _study(self, key: str) -> None:
        row = next((row for row in self.seen.rows if str(row.number) == key), None)
        if row is not None:
            self.query_one(Detail).show(self._text(row))

    def _text(self, row: RowRead) -> Text:
        colours = self.app.theme_variables
        fate = "will be taken" if row.number in self.wanted else "is not chosen"
        if row.standing is not Standing.READY:
            fate = "stays out" if row.troubles else f"is {row.there}"
        text = Text.styled(f"Row {row.number} {fate}", "bold")
        for trouble in row.troubles:
            text.append(f"\n✗ {trouble}", style=colours["error"])
        for remark in row.remarks:
            text.append(f"\n{remark}")
        heading(text, "Read as", colours)
        said = {column.field for column in self.seen.columns} | self.choices.fixed.keys()
        said |= {self.seen.kind.notes, "structure"}  # from several columns; from the name
        for field in self.seen.kind.fields:
            if field.key in said and row.texts.get(field.key):
                text.append(f"\n{field.label}: ", style="dim")
                text.append(row.texts[field.key])
        heading(text, "Stands there as", colours)
        for column in self.seen.columns:
            if row.cells[column.place]:
                text.append(f"\n{column.label}: ", style="dim")
                text.append(row.cells[column.place])
        return text

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys that have nothing to act on are not shown."""
        if action == "rest" and not self.seen.unknown:
            return None
        if action in ("choose_row", "choose_all", "take") and not self.seen.ready:
            return None
        return super().check_action(action, parameters)

    def action_choose_row(self) -> None:
        """Take the row under the cursor, or leave it."""
        table = self.query_one(Rows)
        row = next((row for row in self.seen.ready if str(row.number) == table.chosen), None)
        if row is not None:
            self.left_out ^= {row.number}
            table.update_cell(str(row.number), MARK, self._mark(row))
            self._tell()

    def action_choose_all(self) -> None:
        """Choose every good row, or none."""
        self.left_out = {row.number for row in self.seen.ready} if self.wanted else set()
        self._draw()

    def action_column(self) -> None:
        """Choose a column, then say what it is."""
        seen = self.seen
        options = [
            (str(c.place), f"{c.label}: {_taken_for(c.field, seen)}, like {_sample(seen, c.place)}")
            for c in seen.columns
        ]
        first = str(seen.unknown[0].place) if seen.unknown else ""
        self.app.push_screen(ChooseScreen("Which column?", options, first), self._ask_field)

    def _ask_field(self, place: str | None) -> None:
        column = next((c for c in self.seen.columns if str(c.place) == place), None)
        if column is None:
            return
        kind = self.seen.kind
        options = [(NOTES, "Notes, under its heading")] if kind.notes else []
        options += [(LEAVE, "Leave it out")]
        options += [(key, label) for key, label in kind.labels.items() if key != NOTES]
        screen = ChooseScreen(f"What is “{column.label}”?", options, column.field)
        self.app.push_screen(screen, partial(self._name_column, column.label))

    def _name_column(self, label: str, field: str | None) -> None:
        if field is None:
            return
        # One column only can fill a field: what was said last counts.
        free = (NOTES, LEAVE)
        said = {
            other: now
            for other, now in self.choices.headings.items()
            if other.casefold() != label.casefold() and (now != field or field in free)
        }
        self.choices = replace(self.choices, headings=said | {label: field})
        self.reload()

    def action_rest(self) -> None:
        """Every column nobody knows goes into the notes, or is left out where there are none."""
        self.choices = replace(self.choices, others=NOTES if self.seen.kind.notes else LEAVE)
        self.reload()

    def action_take(self) -> None:
        """Ask, then take the chosen rows."""
        if self.seen.unknown:
            self.said.say("Say first what the columns are that are not known: c, or n for all.")
        elif not self.wanted:
            self.said.say("No row is chosen: space chooses one, a all that are good.")
        else:
            rows = counted(len(self.wanted), self.seen.kind.noun)
            left = len(self.seen.rows) - len(self.wanted)
            rest = f"\n{counted(left, 'row')} will stay out." if left else ""
            question = ConfirmScreen(f"Take {rows} into the stash?{rest}", yes="Take", no="Leave")
            self.app.push_screen(question, self._take)

    def _take(self, sure: bool | None) -> None:
        if sure:
            stash, seen, wanted = stash_of(self), self.seen, self.wanted
            self.said.say(f"Taking {counted(len(wanted), 'row')} …")
            ask(self, "take", lambda _: take(stash, seen, wanted), RowsTaken)

    @on(RowsTaken)
    def _say_taken(self, message: RowsTaken) -> None:
        taken = cast("Taken", message.answer)
        told = f"✓ Taken: {counted(taken.taken, self.seen.kind.noun)}. ctrl+z undoes it."
        if taken.left_in is not None:
            told += (
                f" {counted(taken.left, 'row')} left, with reasons: {taken.left_in.name} beside it."
            )
        self.post_message(Changed(told))

    def action_keep(self) -> None:
        """Keep the choices in a file, for the next table of this form."""
        from stash.services.import_choices import save_choices

        settled = self.seen.settled(self.choices)

        def save(texts: dict[str, str]) -> Path:
            path = Path(texts["file"].strip()).expanduser()
            save_choices(settled, path)
            return path

        usual = self.seen.path.with_name(f"{self.seen.path.stem}-choices.toml")
        form = Form(
            title="Keep what was said of this table",
            fields=(ready.text("file", "File", "Where to: ~/choices.toml", empty=REQUIRED),),
            texts={"file": str(usual)},
            save=save,
        )
        self.app.push_screen(FormScreen(form), self._say_kept)

    def _say_kept(self, path: object) -> None:
        if path is not None:
            self.said.say(f"✓ The choices are kept in {path}.")

    async def action_back(self) -> None:
        """Back to the room."""
        self.dismiss(None)


def _columns_text(seen: Preview) -> str:
    """What is not known, or what was not read."""
    told = []
    if seen.unknown:
        names = ", ".join(column.label for column in seen.unknown)
        told.append(f"Not known: {names}. c says what a column is.")
    if seen.passed:
        told.append(f"{counted(len(seen.passed), 'line')} passed over, no rows of their own.")
    if seen.other_sheets:
        told.append(f"Sheets not read: {', '.join(seen.other_sheets)}.")
    return " ".join(told)


def _taken_for(field: str, seen: Preview) -> str:
    return {"": "not known", LEAVE: "left out", NOTES: "notes"}.get(
        field, seen.kind.labels.get(field, field)
    )


def _sample(seen: Preview, place: int) -> str:
    column = next(c for c in seen.columns if c.place == place)
    return " ".join(seen.sample(column).split())[:20]
