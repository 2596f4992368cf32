"""What came in against what was cut, month by month."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

import pandas as pd

from stash.garment.make import DiaryKind
from stash.store import cloths, diary, promises
from stash.units.length import Length

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from stash.services.stash import Stash

NOT_KNOWN = "not known"
CENT = Decimal("0.01")


@dataclass(frozen=True, slots=True, kw_only=True)
class Month:
    """One month: `2026-11`, or `not known` for cloth that came or was cut on no known day."""

    month: str
    cloths: int
    """How many came."""
    bought: Length
    spent: Decimal
    """For those with a price, in the currency of the settings."""
    cut: Length


def months(stash: Stash) -> tuple[Month, ...]:
    """Every month in which cloth came or was cut, in order; what has no day stands last.

    Cloth came on the day it was got. What was cut is what makes hold as cut; the day is that
    of the diary's line about the same cloth and make.
    """
    with stash.read() as session:
        records = [*_came(session), *_cut(session)]
    if not records:
        return ()
    sums = pd.DataFrame(records).groupby("month", sort=True).sum()  # "not known" sorts last
    return tuple(
        Month(
            month=str(month),
            cloths=int(line["cloths"]),
            bought=Length(int(line["bought"])),
            spent=Decimal(line["spent"]).quantize(CENT),
            cut=Length(int(line["cut"])),
        )
        for month, line in sums.iterrows()
    )


def _came(session: Session) -> list[dict[str, object]]:
    return [
        {
            "month": f"{cloth.got:%Y-%m}" if cloth.got else NOT_KNOWN,
            "cloths": 1,
            "bought": cloth.bought.nm,
            "spent": Decimal(cloth.bought.nm) / 1_000_000_000 * (cloth.price or Decimal(0)),
            "cut": 0,
        }
        for cloth in cloths.all_cloths(session)
    ]


def _cut(session: Session) -> list[dict[str, object]]:
    days = {
        (line.cloth_id, line.make_id): f"{line.day:%Y-%m}"
        for line in diary.entries(session)
        if line.kind is DiaryKind.CUT
    }
    return [
        {
            "month": days.get((held.cloth_id, held.make_id), NOT_KNOWN),
            "cloths": 0,
            "bought": 0,
            "spent": Decimal(0),
            "cut": held.length.nm,
        }
        for held in promises.all_promises(session)
        if held.cut
    ]
