"""Pushing an arrangement together, or apart: all pieces move at once, as their neighbours let them.

A linear programme over the positions (Li & Milenkovic, Compaction and separation algorithms
for non-convex polygons, EJOR 84(3), 1995): two pieces stay apart if, for every pair of their
convex parts, the shift between them stays beyond one edge of that pair's no-fit region. The
edge is chosen afresh after each move, so pieces slide around one another. Where pieces overlap,
what is still missing between them is made as small as can be, and then the length.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from stash.geometry.nofit import part_sums
from stash.lay.forms import FINE, GRID
from stash.lay.settle import settle
from stash.lay.table import Placed, length_of
from stash.programme import Aim, Rows, minimised

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from stash.geometry.ring import IntRing
    from stash.lay.table import Strip

REACH = 40.0
"""mm a piece may move in one round."""
NEAR = 2 * REACH
"""mm: two pieces farther apart cannot meet in one round."""
KEEP = 2.0 * GRID / FINE
"""mm kept between pieces in the programme, so that rounding to the grid stays legal."""
PULL = 1e-3
"""Weight of the mean position against the length: pieces not at the end move up too."""
ENOUGH = 0.02
"""mm a round must gain to be followed by another."""
PART = 1e3
"""Weight of the most that is missing between two pieces against the length."""
PARTED = 1e-6
"""mm missing that are none."""


class Edges(NamedTuple):
    """Edges of all convex parts of a no-fit region, one row a part, in mm.

    Outward unit normals (parts, edges, 2) and offsets (parts, edges). A part with fewer edges
    than the others is filled up with offsets no shift is beyond.
    """

    normals: NDArray[np.float64]
    offsets: NDArray[np.float64]


@lru_cache(maxsize=2048)  # some ten kilobytes each, for pieces with many hollows
def _edges(fixed: IntRing, moved: IntRing) -> Edges:
    sums = part_sums(fixed, moved)
    counts = np.array([len(ring) for ring in sums])
    ends = np.cumsum(counts)
    points = np.array([point for ring in sums for point in ring], dtype=np.float64) / FINE
    following = np.arange(1, len(points) + 1)
    following[ends - 1] = ends - counts
    along = points[following] - points
    lengths = np.hypot(along[:, 0], along[:, 1])
    real = lengths > 0
    outward = np.column_stack((along[:, 1], -along[:, 0])) / np.where(real, lengths, 1)[:, None]
    part = np.repeat(np.arange(len(sums)), counts)
    edge = np.arange(len(points)) - np.repeat(ends - counts, counts)
    normals = np.zeros((len(sums), counts.max(), 2))
    offsets = np.full((len(sums), counts.max()), np.inf)
    normals[part, edge] = outward
    offsets[part[real], edge[real]] = np.einsum("ij,ij->i", outward, points)[real]
    return Edges(normals, offsets)


def compact(strip: Strip, row: tuple[Placed, ...], rounds: int = 12) -> tuple[Placed, ...]:
    """The arrangement pushed together; the same one if nothing can move up."""
    best = row
    for _ in range(rounds):
        wanted, _ = _one_round(strip, best)
        moved = wanted and settle(strip, wanted)
        if moved is None:
            break
        gain = length_of(best) - length_of(moved)
        if gain < 0:
            break
        best = moved
        if gain < ENOUGH * FINE:
            break
    return best


def pushed_apart(
    strip: Strip, row: tuple[Placed, ...], rounds: int = 6
) -> tuple[Placed, ...] | None:
    """The arrangement with every overlap undone, on as little length as that takes.

    None: a few rounds did not undo them.
    """
    for _ in range(rounds):
        wanted, missing = _one_round(strip, row, apart=True)
        if wanted is None:
            return None
        if missing < PARTED:
            return settle(strip, wanted)
        row = wanted
    return None


def _one_round(
    strip: Strip, row: tuple[Placed, ...], apart: bool = False
) -> tuple[tuple[Placed, ...] | None, float]:
    """Solve the programme once: where all is wanted, and how many mm are missing between pieces.

    None if it finds no answer. `apart`: pieces may overlap, else they keep what they have.
    """
    n = len(row)
    at = np.array([(p.x, p.y) for p in row], dtype=np.float64) / FINE
    lines = Rows()
    _keep_apart(lines, row, at, strip.blocked, apart)
    for i, placed in enumerate(row):  # x_i - length <= -form.length
        ends = np.array([-placed.form.length / FINE])
        lines.add_alike((2 * i, 2 * n), np.array([[1.0, -1.0]]), ends)
    room = np.array([(strip.width - p.form.across) / FINE for p in row])
    # The variables: two of every piece, the length, and what is missing.
    least, most = np.zeros(2 * n + 2), np.full(2 * n + 2, np.inf)
    least[: 2 * n] = np.maximum(0.0, at - REACH).ravel()
    most[: 2 * n] = np.column_stack(
        (at[:, 0] + REACH, np.maximum(0.0, np.minimum(room, at[:, 1] + REACH)))
    ).ravel()
    if strip.end is not None:
        most[2 * n] = strip.end / FINE
    if not apart:
        most[2 * n + 1] = 0.0
    cost = np.zeros(2 * n + 2)
    cost[2 * np.arange(n)] = PULL / n
    cost[2 * n :] = 1.0, PART
    answer = minimised(Aim(cost, least, most), lines)
    if answer is None:
        return None, 0.0
    grid = np.rint(answer.values[: 2 * n] * (FINE // GRID)).astype(np.int64) * GRID
    wanted = tuple(
        Placed(p.form, int(grid[2 * i]), int(grid[2 * i + 1])) for i, p in enumerate(row)
    )
    return wanted, float(answer.values[2 * n + 1])


def _keep_apart(
    lines: Rows,
    row: tuple[Placed, ...],
    at: NDArray[np.float64],
    blocked: tuple[IntRing, ...],
    apart: bool,
) -> None:
    """One line for each pair of convex parts near enough to meet within one round."""
    sizes = np.array([(p.form.length, p.form.across) for p in row]) / FINE
    missing = 2 * len(row) + 1
    for j, moved in enumerate(row):
        distant = np.maximum(at[:j] - at[j] - sizes[j], at[j] - at[:j] - sizes[:j])
        for i in np.flatnonzero(distant.max(axis=1) < NEAR).tolist():
            normals, least = _near_edges(row[i].form.ring, moved.form.ring, at[j] - at[i], apart)
            columns = (2 * i, 2 * i + 1, 2 * j, 2 * j + 1, missing)
            lines.add_alike(columns, np.hstack((normals, -normals, -_ones(least))), -least)
        for ring in blocked:
            normals, least = _near_edges(ring, moved.form.body, at[j], apart)
            lines.add_alike(
                (2 * j, 2 * j + 1, missing), np.hstack((-normals, -_ones(least))), -least
            )


def _ones(least: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.ones((len(least), 1))


def _near_edges(
    fixed: IntRing, moved: IntRing, shift: NDArray[np.float64], apart: bool
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """For every pair of near parts a normal (a, b) and the least a x + b y may become."""
    edges = _edges(fixed, moved)
    gaps = edges.normals @ shift - edges.offsets
    best = gaps.argmax(axis=1)
    parts = np.arange(len(best))
    gap = gaps[parts, best]
    near = gap < NEAR
    parts, best, gap = parts[near], best[near], gap[near]
    kept = KEEP if apart else np.minimum(KEEP, gap)
    return edges.normals[parts, best], edges.offsets[parts, best] + kept
