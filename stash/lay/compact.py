"""Pushing an arrangement together: all pieces move at once, as far as their neighbours let them.

A linear programme over the positions (Li & Milenkovic, Compaction and separation algorithms
for non-convex polygons, EJOR 84(3), 1995): two pieces stay apart if, for every pair of their
convex parts, the shift between them stays beyond one edge of that pair's no-fit region. The
edge is chosen afresh after each move, so pieces slide around one another.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from stash.geometry.nofit import part_sums
from stash.lay.forms import FINE, GRID
from stash.lay.settle import settle
from stash.lay.table import Placed, length_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from numpy.typing import NDArray

    from stash.geometry.ring import IntRing
    from stash.lay.table import Strip

REACH = 40.0
"""mm a piece may move in one round."""
KEEP = 2.0 * GRID / FINE
"""mm kept between pieces in the programme, so that rounding to the grid stays legal."""
PULL = 1e-3
"""Weight of the mean position against the length: pieces not at the end move up too."""
ENOUGH = 0.02
"""mm a round must gain to be followed by another."""


class Edges(NamedTuple):
    """Outward unit normals (n, 2) and offsets (n,) in mm of a convex ring's edges."""

    normals: NDArray[np.float64]
    offsets: NDArray[np.float64]


@lru_cache(maxsize=60_000)
def _edges(fixed: IntRing, moved: IntRing) -> tuple[Edges, ...]:
    found = []
    for ring in part_sums(fixed, moved):
        points = np.array(ring, dtype=np.float64) / FINE
        along = np.roll(points, -1, axis=0) - points
        lengths = np.hypot(along[:, 0], along[:, 1])
        real = lengths > 0
        normals = np.column_stack((along[real, 1], -along[real, 0])) / lengths[real, None]
        found.append(Edges(normals, np.einsum("ij,ij->i", normals, points[real])))
    return tuple(found)


def compact(strip: Strip, row: tuple[Placed, ...], rounds: int = 12) -> tuple[Placed, ...]:
    """The arrangement pushed together; the same one if nothing can move up."""
    best = row
    for _ in range(rounds):
        moved = _one_round(strip, best)
        if moved is None:
            break
        gain = length_of(best) - length_of(moved)
        if gain < 0:
            break
        best = moved
        if gain < ENOUGH * FINE:
            break
    return best


def _one_round(strip: Strip, row: tuple[Placed, ...]) -> tuple[Placed, ...] | None:
    """Solve the programme once; None if it finds no answer."""
    n = len(row)
    at = np.array([(p.x, p.y) for p in row], dtype=np.float64) / FINE
    lines = _Lines()
    _keep_apart(lines, row, at, strip.blocked)
    for i, placed in enumerate(row):  # x_i - length <= -form.length
        lines.add(((2 * i, 1.0), (2 * n, -1.0)), -placed.form.length / FINE)
    room = np.array([(strip.width - p.form.across) / FINE for p in row])
    least, most = np.zeros(2 * n + 1), np.full(2 * n + 1, np.inf)
    least[: 2 * n] = np.maximum(0.0, at - REACH).ravel()
    most[: 2 * n] = np.column_stack(
        (at[:, 0] + REACH, np.maximum(0.0, np.minimum(room, at[:, 1] + REACH)))
    ).ravel()
    if strip.end is not None:
        most[2 * n] = strip.end / FINE
    cost = np.zeros(2 * n + 1)
    cost[2 * np.arange(n)] = PULL / n
    cost[2 * n] = 1.0
    # No variable is whole: HiGHS solves this as a linear programme.
    answer = milp(cost, bounds=Bounds(least, most), constraints=lines.constraint(2 * n + 1))
    if answer.x is None:
        return None
    grid = np.rint(answer.x[: 2 * n] * (FINE // GRID)).astype(np.int64) * GRID
    wanted = tuple(
        Placed(p.form, int(grid[2 * i]), int(grid[2 * i + 1])) for i, p in enumerate(row)
    )
    return settle(strip, wanted)


class _Lines:
    """Inequalities sum(coefficient x variable) <= right, gathered for a sparse matrix."""

    def __init__(self) -> None:
        self.right: list[float] = []
        self._rows: list[int] = []
        self._columns: list[int] = []
        self._values: list[float] = []

    def add(self, terms: Sequence[tuple[int, float]], right: float) -> None:
        for column, value in terms:
            self._rows.append(len(self.right))
            self._columns.append(column)
            self._values.append(value)
        self.right.append(right)

    def constraint(self, width: int) -> LinearConstraint:
        shape = (len(self.right), width)
        matrix = csr_array((self._values, (self._rows, self._columns)), shape=shape)
        return LinearConstraint(matrix, ub=np.array(self.right))


def _keep_apart(
    lines: _Lines, row: tuple[Placed, ...], at: NDArray[np.float64], blocked: tuple[IntRing, ...]
) -> None:
    """One line for each pair of convex parts near enough to meet within one round."""
    for j, moved in enumerate(row):
        for i in range(j):
            for a, b, least in _near_edges(row[i].form.ring, moved.form.ring, at[j] - at[i]):
                lines.add(((2 * i, a), (2 * i + 1, b), (2 * j, -a), (2 * j + 1, -b)), -least)
        for ring in blocked:
            for a, b, least in _near_edges(ring, moved.form.ring, at[j]):
                lines.add(((2 * j, -a), (2 * j + 1, -b)), -least)


def _near_edges(
    fixed: IntRing, moved: IntRing, shift: NDArray[np.float64]
) -> Iterator[tuple[float, float, float]]:
    """For every pair of near parts a normal (a, b) and the least a x + b y may become."""
    for normals, offsets in _edges(fixed, moved):
        gaps = normals @ shift - offsets
        k = int(np.argmax(gaps))
        if gaps[k] < 3 * REACH:
            least = float(offsets[k]) + min(KEEP, float(gaps[k]))
            yield float(normals[k, 0]), float(normals[k, 1]), least
