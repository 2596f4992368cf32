"""The cutting table: bottom-left placing on no-fit regions.

Each piece goes to the legal place nearest the start of the cloth (smallest x, then smallest
y) among the corners of its free region: what the strip allows less the no-fit regions of
everything already there (the bottom-left rule on no-fit polygons, as surveyed by Bennell &
Oliveira, EJOR 184(2), 2008).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

import pyclipper

from stash.geometry.nofit import NoFit, no_fit, strictly_inside
from stash.lay.forms import GRID, Form
from stash.lay.lattice import Lattice, spot_on

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.geometry.ring import IntRing

SLIT = 3
"""Half the width of the slit an exact fit leaves free, solver units."""
MOST_NUDGES = 3


class Item(NamedTuple):
    """One thing to place: the forms it may take, and whether it must touch the fold (y = 0)."""

    forms: tuple[Form, ...]
    at_fold: bool = False


class Placed(NamedTuple):
    """A form put down with its lower left at (x, y), solver units."""

    form: Form
    x: int
    y: int

    @property
    def right(self) -> int:
        """Where it ends along the cloth."""
        return self.x + self.form.length


@dataclass(frozen=True, slots=True)
class Strip:
    """What there is to lay on: the width, places to keep clear, and how far it goes."""

    width: int
    blocked: tuple[IntRing, ...] = ()
    end: int | None = None
    """x where a remnant ends; None: as long as needed."""
    lattice: Lattice | None = None
    """Where marks must lie; None: nothing matches."""


def fill(
    strip: Strip, items: tuple[Item, ...], placed: tuple[Placed, ...] = ()
) -> tuple[Placed, ...] | None:
    """Place `items` in order after what is `placed` already; None if one finds no room."""
    row = list(placed)
    for item in items:
        spot = _best(strip, row, item)
        if spot is None:
            return None
        row.append(spot)
    return tuple(row)


def length_of(row: tuple[Placed, ...]) -> int:
    """Length of cloth the row uses, solver units."""
    return max((p.right for p in row), default=0)


def _best(strip: Strip, row: list[Placed], item: Item) -> Placed | None:
    """The form that ends soonest, then starts soonest, then lies lowest."""
    found: list[tuple[int, int, int, int, Form]] = []
    for form in item.forms:
        spot = _spot(strip, row, form, item.at_fold)
        if spot is not None:
            found.append((spot[0] + form.length, spot[0], spot[1], len(found), form))
    if not found:
        return None
    _, x, y, _, form = min(found)
    return Placed(form, x, y)


class Ground(NamedTuple):
    """Where one form may be put: 0 <= x <= reach and 0 <= y <= top, outside the regions."""

    regions: tuple[tuple[NoFit, int, int], ...]
    """No-fit regions and where each stands."""
    reach: int
    top: int

    def is_free(self, x: int, y: int) -> bool:
        """The form at (x, y) overlaps nothing."""
        if not (0 <= x <= self.reach and 0 <= y <= self.top):
            return False
        return not any(strictly_inside(region, x - dx, y - dy) for region, dx, dy in self.regions)

    def corners(self) -> list[tuple[int, int]]:
        """Corners of the free region by x, then y; near ones only roughly on the grid."""
        clipper = pyclipper.Pyclipper()
        right, high = self.reach + SLIT, self.top + SLIT
        clipper.AddPath(
            ((-SLIT, -SLIT), (right, -SLIT), (right, high), (-SLIT, high)),
            pyclipper.PT_SUBJECT,
            True,
        )
        for region, dx, dy in self.regions:
            for ring in region.shrunk:
                clipper.AddPath([(x + dx, y + dy) for x, y in ring], pyclipper.PT_CLIP, True)
        free = clipper.Execute(
            pyclipper.CT_DIFFERENCE, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO
        )
        return sorted({(x, y) for ring in free for x, y in ring})


def ground_for(
    strip: Strip, row: Sequence[Placed], form: Form, at_fold: bool = False
) -> Ground | None:
    """The ground for `form` beside what lies there; None if the strip is too small for it."""
    regions = [(no_fit(p.form.ring, form.ring), p.x, p.y) for p in row]
    regions += [(no_fit(ring, form.body), 0, 0) for ring in strip.blocked]
    top = 0 if at_fold else strip.width - form.across
    reach = max(0, *(region.box[2] + dx for region, dx, _ in regions)) if regions else 0
    reach = -(-reach // GRID) * GRID  # what was grown or turned may end between two grid lines
    if strip.end is not None:
        reach = min(reach, strip.end - form.length)
    if top < 0 or reach < 0:
        return None
    near = tuple(
        (region, dx, dy)
        for region, dx, dy in regions
        if region.box[2] + dx > 0 and region.box[1] + dy < top + SLIT and region.box[3] + dy > -SLIT
    )
    return Ground(near, reach, top)


def _spot(strip: Strip, row: list[Placed], form: Form, at_fold: bool) -> tuple[int, int] | None:
    """The free place with the smallest x, then y, on the placing grid."""
    ground = ground_for(strip, row, form, at_fold)
    if ground is None:
        return None
    if strip.lattice is not None and form.mark is not None:
        if strip.end is None:
            ground = ground._replace(reach=ground.reach + round(strip.lattice.along))
        return spot_on(strip.lattice, ground, form.mark)
    if not ground.regions:
        return (0, 0)
    for corner in ground.corners():
        spot = _settle(ground, corner)
        if spot is not None:
            return spot
    return None


def _settle(ground: Ground, corner: tuple[int, int]) -> tuple[int, int] | None:
    """The corner on the grid, nudged along the cloth until it truly touches nothing."""
    x = min(max(round(corner[0] / GRID) * GRID, 0), ground.reach)
    y = min(max(round(corner[1] / GRID) * GRID, 0), ground.top)
    for _ in range(MOST_NUDGES):
        if ground.is_free(x, y):
            return x, y
        x += GRID
    return None
