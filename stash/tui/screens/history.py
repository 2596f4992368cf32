"""The history: every change of the stash, with what it did before and after."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, cast

from rich.text import Text
from textual import on
from textual.containers import Container
from textual.widgets import DataTable, Static

from stash.services import history
from stash.services.undoing import undo
from stash.tui.actions import bindings
from stash.tui.messages import Answered
from stash.tui.screens.room import Room
from stash.tui.show import counted, heading
from stash.tui.widgets.detail import Detail
from stash.tui.widgets.rows import Column, Row, Rows
from stash.tui.work import ask, stash_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual.widget import Widget

    from stash.services.change_words import RowChange
    from stash.services.history import Entry

EMPTY = """Nothing was changed yet.

What you add, edit and remove will stand here, and can be undone. Press esc to go back."""
LATEST = 200
"""How many changes are listed."""
ROWS = 40
"""How many rows of one change are shown: a whole stash may have been read at once."""


class HistoryRead(Answered):
    """The latest changes were read."""


class EntryRead(Answered):
    """What one change did was read."""


class HistoryScreen(Room):
    """Opens over the Diary; Escape goes back to it."""

    place = "history"
    BINDINGS = bindings("history")
    columns: ClassVar[tuple[Column, ...]] = (
        Column("No", 5),
        Column("When", 16),
        Column("Who", 8),
        Column("What", 34),
        Column(""),
    )

    def __init__(self) -> None:
        super().__init__()
        self.entries: dict[str, Entry] = {}

    def content(self) -> Iterable[Widget]:
        """The table with the chosen change beside it."""
        with Container(classes="with-detail"):
            yield Rows(self.columns, id="rows")
            yield Detail()
        yield Static(EMPTY, classes="empty", markup=False)

    def reload(self) -> None:
        """Read the latest changes."""
        ask(self, "read", lambda _: history.history(stash_of(self), count=LATEST), HistoryRead)

    @on(HistoryRead)
    def _show(self, message: HistoryRead) -> None:
        entries = cast("tuple[Entry, ...]", message.answer)
        self.entries = {str(entry.id): entry for entry in entries}
        self.show_rows([_row(entry) for entry in entries], nothing=not entries)
        self.head(counted(len(entries), "change"))

    @on(DataTable.RowHighlighted)
    def _chosen(self, event: DataTable.RowHighlighted) -> None:
        if event.row_key.value in self.entries:
            self._study(self.entries[event.row_key.value])

    def _study(self, entry: Entry) -> None:
        ask(self, "study", lambda _: history.entry(stash_of(self), entry.id), EntryRead)

    @on(EntryRead)
    def _show_entry(self, message: EntryRead) -> None:
        self.query_one(Detail).show(self._text(cast("Entry", message.answer)))

    def _text(self, entry: Entry) -> Text:
        colours = self.app.theme_variables
        text = Text()
        heading(text, f"{entry.what}", colours)
        text.append(f"\n{entry.when}, {entry.who}")
        for row in entry.rows[:ROWS]:
            heading(text, f"{row.title} {row.how}", colours)
            text.append_text(_fields(row))
        if len(entry.rows) > ROWS:
            text.append(f"\n\nand {counted(len(entry.rows) - ROWS, 'row')} more")
        return text

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """There is nothing to undo in an empty history."""
        if action == "turn_back" and not self.entries:
            return None
        return super().check_action(action, parameters)

    def action_turn_back(self) -> None:
        """Undo the chosen change, or take its undo back."""
        key = self.query_one(Rows).chosen
        if key is not None:
            self.turn_back(lambda _: undo(stash_of(self), int(key)))

    async def action_back(self) -> None:
        """Back to the Diary."""
        self.dismiss(None)


def _row(entry: Entry) -> Row:
    state = f"undone by {entry.undone_by}" if entry.undone_by else ""
    return Row(str(entry.id), (str(entry.id), entry.when, entry.who, entry.what, state))


def _fields(row: RowChange) -> Text:
    text = Text()
    for one in row.fields:
        text.append(f"\n{one.label}: ", style="dim")
        if row.how == "changed":
            text.append(f"{one.before or 'nothing'} → {one.after or 'nothing'}")
        else:
            text.append(one.after or one.before)
    return text
