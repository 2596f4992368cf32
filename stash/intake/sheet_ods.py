"""Workbooks of the open document format (.ods): the values, as text."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation
from typing import TYPE_CHECKING
from xml.etree import ElementTree

from stash.errors import BadInputError
from stash.intake.sheet import MOST_COLUMNS, MOST_ROWS, check_size
from stash.intake.sheet_zip import open_workbook, part

if TYPE_CHECKING:
    from collections.abc import Iterator

_TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
_OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
_TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"
_SIGNS = {"EUR": "€", "GBP": "£", "USD": "$"}


def read_ods(file: str, data: bytes) -> list[tuple[str, list[list[str]]]]:
    """Name and rows of every sheet with something in it; formulas are not worked out.

    Raises:
        BadInputError: It is no such workbook, or one that could do harm.
    """
    with open_workbook(file, data) as archive:
        content = part(file, archive, "content.xml")
    try:
        root = ElementTree.fromstring(content)
    except (ElementTree.ParseError, ValueError) as error:
        raise BadInputError(
            f"{file} is damaged or no workbook.", "Open it and save it again."
        ) from error
    found = [
        (table.get(f"{_TABLE}name", ""), _rows(file, table))
        for table in root.iter(f"{_TABLE}table")
    ]
    return [(name, rows) for name, rows in found if any(any(row) for row in rows)]


def _rows(file: str, table: ElementTree.Element) -> list[list[str]]:
    rows: list[list[str]] = []
    for row in table.iter(f"{_TABLE}table-row"):
        cells = _row(row)
        # Sheets end in a million empty rows, told as one that is repeated.
        times = _times(row, "number-rows-repeated", MOST_ROWS) if any(cells) else 1
        empty = 0 if any(cells) else _times(row, "number-rows-repeated", MOST_ROWS)
        if empty and len(rows) + empty > MOST_ROWS:
            break
        rows += [cells] * (empty or times)
        check_size(file, len(rows), len(cells))
    return rows


def _row(row: ElementTree.Element) -> list[str]:
    cells: list[str] = []
    for cell in row:
        if cell.tag not in (f"{_TABLE}table-cell", f"{_TABLE}covered-table-cell"):
            continue
        text = _cell(cell)
        cells += [text] * _times(cell, "number-columns-repeated", MOST_COLUMNS + 1)
        if len(cells) > MOST_COLUMNS and not text:
            del cells[MOST_COLUMNS:]
    return cells


def _times(element: ElementTree.Element, name: str, most: int) -> int:
    said = element.get(f"{_TABLE}{name}", "1")
    return min(int(said), most) if said.isdecimal() and len(said) < 9 and int(said) else 1


def _cell(cell: ElementTree.Element) -> str:
    """Numbers and dates as they are kept, exact; everything else as it is shown."""
    shown = "\n".join("".join(_words(line)) for line in cell.findall(f"{_TEXT}p"))
    kept = cell.get(f"{_OFFICE}value", "")
    match cell.get(f"{_OFFICE}value-type", ""):
        case "date":
            return cell.get(f"{_OFFICE}date-value", shown)[:10]
        case "boolean":
            return "yes" if cell.get(f"{_OFFICE}boolean-value") == "true" else "no"
        case "percentage":
            return _percent(kept) or shown
        case "currency" if kept:
            currency = cell.get(f"{_OFFICE}currency", "")
            return f"{_SIGNS.get(currency, currency)}{kept}"
        case "float" if kept and shown.strip().isascii() and _only_number(shown):
            return kept
    return shown


def _only_number(shown: str) -> bool:
    """Without a unit that the cell's format adds."""
    return not any(character.isalpha() or character in "\"'" for character in shown)


def _percent(kept: str) -> str:
    try:
        return f"{Decimal(kept) * 100:f} %"
    except (InvalidOperation, ValueError):
        return ""


def _words(line: ElementTree.Element) -> Iterator[str]:
    yield line.text or ""
    for child in line:
        if child.tag == f"{_TEXT}s":
            yield " "
        elif child.tag == f"{_TEXT}line-break":
            yield "\n"
        else:
            yield from _words(child)
        yield child.tail or ""
