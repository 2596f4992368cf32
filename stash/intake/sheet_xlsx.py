"""Workbooks (.xlsx): the values the person saw, as text."""

from __future__ import annotations

import io
import re
import warnings
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from itertools import zip_longest
from typing import TYPE_CHECKING

from openpyxl import load_workbook

from stash.errors import BadInputError
from stash.intake.sheet import MOST_ROWS, check_size
from stash.intake.sheet_zip import open_workbook

if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

_LAST_ROW = 1_048_576
"""Of the format itself; a row said to lie further down is not looked for."""
_CURRENCY = re.compile(r"\[\$([^\]\-]{1,5})")
_SIGN = re.compile(r"([£€$¥])")
_SUFFIX = re.compile(r'[0#?]\s*(?:\\ )?"([^"]{1,12})"')


def read_xlsx(file: str, data: bytes) -> list[tuple[str, list[list[str]]]]:
    """Name and rows of every sheet with something in it.

    Formulas are not worked out: the value kept beside one is read, or else its own text.

    Raises:
        BadInputError: It is no workbook, or one that could do harm.
    """
    open_workbook(file, data).close()
    try:
        with warnings.catch_warnings():
            # openpyxl warns of decorations it leaves out; we want none of them.
            warnings.simplefilter("ignore")
            return list(_sheets(file, data))
    except BadInputError:
        raise
    except Exception as error:  # openpyxl raises whatever a broken part makes it stumble over
        raise BadInputError(
            f"{file} is damaged or no workbook.", "Open it and save it again."
        ) from error


def _sheets(file: str, data: bytes) -> Iterator[tuple[str, list[list[str]]]]:
    saw, wrote = (
        load_workbook(
            io.BytesIO(data), read_only=True, data_only=values, keep_links=False, keep_vba=False
        )
        for values in (True, False)
    )
    for name in saw.sheetnames:
        sheet, formulas = saw[name], wrote[name]
        if not hasattr(sheet, "reset_dimensions"):
            continue  # a chart on a sheet of its own
        # What a file says of its own size is not to be believed.
        sheet.reset_dimensions()
        formulas.reset_dimensions()
        rows: list[list[str]] = []
        both = zip_longest(_cells(sheet), _cells(formulas), fillvalue=())
        for number, (values, written) in enumerate(both, 1):
            cells = [_text(a, b) for a, b in zip_longest(values, written, fillvalue=None)]
            if any(cells):
                check_size(file, number, len(cells))
            if number <= MOST_ROWS:
                rows.append(cells)
        if any(any(row) for row in rows):
            yield name, rows
    saw.close()
    wrote.close()


def _cells(sheet: Any) -> Iterator[tuple[Any, ...]]:
    rows: Iterator[tuple[Any, ...]] = sheet.iter_rows(max_row=_LAST_ROW)
    return rows


def _text(saw: Any, wrote: Any) -> str:
    """A cell as text; a formula nobody has worked out yet as it was written."""
    value = getattr(saw, "value", None)
    if value is None:
        value = getattr(wrote, "value", None)
    return value_text(value, str(getattr(saw, "number_format", "") or ""))


def value_text(value: object, shape: str) -> str:
    """A value with what its number format adds to it: per cent, currency, a unit in quotes."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, datetime):
        return str(value if value.time() != time(0) else value.date())[:19]
    if isinstance(value, (date, time, timedelta)):
        return str(value)
    if isinstance(value, (int, float)):
        return _number(value, shape)
    return str(value)


def _number(value: float, shape: str) -> str:
    percent = "%" in re.sub(r'"[^"]*"|\\.', "", shape)
    # Fifteen digits are what a sheet holds; more are leavings of binary fractions.
    exact = Decimal(f"{value * (100 if percent else 1):.15g}")
    if not exact.is_finite():
        return str(value)
    digits = f"{exact:f}"
    if percent:
        return f"{digits} %"
    if sign := _CURRENCY.search(shape) or _SIGN.search(shape):
        return f"{digits} {sign[1]}"
    if suffix := _SUFFIX.search(shape):
        return f"{digits} {suffix[1].strip()}"
    return digits
