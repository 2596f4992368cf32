"""The rows of a table that were not taken, written beside it with their reasons."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.report.sheet_out import sheet_bytes, write_bytes

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from stash.services.import_rows import RowRead

WHY = "Why not taken"


def write_left(path: Path, headings: Sequence[str], rows: Sequence[tuple[RowRead, str]]) -> Path:
    """Write rows and reasons to `FILE.left.csv`, or the next free name; returns the name.

    The file can be mended and read again: its last column is left out by itself.
    """
    again = WHY in headings
    head = list(headings) if again else [*headings, WHY]
    at = head.index(WHY)
    lines = [[*row.cells[:at], why, *row.cells[at + 1 :]] for row, why in rows]
    place = path.with_name(f"{path.name}.left.csv")
    data = sheet_bytes(place, head, lines)
    for number in range(2, 1000):
        if not place.exists() or place.read_bytes() == data:
            break
        # What was left before may have been mended there meanwhile.
        place = path.with_name(f"{path.name}.left-{number}.csv")
    else:
        raise BadInputError(f"There are too many {path.name}.left files.", "Remove some of them.")
    write_bytes(place, data)
    return place
