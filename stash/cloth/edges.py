"""The edges of a cloth: selvedges kept, where pieces may lie on them, and what lies past them."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from stash.units.length import ZERO

if TYPE_CHECKING:
    from stash.cloth.record import Cloth, Flaw


def with_selvedges(cloth: Cloth) -> Cloth:
    """The same cloth with nothing lost at its sides: pieces may reach the very edge.

    Flaws stand where they stood; they are now measured from the edge itself. A remnant has
    no selvedges of its own, so its outline must be empty.
    """
    lost = cloth.selvedge.mm
    flaws = tuple(
        replace(f, y=f.y + lost, points=tuple((x, y + lost) for x, y in f.points))
        for f in cloth.flaws
    )
    return replace(cloth, selvedge=ZERO, flaws=flaws)


def begins(flaw: Flaw) -> tuple[float, float]:
    """Where a flaw begins, mm (along, across)."""
    if flaw.points:
        return min(x for x, _ in flaw.points), min(y for _, y in flaw.points)
    return flaw.x - flaw.radius, flaw.y - flaw.radius
