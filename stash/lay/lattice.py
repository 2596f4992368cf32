"""The lattice of a print, and where a piece that has to meet it may lie.

Its match point stands on a line of the lattice, so the places left are on lines across the
cloth: on each of them the lowest free one is 0 or where the line leaves a no-fit region. With
a repeat across too they are single points. Nothing is sampled.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from stash.lay.errors import LayError
from stash.lay.forms import FINE, GRID, sheet_width

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from stash.geometry.ring import IntRing
    from stash.lay.ground import Ground
    from stash.lay.problem import Problem

Span = tuple[float, float]

HAIR = 0.5
"""Solver units below which two borders on a line are one."""
MOST_NUDGES = 3
MIRROR = 2 * GRID
"""How far a fold may lie beside a line the print is mirrored in: rounding of the width."""


@dataclass(frozen=True, slots=True)
class Lattice:
    """Where match points may lie, solver units: x = at + i along, y = middle + j across.

    In a half-drop print odd columns j are shifted by half of `along`.
    """

    at: float
    along: float
    middle: float = 0.0
    across: float = 0.0
    """0: any y."""
    half_drop: bool = False

    def moved(self, x: float, y: float = 0.0) -> Lattice:
        """The same lattice seen from the point (x, y)."""
        return replace(self, at=self.at - x, middle=self.middle - y)

    def folded(self) -> Lattice:
        """The same lattice seen from a lengthwise fold at y = 0, where both layers must meet it.

        Raises:
            LayError: it is not its own mirror image there.
        """
        if not self.across:
            return self
        steps = self.across if self.half_drop else self.across / 2
        off = math.remainder(self.middle, steps)
        if abs(off) > MIRROR:
            raise LayError(
                "A print that matches crosswise is not the same on both sides of this fold.",
                "Lay this cloth open, or folded in the middle.",
            )
        return replace(self, middle=self.middle - off)

    def lines(self, mark: int, reach: int) -> Iterator[tuple[int, int]]:
        """Places x with 0 <= x <= reach for a piece whose mark lies at `mark`, nearest first.

        Each comes with the number of its line; in a half-drop print odd lines are those of
        odd columns.
        """
        step = self.along / 2 if self.half_drop else self.along
        number = math.ceil((mark - self.at) / step - GRID / step)
        while (x := _on_grid(self.at + number * step - mark)) <= reach:
            yield max(x, 0), number
            number += 1

    def heights(self, mark: int, line: int, top: int, spans: list[Span]) -> Iterator[int]:
        """Places y with 0 <= y <= top on a line where there is a repeat across, lowest first.

        None is within one of the `spans`, which are in order.
        """
        step = 2 if self.half_drop else 1
        number = math.ceil((mark - self.middle) / self.across - GRID / self.across)
        if self.half_drop:
            number += (number - line) % 2
        low, taken = 0, len(spans)
        while (y := _on_grid(self.middle + number * self.across - mark)) <= top + GRID:
            y = min(max(y, 0), top)
            while low < taken and spans[low][1] - HAIR <= y:
                low += 1
            if low == taken or y <= spans[low][0] + HAIR:
                yield y
                number += step
            else:  # on to the first at which this span has ended
                beyond = math.floor((spans[low][1] - HAIR - y) / (step * self.across))
                number += step * max(1, beyond)


def lattice_of(problem: Problem) -> Lattice | None:
    """The lattice on the opened-out cloth; None where nothing has to match."""
    repeat = problem.repeat
    if not problem.matches or repeat is None or repeat.at is None:
        return None
    return Lattice(
        at=repeat.at * FINE,
        along=repeat.along * FINE,
        middle=sheet_width(problem) / 2,
        across=repeat.across * FINE,
        half_drop=repeat.half_drop,
    )


def spot_on(lattice: Lattice, ground: Ground, mark: tuple[int, int]) -> tuple[int, int] | None:
    """The free place with the smallest x, then y, whose mark lies on the lattice."""
    for x, line in lattice.lines(mark[0], ground.reach):
        spans = list(_taken(ground, x))
        wanted: Iterable[int]
        if lattice.across:
            wanted = lattice.heights(mark[1], line, ground.top, joined(spans))
        else:
            wanted = [y for low in _openings(spans, ground.top) for y in _near(low, ground.top)]
        for y in wanted:
            if ground.is_free(x, y):
                return x, y
    return None


def _openings(spans: list[Span], top: int) -> list[float]:
    """The lower ends of what is free on a line, lowest first."""
    ends = {0.0} | {high for _, high in spans if 0 < high <= top + HAIR}
    return sorted(y for y in ends if not _within(y, spans))


def joined(spans: list[Span]) -> list[Span]:
    """The same stretches in order, those that overlap as one."""
    out: list[Span] = []
    for low, high in sorted(spans):
        if out and low + HAIR < out[-1][1] - HAIR:
            out[-1] = (out[-1][0], max(out[-1][1], high))
        else:
            out.append((low, high))
    return out


def _near(y: float, top: int) -> list[int]:
    """Places on the grid about a border: at or above it, then below."""
    up = math.ceil(y / GRID - 1e-9) * GRID
    steps = [up + k * GRID for k in range(MOST_NUDGES)] + [up - GRID]
    return [min(max(step, 0), top) for step in steps]


def _within(y: float, spans: list[Span]) -> bool:
    return any(low + HAIR < y < high - HAIR for low, high in spans)


def _taken(ground: Ground, x: int) -> Iterator[Span]:
    """The stretches of the line at x where the piece would overlap something."""
    for standing in ground.regions:
        if standing.left < x < standing.right:
            for low, high in _inside(standing.region.exact, x - standing.x):
                yield low + standing.y, high + standing.y


@lru_cache(maxsize=8_000)  # pieces on one lattice stand to each other in few ways
def _inside(rings: tuple[IntRing, ...], x: int) -> tuple[Span, ...]:
    """The stretches of the line at x strictly inside: those inside on both its sides."""
    left: list[float] = []
    right: list[float] = []
    for ring in rings:
        x0, y0 = ring[-1]
        for x1, y1 in ring:
            if (x0 < x) != (x1 < x):
                left.append(y0 + (x - x0) * (y1 - y0) / (x1 - x0))
            if (x0 <= x) != (x1 <= x):
                right.append(y0 + (x - x0) * (y1 - y0) / (x1 - x0))
            x0, y0 = x1, y1
    left.sort()
    right.sort()
    before = tuple(zip(left[::2], left[1::2], strict=True))
    if left == right:
        return before
    after = list(zip(right[::2], right[1::2], strict=True))
    both = [(max(a, c), min(b, d)) for a, b in before for c, d in after]
    return tuple((low, high) for low, high in both if low < high)


def _on_grid(value: float) -> int:
    return round(value / GRID) * GRID
