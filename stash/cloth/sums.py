"""Whether the measures of a cloth go together: bought, left and cut, and an outline's reach."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from stash.cloth.record import Cloth

LEEWAY = Length.from_mm(1)
"""Nobody measures cloth finer; what is written in inches and read in cm strays by less."""


def more_than(one: Length, other: Length) -> bool:
    """By more than anyone measures."""
    return one > other + LEEWAY


def reach(cloth: Cloth) -> tuple[Length, Length]:
    """How far the outline of a remnant reaches (along, across) from the corner of the cloth."""
    if not cloth.outline:
        return ZERO, ZERO
    along, across = (max(values) for values in zip(*cloth.outline, strict=True))
    return Length.from_mm(along), Length.from_mm(across)
