"""A second opinion on lays, on a grid of millimetres: shares nothing with the checker.

No shapely here. A cell is covered by an outline when the cell's middle and everything within
`SURE_MM` of it lie inside; so what only touches, or differs by rounding, is never counted,
and whatever is counted is wrong.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

import numpy as np
from lay_marks import off_grain, off_print
from scipy.spatial import cKDTree

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from stash.lay.problem import Problem, Ring, Spot
    from stash.lay.result import Lay

    Cells = NDArray[np.bool_]

SURE_MM = 0.05
EVERY = 0b1111
"""All four points about a cell's middle."""
GAP_MM = 0.02
"""How much a gap may fall short: the checker's own allowance, and rounding."""


@dataclass(frozen=True)
class Patch:
    """Cells about one ring: `cells[j, i]` has its middle at (left + i, low + j) cells."""

    left: int
    low: int
    cells: Cells

    def meets(self, other: Patch) -> int:
        """How many cells both cover."""
        left, low = max(self.left, other.left), max(self.low, other.low)
        right = min(self.left + self.cells.shape[1], other.left + other.cells.shape[1])
        high = min(self.low + self.cells.shape[0], other.low + other.cells.shape[0])
        if left >= right or low >= high:
            return 0
        mine, theirs = (
            p.cells[low - p.low : high - p.low, left - p.left : right - p.left]
            for p in (self, other)
        )
        return int(np.count_nonzero(mine & theirs))

    def within(self, length: float, width: float, cell: float) -> bool:
        """Every middle of a covered cell lies on a cloth that long and wide."""
        columns, rows = (np.nonzero(self.cells.any(axis=axis))[0] for axis in (0, 1))
        if len(columns) == 0:
            return True
        low, high = self.low + rows[[0, -1]] + 0.5
        left, right = self.left + columns[[0, -1]] + 0.5
        return bool(left >= 0 and low >= 0 and right * cell <= length and high * cell <= width)


def patch(ring: Ring, cell: float, *, surely: bool) -> Patch:
    """The cells inside a ring: with `surely` only those, else also those on its edge."""
    points = np.asarray(ring, dtype=float)
    left, low = (math.floor(v / cell) - 1 for v in points.min(axis=0))
    right, high = (math.ceil(v / cell) + 1 for v in points.max(axis=0))
    xs = (np.arange(left, right) + 0.5) * cell
    ys = (np.arange(low, high) + 0.5) * cell
    around = _inside(points, xs, ys)
    return Patch(left, low, around == EVERY if surely else around != 0)


def _inside(
    points: NDArray[np.float64], xs: NDArray[np.float64], ys: NDArray[np.float64]
) -> NDArray[np.uint8]:
    """Of four points about each cell's middle, a bit each: set where it lies inside.

    A point lies inside when an odd number of edges cross its row to its left.
    """
    flips = np.zeros((len(ys), len(xs) + 1), dtype=np.uint8)
    for (x0, y0), (x1, y1) in zip(points, np.roll(points, -1, axis=0), strict=True):
        for upper, dy in enumerate((-SURE_MM, SURE_MM)):
            rows = np.nonzero((y0 < ys + dy) != (y1 < ys + dy))[0]
            crossing = x0 + (ys[rows] + dy - y0) * (x1 - x0) / ((y1 - y0) or 1)
            for right, dx in enumerate((-SURE_MM, SURE_MM)):
                flips[rows, np.searchsorted(xs + dx, crossing)] ^= 1 << (2 * upper + right)
    inside: NDArray[np.uint8] = np.bitwise_xor.accumulate(flips, axis=1)[:, :-1]
    return inside


def raster_faults(problem: Problem, lay: Lay, cell: float = 1.0) -> tuple[str, ...]:
    """Every rule of space that a lay breaks: apart, on the cloth, clear of flaws, the gap."""
    patches = [patch(p.polygon, cell, surely=True) for p in lay.placements]
    faults = []
    for (one, a), (other, b) in combinations(enumerate(patches), 2):
        if shared := a.meets(b):
            names = f"{lay.placements[one].name} and {lay.placements[other].name}"
            faults.append(f"{names} share {shared} cells")
    cloth = patch(problem.outline, cell, surely=False) if problem.outline else None
    for placement, covered in zip(lay.placements, patches, strict=True):
        if not covered.within(lay.need, problem.width, cell):
            faults.append(f"{placement.name} leaves the cloth")
        if any(_on_spot(covered, spot, cell) for spot in problem.spots):
            faults.append(f"{placement.name} lies on a flaw")
        if any(covered.meets(patch(flaw, cell, surely=True)) for flaw in problem.patches):
            faults.append(f"{placement.name} lies on a flaw with corners")
        if cloth is not None and cloth.meets(covered) < np.count_nonzero(covered.cells):
            faults.append(f"{placement.name} leaves the remnant")
    return (*faults, *_too_near(problem, lay), *off_grain(problem, lay), *off_print(problem, lay))


def _on_spot(covered: Patch, spot: Spot, cell: float) -> bool:
    """A covered cell has its middle on a flaw."""
    rows, columns = covered.cells.shape
    dx = (covered.left + np.arange(columns) + 0.5) * cell - spot.x
    dy = (covered.low + np.arange(rows) + 0.5) * cell - spot.y
    near = dx[None, :] ** 2 + dy[:, None] ** 2 < max(0.0, spot.radius - SURE_MM) ** 2
    return bool(np.any(covered.cells & near))


def _too_near(problem: Problem, lay: Lay) -> list[str]:
    """Pairs with points on their edges nearer than the gap; points stand 1 mm apart."""
    if problem.gap <= GAP_MM:
        return []
    trees = [cKDTree(_along(p.polygon)) for p in lay.placements]
    faults = []
    for (one, a), (other, b) in combinations(enumerate(trees), 2):
        if np.any(a.mins > b.maxes + problem.gap) or np.any(b.mins > a.maxes + problem.gap):
            continue
        if a.count_neighbors(b, problem.gap - GAP_MM):
            names = f"{lay.placements[one].name} and {lay.placements[other].name}"
            faults.append(f"{names} lie too near")
    return faults


def _along(ring: Ring) -> NDArray[np.float64]:
    """Points at most 1 mm apart along a ring, its corners among them."""
    runs = []
    for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
        steps = max(1, math.ceil(math.dist(a, b)))
        runs.append(np.linspace(a, b, steps, endpoint=False))
    return np.concatenate(runs)
