"""Days as people write them. Whether 3/4 is in March or April, only its column can say."""

from __future__ import annotations

import re
from datetime import date
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.intake.cell_words import MONTHS
from stash.units.letters import bare_letters

if TYPE_CHECKING:
    from collections.abc import Iterable

_ISO = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[ t]\d{1,2}:\d{2}.*)?")
_FIGURES = re.compile(r"(\d{1,2})\s*([-/.])\s*(\d{1,2})\s*[-/.]\s*(\d{4}|\d{2})")
_DAY_FIRST = re.compile(
    r"(\d{1,2})(?:st|nd|rd|th|er)?[\s.\-/]*(?:de )?([^\W\d_]+)[\s.,\-/]*(?:de )?(\d{4}|\d{2})"
)
_MONTH_FIRST = re.compile(r"([^\W\d_]+)\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})")
_MONTH_ONLY = re.compile(r"([^\W\d_]+)[\s.,\-/]*(\d{4})")
_HINT = "Type it as 2026-10-31."


def column_order(texts: Iterable[str]) -> bool | None:
    """Whether a column writes the day before the month; None: no cell of it says, or both do."""
    orders = set()
    for text in texts:
        found = _FIGURES.fullmatch(text.strip())
        if found:
            first, second = int(found[1]), int(found[3])
            if first > 12 >= second:
                orders.add(True)
            elif second > 12 >= first:
                orders.add(False)
    return orders.pop() if len(orders) == 1 else None


def read_date(text: str, day_first: bool | None, today: date) -> tuple[date, bool]:
    """A day, and whether the text said it to the day (else it is the first of the month).

    Args:
        text: What stands in the cell.
        day_first: What `column_order` found.
        today: For years of two figures: they lie in the past.

    Raises:
        BadInputError: It is no day, or may be two different ones.
    """
    plain = bare_letters(text)
    if iso := _ISO.fullmatch(plain):
        return _date(text, int(iso[1]), int(iso[2]), int(iso[3])), True
    if figures := _FIGURES.fullmatch(plain):
        return _from_figures(text, figures, day_first, today), True
    if said := _DAY_FIRST.fullmatch(plain):
        return _date(text, _year(said[3], today), _month(text, said[2]), int(said[1])), True
    if said := _MONTH_FIRST.fullmatch(plain):
        return _date(text, int(said[3]), _month(text, said[1]), int(said[2])), True
    if said := _MONTH_ONLY.fullmatch(plain):
        return _date(text, int(said[2]), _month(text, said[1]), 1), False
    raise BadInputError(f"{text[:40]!r} is not a day.", _HINT)


def _from_figures(text: str, figures: re.Match[str], day_first: bool | None, today: date) -> date:
    first, second = int(figures[1]), int(figures[3])
    # With dots the day comes first wherever dots are used.
    order = True if figures[2] == "." else day_first
    if first > 12:
        order = True
    elif second > 12:
        order = False
    if order is None and first != second:
        raise BadInputError(
            f"{text.strip()!r} may be day and month, or month and day.",
            "Type it as 2026-10-31, or say --dates day-first or --dates month-first.",
        )
    day, month = (second, first) if order is False else (first, second)
    return _date(text, _year(figures[4], today), month, day)


def _year(figures: str, today: date) -> int:
    if len(figures) == 4:
        return int(figures)
    year = today.year // 100 * 100 + int(figures)
    return year if year <= today.year else year - 100


def _month(text: str, word: str) -> int:
    if word not in MONTHS:
        raise BadInputError(f"{text[:40]!r} is not a day.", _HINT)
    return MONTHS[word]


def _date(text: str, year: int, month: int, day: int) -> date:
    try:
        return date(year, month, day)
    except ValueError as error:
        raise BadInputError(f"There is no such day as {text.strip()[:40]!r}.", _HINT) from error
