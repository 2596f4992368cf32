"""The state of a cloth: derived from its lengths, never typed."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from stash.cloth.washing import first_wash
from stash.trade.shrinkage import after_wash
from stash.units.length import ZERO

if TYPE_CHECKING:
    from stash.cloth.record import Cloth
    from stash.units.length import Length


class ClothState(StrEnum):
    """What can still be done with a cloth."""

    FREE = "free"
    PROMISED = "promised"
    CUT_INTO = "cut into"
    GONE = "gone"


def state_of(cloth: Cloth, promised: Length) -> ClothState:
    """The state of `cloth` when `promised` of it is held for makes not yet cut.

    A washed cloth is shorter than it came; only what is missing beyond that was cut.
    """
    if cloth.left <= ZERO:
        return ClothState.GONE
    if promised > ZERO:
        return ClothState.PROMISED
    whole = after_wash(cloth.bought, first_wash(cloth)[0]) if cloth.washed else cloth.bought
    return ClothState.CUT_INTO if cloth.left < whole else ClothState.FREE
