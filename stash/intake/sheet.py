"""A table people keep, as rows of plain text, whatever kind of file it came in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.intake.file_bytes import file_bytes

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

LARGEST = 20_000_000
"""Bytes of a file; a shelf of ten thousand cloths takes far less."""
MOST_ROWS, MOST_COLUMNS, LONGEST_CELL = 50_000, 200, 5_000
WORKBOOKS = (".xlsx", ".xlsm", ".ods")
TABLES = (".csv", ".tsv", ".tab", ".txt")


@dataclass(frozen=True, slots=True)
class Sheet:
    """One table. Rows are counted from 1, as the person sees them; all are equally long."""

    file: str
    name: str
    """Name of the sheet in its workbook; empty for a file that is one table."""
    rows: tuple[tuple[str, ...], ...]

    def row(self, number: int) -> tuple[str, ...]:
        """The cells of row `number`."""
        return self.rows[number - 1]


def read_sheets(path: Path) -> tuple[Sheet, ...]:
    """Every table in a file, each cell as text: nothing is worked out, nothing fetched.

    Raises:
        NotFoundError: There is no such file.
        BadInputError: It is no table, is damaged, or is larger than any stash.
    """
    kind = path.suffix.lower()
    if kind not in WORKBOOKS + TABLES:
        raise BadInputError(
            f"{path.name} is not a table that is read here.",
            "Save it as .csv, .xlsx or .ods.",
        )
    data = file_bytes(path, LARGEST, "Keep only the table in it.")
    # pandas and openpyxl are slow to load, so each only for its own kind of file.
    if kind in TABLES:
        from stash.intake.sheet_csv import read_csv

        return (sheet_of(path.name, "", read_csv(path.name, data)),)
    if kind == ".ods":
        from stash.intake.sheet_ods import read_ods as read
    else:
        from stash.intake.sheet_xlsx import read_xlsx as read
    return tuple(sheet_of(path.name, name, rows) for name, rows in read(path.name, data))


def sheet_of(file: str, name: str, rows: Sequence[Sequence[str]]) -> Sheet:
    """Rows made equally long, without empty rows and columns at the end.

    Raises:
        BadInputError: Too many rows or columns, or a cell longer than a page.
    """
    stripped = [tuple(cell.strip(" \xa0\r\n") for cell in row) for row in rows]
    while stripped and not any(stripped[-1]):
        stripped.pop()
    wide = max((_used(row) for row in stripped), default=0)
    check_size(file, len(stripped), wide)
    if any(len(cell) > LONGEST_CELL for row in stripped for cell in row):
        raise BadInputError(
            f"{file} has a cell of more than {LONGEST_CELL} characters.", "Shorten it there."
        )
    even = tuple((row + ("",) * wide)[:wide] for row in stripped)
    return Sheet(file, name, even)


def check_size(file: str, rows: int, columns: int) -> None:
    """Refuse a table larger than any stash, before it fills the memory."""
    if rows > MOST_ROWS or columns > MOST_COLUMNS:
        raise BadInputError(
            f"{file} has more than {MOST_ROWS} rows or {MOST_COLUMNS} columns.",
            "Keep only the table of the stash in it.",
        )


def _used(row: Sequence[str]) -> int:
    return max((place for place, cell in enumerate(row, 1) if cell), default=0)
