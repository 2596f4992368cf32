"""What the shelf amounts to: cloths, length and value by structure, fibre, year or state."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import TYPE_CHECKING

import pandas as pd

from stash.services.cloths import shelf
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.services.cloths import ShelfRow
    from stash.services.stash import Stash


CENT = Decimal("0.01")


class By(StrEnum):
    """What the shelf can be summed up by."""

    STRUCTURE = "structure"
    FIBRE = "fibre"
    YEAR = "year"
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
    """The shelf, or the cloths that match, summed up: most length first, years in order.

    A blend counts under the fibre it has most of.

    Raises:
        BadInputError: The filter cannot be read.
    """
    rows = shelf(stash, query)
    if not rows:
        return ()
    frame = pd.DataFrame([_record(row, by) for row in rows])
    sums = frame.groupby("group", sort=True).sum()
    if by is not By.YEAR:
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


def _record(row: ShelfRow, by: By) -> dict[str, object]:
    cloth = row.cloth
    metres = Decimal(cloth.left.nm) / 1_000_000_000
    return {
        "group": _group(row, by),
        "cloths": 1,
        "left": cloth.left.nm,
        "free": row.free.nm,
        "value": metres * (cloth.price or Decimal(0)),
        "unpriced": int(cloth.price is None),
    }


def _group(row: ShelfRow, by: By) -> str:
    cloth = row.cloth
    if by is By.STRUCTURE:
        return cloth.structure.value
    if by is By.STATE:
        return row.state.value
    if by is By.YEAR:
        return str(cloth.got.year) if cloth.got else "not known"
    if not cloth.fibres:
        return "not known"
    return max(cloth.fibres, key=lambda share: share.percent).fibre
