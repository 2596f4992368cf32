"""How deep one outline lies in another, for every shift between them on a grid.

A shift inside the no-fit region means overlap; how far it is to the region's edge, along the
cloth or across, is how far one piece must be moved to part them (directional penetration depth,
Umetani et al., Int. Trans. Operational Research 16(6), 2009; cited from memory). The true
distance to the edge was measured to lay no shorter, and takes longer to work out.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
import pyclipper

from stash.geometry.nofit import no_fit
from stash.lay.forms import FINE

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from stash.geometry.ring import IntRing

STEP = 10 * FINE
"""The grid: 1 cm."""
LEEWAY = 3 * FINE
"""Pieces that lie in each other by less count as apart: pushing all of them finds room for it."""
PARTS = 8
"""Depths and weights are multiples of one in so many: then sums of them are exact."""


class Depths(NamedTuple):
    """Square roots of depths in steps, 0 where apart; the first cell is the shift (left, low)."""

    deep: NDArray[np.float32]
    left: int
    low: int

    def at(self, along: int, across: int) -> float:
        """At a shift of so many steps."""
        deep, left, low = self
        x, y = along - left, across - low
        inside = 0 <= x < deep.shape[0] and 0 <= y < deep.shape[1]
        return deep.item(x, y) if inside else 0.0

    def add_to(self, field: NDArray[np.float32], x: int, y: int) -> None:
        """Add them to the `field` of all places, for an outline that lies at (x, y)."""
        x, y = x + self.left, y + self.low
        (along, across), (length, width) = self.deep.shape, field.shape
        first, last = max(0, x), min(length, x + along)
        low, high = max(0, y), min(width, y + across)
        if first < last and low < high:
            field[first:last, low:high] += self.deep[first - x : last - x, low - y : high - y]

    def exchanged(self) -> Depths:
        """Those of the other outline in the one: every shift the other way."""
        along, across = self.deep.shape
        turned = np.ascontiguousarray(self.deep[::-1, ::-1])
        return Depths(turned, 1 - self.left - along, 1 - self.low - across)


@lru_cache(maxsize=512)  # some thirty kilobytes each
def depths(fixed: IntRing, moved: IntRing) -> Depths:
    """How deep `moved` lies in `fixed`; both simple and anticlockwise, solver units."""
    region = no_fit(fixed, moved)
    left, low = region.box[0] // STEP, region.box[1] // STEP
    along, across = -(-region.box[2] // STEP) - left + 1, -(-region.box[3] // STEP) - low + 1
    smaller = pyclipper.PyclipperOffset(miter_limit=4.0)
    smaller.AddPaths(region.exact, pyclipper.JT_MITER, pyclipper.ET_CLOSEDPOLYGON)
    rings = [np.array(ring) / STEP - (left, low) for ring in smaller.Execute(-LEEWAY)]
    inside = rasterised(rings, along, across)
    # The first place inside is half a step from the edge, on the whole.
    steps = np.minimum(to_outside(inside, 0), to_outside(inside, 1))
    deep = np.sqrt(np.maximum(steps - np.float32(0.5), np.float32(0)))
    return Depths(np.ceil(deep * PARTS) / PARTS, left, low)


def to_outside(inside: NDArray[np.bool_], axis: int) -> NDArray[np.int16]:
    """Steps along the axis to the nearest place that is not inside, either way; 0 for those."""
    inside = np.moveaxis(inside, axis, 0)
    count = len(inside)
    number = np.arange(count, dtype=np.int16)[:, None]
    before = np.maximum.accumulate(np.where(inside, np.int16(-1), number))
    after = np.minimum.accumulate(np.where(inside, np.int16(count), number)[::-1])[::-1]
    return np.moveaxis(np.minimum(number - before, after - number), 0, axis)


def rasterised(rings: list[NDArray[np.float64]], along: int, across: int) -> NDArray[np.bool_]:
    """Which points (x, y), 0 <= x < along and 0 <= y < across, lie inside; holes are rings too.

    Every edge is crossed by the lines x = 0, 1, ...: above a crossing, inside and outside
    change places.
    """
    crossings = np.zeros(along * (across + 1), dtype=np.int64)
    for ring in rings:
        following = np.roll(ring, -1, axis=0)
        ahead = (ring[:, 0] <= following[:, 0])[:, None]
        start, end = np.where(ahead, ring, following), np.where(ahead, following, ring)
        first = np.ceil(start[:, 0]).astype(np.int64)
        count = np.ceil(end[:, 0]).astype(np.int64) - first
        edge = np.repeat(np.arange(len(ring)), count)
        x = np.arange(len(edge)) - np.repeat(np.cumsum(count) - count - first, count)
        slope = (end[edge, 1] - start[edge, 1]) / (end[edge, 0] - start[edge, 0])
        y = np.ceil(start[edge, 1] + (x - start[edge, 0]) * slope).astype(np.int64)
        crossings += np.bincount(x * (across + 1) + y, minlength=len(crossings))
    crossed = np.cumsum(crossings.reshape(along, across + 1), axis=1)
    odd: NDArray[np.bool_] = crossed[:, :across] % 2 == 1
    return odd
