"""Tables for other programs: CSV and workbooks, without a cell that could run as a formula."""

from __future__ import annotations

import csv
import io
import re
from typing import TYPE_CHECKING

from stash.errors import BadInputError

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

_FORMULA = re.compile(r"'*[=+\-@\t\r]")
_UNWRITABLE = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]")
"""Characters that a workbook's XML cannot hold."""


def safe_cell(text: str) -> str:
    """A cell no sheet takes for a formula: such a one gets an apostrophe before it.

    `intake.cells.undone` takes it away again.
    """
    plain = _UNWRITABLE.sub("", text.replace("\r\n", "\n").replace("\r", "\n"))
    return f"'{plain}" if _FORMULA.match(plain) else plain


def sheet_bytes(path: Path, headings: Sequence[str], rows: Sequence[Sequence[str]]) -> bytes:
    """A table as the file `path` would hold it: `.csv` or `.xlsx`.

    Raises:
        BadInputError: Another kind of file.
    """
    lines = [[safe_cell(cell) for cell in row] for row in (headings, *rows)]
    match path.suffix.lower():
        case ".csv":
            return _csv(lines)
        case ".xlsx":
            return _xlsx(lines)
    raise BadInputError(
        f"{path.name} is no kind of table that is written here.",
        "Name a file that ends in .csv or .xlsx.",
    )


def write_bytes(path: Path, data: bytes) -> None:
    """Write a file, whole or not at all; BadInputError if it cannot be written."""
    half_written = path.with_name(path.name + ".new")
    try:
        half_written.write_bytes(data)
        half_written.replace(path)
    except OSError as error:
        raise BadInputError(
            f"{path} cannot be written: {error.strerror}.", "Name another file."
        ) from error


def _csv(lines: Sequence[Sequence[str]]) -> bytes:
    text = io.StringIO(newline="")
    csv.writer(text).writerows(lines)
    # With its mark, sheets do not take UTF-8 for another encoding.
    return text.getvalue().encode("utf-8-sig")


def _xlsx(lines: Sequence[Sequence[str]]) -> bytes:
    # Heavy, and needed for this kind of file only.
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell

    book = Workbook(write_only=True)
    sheet = book.create_sheet("stash")
    for line in lines:
        cells = []
        for text in line:
            cell = WriteOnlyCell(sheet, text)
            cell.data_type = "s"  # text, whatever it looks like
            cells.append(cell)
        sheet.append(cells)
    data = io.BytesIO()
    book.save(data)
    return data.getvalue()
