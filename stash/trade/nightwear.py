"""Greatest measures of tight-fitting children's nightwear, from US federal rules.

16 CFR 1615.1(o)(1), sizes 9 months to 6X, and 16 CFR 1616.2(m)(1), sizes 7 to 14, of the 2015
edition. They bind makers who sell; at home they are a caution about loose nightwear near
flames.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Mapping

PLACES = ("chest", "waist", "seat", "upper arm", "thigh", "wrist", "ankle")
"""Around the garment: twice the flat front measure."""

GREATEST_CM: dict[str, tuple[float, ...]] = {
    "9-12 months": (48.3, 48.3, 48.3, 14.3, 26.7, 10.5, 13.0),
    "12-18 months": (49.5, 49.5, 50.8, 14.9, 28.3, 10.5, 13.1),
    "18-24 months": (52.1, 50.8, 53.3, 15.6, 29.5, 11.0, 13.6),
    "2": (52.1, 50.8, 53.3, 15.6, 29.8, 11.4, 14.0),
    "3": (53.3, 52.1, 56.0, 16.2, 31.4, 11.7, 14.9),
    "4": (56.0, 53.3, 58.4, 16.8, 33.0, 12.1, 15.9),
    "5": (58.4, 54.6, 61.0, 17.5, 34.6, 12.4, 16.8),
    "6": (61.0, 55.9, 63.5, 18.1, 36.2, 12.7, 17.8),
    "6X": (62.9, 57.2, 65.4, 18.7, 37.8, 13.0, 18.7),
    "7": (63.5, 58.4, 66.0, 18.7, 37.2, 13.0, 18.7),
    "8": (66.0, 59.7, 67.3, 19.4, 38.4, 13.3, 19.1),
    "9": (68.6, 61.0, 69.2, 20.0, 39.7, 13.7, 19.4),
    "10": (71.1, 62.2, 71.1, 20.6, 41.0, 14.0, 19.7),
    "11": (73.7, 63.5, 73.7, 21.0, 42.2, 14.3, 20.0),
    "12": (76.2, 64.8, 76.2, 21.6, 43.5, 14.6, 20.3),
    "13": (78.7, 66.0, 78.7, 22.2, 44.8, 14.9, 20.6),
    "14": (81.3, 67.3, 81.3, 22.9, 46.0, 15.2, 21.0),
}
"""Sizes 7 to 14 as for boys, which also bind garments not labelled for girls."""

GIRLS_CM: dict[str, tuple[float, float]] = {
    "7": (67.3, 38.7),
    "8": (71.1, 41.3),
    "9": (73.7, 42.6),
    "10": (76.2, 43.8),
    "11": (78.7, 45.1),
    "12": (81.3, 46.7),
    "13": (83.8, 47.6),
    "14": (86.4, 49.5),
}
"""Seat and thigh of garments labelled for girls; the rest as for boys."""


def too_loose(
    size: str, measures: Mapping[str, Length], *, for_girls: bool = False
) -> tuple[str, ...]:
    """The places, of `PLACES`, where a garment is larger than the rules allow tight nightwear.

    Args:
        size: A key of `GREATEST_CM`.
        measures: Around the garment by place; places left out are not judged.
        for_girls: The garment is labelled for girls.

    Raises:
        KeyError: a size the rules do not list.
    """
    greatest = dict(zip(PLACES, GREATEST_CM[size], strict=True))
    if for_girls and size in GIRLS_CM:
        greatest["seat"], greatest["thigh"] = GIRLS_CM[size]
    return tuple(
        place
        for place in PLACES
        if place in measures and measures[place] > Length.from_mm(round(10 * greatest[place]))
    )
