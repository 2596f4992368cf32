"""A table moved through cell by cell; its first column stays while the others scroll."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.text import Text
from textual.widgets import DataTable

from stash.tui.widgets.rows import Rows

if TYPE_CHECKING:
    from collections.abc import Sequence

NAME_WIDTH = 22


class Squares(DataTable[Text], inherit_bindings=False):
    """Names down the side, short heads along the top. Enter is left to the screen."""

    BINDINGS = Rows.BINDINGS

    def __init__(self) -> None:
        super().__init__(id="squares", cursor_type="cell", fixed_columns=1)

    def lay_out(self, name: str, heads: Sequence[str], sides: Sequence[tuple[str, Text]]) -> None:
        """Make it anew: heads get the keys `0`, `1` …, rows the keys given with their names."""
        self.clear(columns=True)
        self.add_column(name, width=NAME_WIDTH, key="name")
        for place, head in enumerate(heads):
            self.add_column(head, width=3, key=str(place))
        for key, side in sides:
            side.truncate(NAME_WIDTH, overflow="ellipsis")
            self.add_row(side, *(Text("·") for _ in heads), key=key)
        if heads:
            self.move_cursor(row=0, column=1, animate=False)

    def put(self, row: str, place: int, cell: Text) -> None:
        """Write one cell."""
        self.update_cell(row, str(place), cell)

    @property
    def chosen(self) -> tuple[str, int] | None:
        """Key of the row and place of the column under the cursor; None beside the cells."""
        if not self.row_count:
            return None
        key = self.coordinate_to_cell_key(self.cursor_coordinate)
        if key.row_key.value is None or key.column_key.value in (None, "name"):
            return None
        return key.row_key.value, int(key.column_key.value)
