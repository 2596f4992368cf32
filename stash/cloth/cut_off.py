"""Cutting a length off a cloth: its flaws and its outline move up to the new end.

Lays begin at the cut end, so what is cut off is the cloth from x = 0 to that length.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.cloth.record import Flaw
from stash.geometry.beyond import DIGITS, beyond
from stash.units.length import ZERO

if TYPE_CHECKING:
    from stash.cloth.record import Cloth
    from stash.units.length import Length


@dataclass(frozen=True, slots=True)
class CutOff:
    """The cloth after the cut, and what became of its flaws and its outline."""

    cloth: Cloth
    gone: tuple[Flaw, ...]
    """Flaws that were cut away wholly."""
    parts: int
    """Into how many parts the outline fell; the largest is kept. 0: nothing is left of it."""


def cut_off(cloth: Cloth, used: Length, left: Length) -> CutOff:
    """The cloth when `used` was cut from its end, as it lies on the shelf, and `left` stays.

    A remnant whose outline ends before the cut is used up, whatever was to stay.
    """
    parts = beyond(cloth.outline, used.mm) if cloth.outline else ()
    if left <= ZERO or (cloth.outline and not parts):
        return CutOff(replace(cloth, left=ZERO, flaws=(), outline=()), cloth.flaws, 0)
    rests = [(flaw, _rest(flaw, used.mm)) for flaw in cloth.flaws]
    after = replace(
        cloth,
        left=left,
        flaws=tuple(part for _, rest in rests for part in rest),
        outline=parts[0] if parts else (),
    )
    return CutOff(after, tuple(flaw for flaw, rest in rests if not rest), len(parts))


def _rest(flaw: Flaw, at: float) -> tuple[Flaw, ...]:
    """What is left of a flaw: nothing, the flaw moved, or a part of it; of many corners, parts."""
    if flaw.points:
        return tuple(Flaw.cornered(part, flaw.what) for part in beyond(flaw.points, at))
    if flaw.x >= at:
        return (replace(flaw, x=round(flaw.x - at, DIGITS)),)
    short = at - flaw.x
    if short >= flaw.radius:
        return ()
    # Less than half of the spot: the circle over the cut is the smallest that holds it.
    fine = 10**DIGITS
    half = math.ceil(math.sqrt(flaw.radius**2 - short**2) * fine) / fine
    return (replace(flaw, x=0.0, radius=half),)
