"""A table of records: keeps the cursor on the same record when it is filled anew."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from rich.text import Text
from textual.binding import Binding, BindingType
from textual.widgets import DataTable

if TYPE_CHECKING:
    from collections.abc import Sequence

BATCH = 200
"""Rows added before the screen may draw again: a large shelf must not hold up the keys."""


@dataclass(frozen=True, slots=True)
class Column:
    """A heading and, for a column that must not push others out, its width in cells."""

    label: str
    width: int | None = None


@dataclass(frozen=True, slots=True)
class Row:
    """One record: its key and its cells."""

    key: str
    cells: tuple[str | Text, ...]


def _fitted(cell: str | Text, column: Column) -> Text:
    """The cell, cut with an ellipsis where its column is too narrow."""
    text = Text(cell) if isinstance(cell, str) else cell
    if column.width is not None:
        text.truncate(column.width, overflow="ellipsis")
    return text


class Rows(DataTable[Text], inherit_bindings=False):
    """One record a row. Enter is left to the screen."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "cursor_up", "Up", show=False),
        Binding("down", "cursor_down", "Down", show=False),
        Binding("pageup", "page_up", "Page up", show=False),
        Binding("pagedown", "page_down", "Page down", show=False),
        Binding("home", "scroll_top", "First", show=False),
        Binding("end", "scroll_bottom", "Last", show=False),
        Binding("left", "cursor_left", "Left", show=False),
        Binding("right", "cursor_right", "Right", show=False),
    ]

    def __init__(self, columns: Sequence[Column], *, id: str) -> None:  # noqa: A002 - Textual's name
        super().__init__(id=id, cursor_type="row", zebra_stripes=False)
        self._columns = tuple(columns)
        self._waiting: list[Row] = []
        self._wanted: str | None = None

    def on_mount(self) -> None:
        """Put the headings up."""
        for column in self._columns:
            self.add_column(column.label, width=column.width, key=column.label)

    def fill(self, rows: Sequence[Row], *, chosen: str | None = None) -> None:
        """Show these rows; the cursor goes to `chosen`, or stays with the record it is on."""
        wanted = chosen or self.chosen
        self.clear()
        self._wanted = wanted
        self._waiting = list(rows)
        self._add_batch()

    @property
    def chosen(self) -> str | None:
        """Key of the row under the cursor; None when there are no rows."""
        if not self.row_count:
            return None
        return self.coordinate_to_cell_key(self.cursor_coordinate).row_key.value

    def choose(self, key: str) -> None:
        """Move the cursor to a record, now or as soon as it is added."""
        self._wanted = key
        self._go_to_wanted()

    def _add_batch(self) -> None:
        batch, self._waiting = self._waiting[:BATCH], self._waiting[BATCH:]
        for row in batch:
            self.add_row(*map(_fitted, row.cells, self._columns), key=row.key)
        self._go_to_wanted()
        if self._waiting:
            self.call_after_refresh(self._add_batch)

    def _go_to_wanted(self) -> None:
        if self._wanted is None:
            return
        key = self._wanted
        if key in {row.value for row in self.rows}:
            self.move_cursor(row=self.get_row_index(key), animate=False)
            self._wanted = None
