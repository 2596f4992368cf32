"""Cautions about fire, cords and small parts. They never say that something is safe.

They follow rules that bind makers who sell; none is a clearance. No caution means only that
these few rules found nothing to warn of.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from stash.units.weight import GSM_PER_OUNCE

if TYPE_CHECKING:
    from collections.abc import Collection

LOCAL_RULES = "Check the rules where you live."

EXEMPT_FIBRES = frozenset(
    {"acrylic", "modacrylic", "polyamide", "polypropylene", "polyethylene", "polyester", "wool"}
)
"""16 CFR 1610.1(d)(2): cloth made entirely of these is not tested, raised or light."""
PLAIN_EXEMPT_GSM = float(Fraction("2.6") * GSM_PER_OUNCE)
"""16 CFR 1610.1(d)(1): plain cloth from 2.6 oz/yd² is not tested."""

_US_HOOD_SIZES = 12
_US_WAIST_SIZES = 16
"""16 CFR 1120.3(b) with ASTM F1816-97: hood and neck 2T-12, waist and bottom 2T-16."""
_EU_YOUNG_AGE = 7
_EU_YOUNG_HEIGHT_CM = 134
_EU_OLDEST = 14
"""EN 14682:2014."""
_SMALL_PARTS_AGE = 3
"""16 CFR 1501.4."""


def fire_caution(
    fibres: Collection[str], *, raised: bool, sheer: bool = False, gsm: float | None = None
) -> str | None:
    """A caution for cloth that may flash or burn fast, after the screen of 16 CFR 1610.1(d).

    Args:
        fibres: Generic names of every fibre in it; empty when not known.
        raised: Its surface has raised fibres.
        sheer: Judged very light by eye; counts when it was not weighed.
        gsm: Weight in g/m², None when not weighed.
    """
    if fibres and EXEMPT_FIBRES.issuperset(fibres):
        return None
    if raised:
        return (
            "Raised surfaces of cotton, viscose, silk or linen can flash when a flame comes near:"
            f" take care with loose clothes and nightwear. {LOCAL_RULES}"
        )
    light = sheer if gsm is None else gsm < PLAIN_EXEMPT_GSM
    if light:
        return (
            "Very light cloth can burn fast when a flame comes near:"
            f" take care with loose clothes and nightwear. {LOCAL_RULES}"
        )
    return None


def us_cord_caution(smallest_size: int, *, at_hood: bool) -> str | None:
    """A caution for a cord on a child's outer garment, by the smallest size it is sold as."""
    if at_hood and smallest_size <= _US_HOOD_SIZES:
        return (
            "US rules count cords at the hood or neck of children's outer clothes as a hazard"
            f" in sizes 2T to {_US_HOOD_SIZES}: use a snap or elastic. {LOCAL_RULES}"
        )
    if not at_hood and smallest_size <= _US_WAIST_SIZES:
        return (
            "US rules limit cords at the waist or hem of children's outer clothes in sizes 2T to"
            f" {_US_WAIST_SIZES}: at most 75 mm (3 in) outside the channel, no knots or toggles"
            f" at the ends, stitched down in the middle. {LOCAL_RULES}"
        )
    return None


def eu_cord_caution(
    *, at_hood: bool, age: int | None = None, height_cm: float | None = None
) -> str | None:
    """A caution for a cord on a child's garment, by EN 14682:2014, by age or height."""
    if height_cm is not None:
        young, child = height_cm <= _EU_YOUNG_HEIGHT_CM, age is None or age <= _EU_OLDEST
    elif age is not None:
        young, child = age <= _EU_YOUNG_AGE, age <= _EU_OLDEST
    else:
        return None
    if at_hood and young:
        return (
            "EN 14682 allows no cords at the hood or neck of clothes for children up to 7 years"
            f" or 134 cm. {LOCAL_RULES}"
        )
    if at_hood and child:
        return (
            "EN 14682 allows no cords with free ends at the head or neck up to 14 years."
            f" {LOCAL_RULES}"
        )
    if child:
        return (
            "EN 14682 limits waist cords of children's clothes to 140 mm at the fullest opening."
            f" {LOCAL_RULES}"
        )
    return None


def small_parts_caution(age: int) -> str | None:
    """A caution about buttons and the like for children under 3 (16 CFR 1501.4)."""
    if age < _SMALL_PARTS_AGE:
        return (
            "Buttons, snaps and pompoms are small parts a child under 3 can choke on: leave them"
            f" off, or fasten them so that they cannot come away. {LOCAL_RULES}"
        )
    return None


def nightwear_caution(age: int) -> str | None:
    """A caution about loose nightwear for children up to 14 (16 CFR 1615 and 1616)."""
    if age <= _EU_OLDEST:
        return (
            "Children's nightwear has fire rules of its own: make it close to the body"
            f" and keep it away from flames. {LOCAL_RULES}"
        )
    return None
