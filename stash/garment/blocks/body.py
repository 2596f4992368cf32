"""The body a block is drafted for: what the size table gives, the rest from published tables.

Rows of women after W. Aldrich, *Metric Pattern Cutting for Women's Wear*, of men after the same
author's *Metric Pattern Cutting for Menswear*; all from memory. Girths of the women's rows
agree with the steps of EN 13402-3 (from memory). Children by stature after European size
tables (from memory); their girths agree with 16 CFR 1615.1 and 1616.2, whose tables of
close-fitting sleepwear give chest, waist and seat by size.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from stash.garment.measures import by_name

if TYPE_CHECKING:
    from collections.abc import Mapping

    from stash.garment.pattern import Size
    from stash.units.length import Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """Measures of a body, mm."""

    stature: float
    bust: float
    """Or chest."""
    waist: float
    hip: float
    neck: float
    shoulder: float
    """Length of one shoulder seam."""
    upper_arm: float
    wrist: float
    nape_to_waist: float
    armhole: float
    """Nape down to the level of the underarm."""
    waist_to_hip: float
    waist_to_knee: float
    waist_to_floor: float
    rise: float
    """Waist down to the seat, sitting."""
    arm: float
    """Shoulder tip to wrist."""


def _row(*cm: float) -> Body:
    names = [field.name for field in fields(Body)]
    return Body(**{name: 10 * value for name, value in zip(names, cm, strict=True)})


WOMEN = (
    _row(160, 80, 64, 88, 35, 11.75, 26, 15, 40, 20.2, 20, 57.5, 102, 26.6, 57.5),
    _row(166, 92, 76, 100, 38, 12.5, 29.6, 16.5, 41.5, 21.4, 20.9, 59, 105, 28.7, 59),
    _row(170, 104, 88, 112, 41, 13.25, 33.2, 18, 43, 22.6, 21.8, 60.5, 108, 30.8, 60.5),
    _row(172, 122, 106, 132, 44, 14.2, 38.6, 19.5, 44.5, 24.4, 22.5, 61.5, 110, 33.8, 61.5),
)
MEN = (
    _row(170, 88, 74, 92, 37, 14.5, 29, 16.5, 43.4, 22.8, 20, 59, 105, 26.6, 62.5),
    _row(176, 100, 86, 104, 40, 15.3, 32, 17.5, 44.6, 24.4, 21, 61, 108, 28, 64.5),
    _row(182, 112, 98, 116, 43, 16.1, 35, 18.5, 45.8, 26, 22, 63, 111, 29.4, 66),
    _row(184, 124, 112, 126, 46, 16.9, 38, 19.5, 46.6, 27.6, 22.6, 63.5, 113, 30.8, 66.5),
)
CHILDREN = (
    _row(92, 53, 51, 55, 26, 7.6, 17, 12.4, 23, 13, 12, 33, 55, 17, 32),
    _row(116, 60, 55, 63, 28.5, 9, 19.2, 13.4, 27.6, 15.4, 14.4, 41, 71.5, 19.3, 41),
    _row(140, 70, 62, 75, 31, 10.6, 22.4, 14.6, 32.6, 17.8, 17, 49.5, 88, 22.5, 50),
    _row(158, 80, 66, 86, 34, 11.6, 25.4, 15.4, 38, 19.6, 19.4, 56, 100, 25.6, 56),
)
TALLEST_CHILD = 1500.0
"""mm of stature up to which the children's rows are read."""

NAMES = {
    "stature": "stature",
    "height": "stature",
    "bust": "bust",
    "bust girth": "bust",
    "chest": "bust",
    "chest girth": "bust",
    "waist": "waist",
    "waist girth": "waist",
    "hip": "hip",
    "hip girth": "hip",
    "neck": "neck",
    "neck girth": "neck",
    "shoulder length": "shoulder",
    "upper arm girth": "upper_arm",
    "wrist girth": "wrist",
    "back waist length": "nape_to_waist",
    "arm length": "arm",
    "body rise": "rise",
    "crotch depth": "rise",
    "outside leg length": "waist_to_floor",
}
"""Names of size tables, ISO 8559-1 where known, and what they mean here."""

STRETCH = 1.0
"""Steps between two rows by which a body may lie beyond the first or last of them."""


def body_of(size: Size | None, *, child: bool = False) -> Body:
    """The body of a size: its own measures, the others from the rows it stands between.

    Where it stands is told by stature for children, else by bust, hip or waist, the first that
    is known; without any, the second row is taken.
    """
    measures = by_name(size.body) if size is not None else {}
    given = {NAMES[name]: length.mm for name, length in measures.items() if name in NAMES}
    rows, order = _rows(measures, given, child)
    by = next((name for name in order if name in given), None)
    return replace(rows[1] if by is None else _between(rows, by, given[by]), **given)


def _rows(
    measures: Mapping[str, Length], given: Mapping[str, float], child: bool
) -> tuple[tuple[Body, ...], tuple[str, ...]]:
    """The rows to read, and the measures that tell where, the surest first."""
    if child or given.get("stature", TALLEST_CHILD) < TALLEST_CHILD:
        return CHILDREN, ("stature", "bust", "hip", "waist")
    mens = "bust" in given and not measures.keys() & {"bust", "bust girth"}
    return (MEN if mens else WOMEN), ("bust", "hip", "waist")


def _between(rows: tuple[Body, ...], by: str, value: float) -> Body:
    """The row at which `by` has this value, drawn on in a straight line beyond the ends."""
    pairs = list(pairwise(rows))
    low, high = next((pair for pair in pairs if value <= getattr(pair[1], by)), pairs[-1])
    share = (value - getattr(low, by)) / (getattr(high, by) - getattr(low, by))
    share = min(max(share, -STRETCH), 1 + STRETCH)
    return Body(
        **{
            field.name: (1 - share) * getattr(low, field.name) + share * getattr(high, field.name)
            for field in fields(Body)
        }
    )
