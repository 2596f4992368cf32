"""What the shelf amounts to: cloths, length and value by structure, fibre, year, age or state."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import TYPE_CHECKING

import pandas as pd

from stash.services.cloths import shelf
from stash.units.length import Length

if TYPE_CHECKING:
    from datetime import date

    from stash.services.cloths import ShelfRow
    from stash.services.stash import Stash


CENT = Decimal("0.01")
AGES = ((1, "under 1 year"), (2, "1 year"), (5, "2 to 4 years"), (10, "5 to 9 years"))
OLDER, NO_AGE = "10 years and more", "not known"


class By(StrEnum):
    """What the shelf can be summed up by."""

    STRUCTURE = "structure"
    FIBRE = "fibre"
    YEAR = "year"
    AGE = "age"
    STATE = "state"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sum:
    """One line of the summary; lengths as the cloths lie on the shelf now."""

    group: str
    cloths: int
    left: Length
    free: Length
    value: Decimal
    """Of what is left, in the currency of the settings; unpriced cloths count nothing."""
    unpriced: int


def shelf_summary(stash: Stash, by: By, query: str = "") -> tuple[Sum, ...]:
    """The shelf, or the cloths that match, summed up: most length first, years and ages in order.

    A blend counts under the fibre it has most of.

    Raises:
        BadInputError: The filter cannot be read.
    """
    rows = shelf(stash, query)
    if not rows:
        return ()
    frame = pd.DataFrame([_record(row, by, stash.today()) for row in rows])
    sums = frame.groupby("group", sort=True).sum()
    if by is By.AGE:
        order = [*(words for _, words in AGES), OLDER, NO_AGE]
        sums = sums.reindex([words for words in order if words in sums.index])
    elif by is not By.YEAR:
        sums = sums.sort_values("left", ascending=False, kind="stable")
    return tuple(
        Sum(
            group=str(group),
            cloths=int(line["cloths"]),
            left=Length(int(line["left"])),
            free=Length(int(line["free"])),
            value=line["value"].quantize(CENT),
            unpriced=int(line["unpriced"]),
        )
        for group, line in sums.iterrows()
    )


def _record(row: ShelfRow, by: By, today: date) -> dict[str, object]:
    cloth = row.cloth
    metres = Decimal(cloth.left.nm) / 1_000_000_000
    return {
        "group": _group(row, by, today),
        "cloths": 1,
        "left": cloth.left.nm,
        "free": row.free.nm,
        "value": metres * (cloth.price or Decimal(0)),
        "unpriced": int(cloth.price is None),
    }


def _group(row: ShelfRow, by: By, today: date) -> str:
    cloth = row.cloth
    if by is By.STRUCTURE:
        return cloth.structure.value
    if by is By.STATE:
        return row.state.value
    if by is By.AGE:
        return _age(cloth.got, today)
    if by is By.YEAR:
        return str(cloth.got.year) if cloth.got else "not known"
    if not cloth.fibres:
        return "not known"
    return max(cloth.fibres, key=lambda share: share.percent).fibre


def _age(got: date | None, today: date) -> str:
    """How long it has lain there, in whole years: a birthday not reached yet does not count."""
    if got is None:
        return NO_AGE
    years = today.year - got.year - ((today.month, today.day) < (got.month, got.day))
    return next((words for below, words in AGES if years < below), OLDER)
