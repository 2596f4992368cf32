"""Whether the measures of a cloth go together: bought, left and cut, and an outline's reach."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from stash.cloth.record import Cloth

LEEWAY = Length.from_mm(1)
"""Nobody measures cloth finer; what is written in inches and read in cm strays by less."""


BY_HAND = Length.from_mm(20)
"""A length and the corners of the same remnant, measured apart, agree to that."""


def more_than(one: Length, other: Length) -> bool:
    """By more than anyone measures."""
    return one > other + LEEWAY


def reach(cloth: Cloth) -> tuple[Length, Length]:
    """How far the outline of a remnant reaches (along, across) from the corner of the cloth."""
    if not cloth.outline:
        return ZERO, ZERO
    along, across = (max(values) for values in zip(*cloth.outline, strict=True))
    return Length.from_mm(along), Length.from_mm(across)


def ends_early(cloth: Cloth) -> bool:
    """The outline of a remnant ends well before the length that is said to be left of it."""
    return cloth.left > reach(cloth)[0] + BY_HAND
