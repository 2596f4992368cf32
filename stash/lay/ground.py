"""Where one form may be put beside what lies on the cloth already.

The free region is what the strip allows less the no-fit regions of everything there; the
places looked at are its corners.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

import pyclipper

from stash.geometry.nofit import NoFit, no_fit, strictly_inside
from stash.lay.forms import FINE, GRID, Form

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.geometry.ring import IntRing
    from stash.lay.table import Placed

SLIT = 3
"""Half the width of the slit an exact fit leaves free, solver units."""
NEAR = FINE // 10
"""Places along the cloth that differ by less than 0.1 mm count as one: the lower is taken."""
NUDGES = tuple(
    (dx * GRID, dy * GRID)
    for dx, dy in (
        (0, 0),
        (1, 0),
        (0, 1),
        (0, -1),
        (1, 1),
        (1, -1),
        (2, 0),
        (0, 2),
        (0, -2),
        (3, 0),
    )
)
"""Steps from a corner found by rounding to one that truly touches nothing."""


class Standing(NamedTuple):
    """A no-fit region where it stands on the cloth, and the box around it."""

    left: int
    low: int
    right: int
    high: int
    region: NoFit
    x: int
    y: int
    shrunk: tuple[IntRing, ...]
    """The region's shrunk rings, moved to where it stands."""


@lru_cache(maxsize=3_000)
def _beside(placed: Placed, form: Form) -> Standing:
    """Where `form` may not be put because of what is `placed`.

    Kept, because most of what lies on the table stays where it is from one try to the next.
    """
    return _standing(_between(placed.form, form), placed.x, placed.y)


@lru_cache(maxsize=8_000)  # by what they are: cheaper than by all their points
def _between(fixed: Form, moved: Form) -> NoFit:
    return no_fit(fixed.ring, moved.ring)


@lru_cache(maxsize=4096)
def _beside_blocked(ring: IntRing, form: Form) -> Standing:
    return _standing(no_fit(ring, form.body), 0, 0)


def _standing(region: NoFit, dx: int, dy: int) -> Standing:
    left, low, right, high = region.box
    shrunk = tuple([tuple([(x + dx, y + dy) for x, y in ring]) for ring in region.shrunk])
    return Standing(left + dx, low + dy, right + dx, high + dy, region, dx, dy, shrunk)


class Ground(NamedTuple):
    """Where one form may be put: 0 <= x <= reach and 0 <= y <= top, outside the regions."""

    regions: tuple[Standing, ...]
    reach: int
    top: int

    def is_free(self, x: int, y: int) -> bool:
        """The form at (x, y) overlaps nothing."""
        if not (0 <= x <= self.reach and 0 <= y <= self.top):
            return False
        for left, low, right, high, region, dx, dy, _ in self.regions:
            if left < x < right and low < y < high and strictly_inside(region, x - dx, y - dy):
                return False
        return True

    def corners(self) -> list[tuple[int, int]]:
        """Corners of the free region by x, then y; near ones only roughly on the grid."""
        if not self.regions:
            return sorted({(x, y) for x in (0, self.reach) for y in (0, self.top)})
        clipper = pyclipper.Pyclipper()
        right, high = self.reach + SLIT, self.top + SLIT
        clipper.AddPath(
            ((-SLIT, -SLIT), (right, -SLIT), (right, high), (-SLIT, high)),
            pyclipper.PT_SUBJECT,
            True,
        )
        for standing in self.regions:
            for ring in standing.shrunk:
                clipper.AddPath(ring, pyclipper.PT_CLIP, True)
        free = clipper.Execute(
            pyclipper.CT_DIFFERENCE, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO
        )
        found = sorted([((x + SLIT) // NEAR, y, x) for ring in free for x, y in ring])
        return [(x, y) for _, y, x in found]

    def settle(self, corner: tuple[int, int]) -> tuple[int, int] | None:
        """The corner on the grid, nudged until the form truly touches nothing."""
        x = min(max(round(corner[0] / GRID) * GRID, 0), self.reach)
        y = min(max(round(corner[1] / GRID) * GRID, 0), self.top)
        for dx, dy in NUDGES:
            if self.is_free(x + dx, y + dy):
                return x + dx, y + dy
        return None


def ground_for(
    width: int,
    blocked: tuple[IntRing, ...],
    row: Sequence[Placed],
    form: Form,
    at_fold: bool = False,
    end: int | None = None,
) -> Ground | None:
    """The ground for `form` beside what lies there, on a cloth so wide that ends at x = `end`.

    None if it is too small for the form.
    """
    top = 0 if at_fold else width - form.across
    if top < 0:
        return None
    regions = [_beside(placed, form) for placed in row]
    regions += [_beside_blocked(ring, form) for ring in blocked]
    reach = max([0, *[standing.right for standing in regions]])
    reach = -(-reach // GRID) * GRID  # what was grown or turned may end between two grid lines
    if end is not None:
        reach = min(reach, end - form.length)
    if reach < 0:
        return None
    last, high = reach + SLIT, top + SLIT
    near = [
        standing
        for standing in regions
        if standing.right > 0
        and standing.left < last
        and standing.low < high
        and standing.high > -SLIT
    ]
    return Ground(tuple(near), reach, top)
