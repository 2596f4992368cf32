"""Checking that what has to match lies on one lattice of the print.

Part of the independent checker: it works from the finished polygons alone.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.lay.problem import Point, Problem, Repeat, Shape
    from stash.lay.result import Lay, Placement

PHASE_MM = 0.05
"""How far a match point may lie beside the lattice."""


def repeat_faults(problem: Problem, lay: Lay) -> tuple[str, ...]:
    """Every piece whose match point lies beside the lattice, and a lattice that is not told."""
    repeat = problem.repeat
    if repeat is None or not problem.matches:
        return () if lay.repeat_at is None else ("a print where nothing matches",)
    if lay.repeat_at is None:
        return ("it is not said where the print begins",)
    if repeat.at is not None and not _near(lay.repeat_at - repeat.at, repeat.along):
        return ("the print begins elsewhere",)
    faults = []
    for p in lay.placements:
        shape = problem.shapes[p.shape]
        if shape.match is None:
            continue
        x, y = match_point(shape, p)
        if not _on_lattice(repeat, x - lay.repeat_at, y - problem.width / 2):
            faults.append(f"{p.name} does not meet the repeat of the print")
    return tuple(faults)


def match_point(shape: Shape, placement: Placement) -> Point:
    """Where the match point of a finished polygon lies: it keeps its place in the outline."""
    assert shape.match is not None
    x, y = shape.match
    return placed([(x, 0.0 if shape.on_fold else y)], shape, placement)[0]


def placed(points: Sequence[Point], shape: Shape, placement: Placement) -> list[Point]:
    """Where points of a shape lie on the cloth: they keep their places in its outline."""
    outline = list(shape.outline)
    if shape.on_fold:
        outline += [(x, -y) for x, y in outline]  # opened out, for the bounds
    left, low = map(min, zip(*turned(outline, placement), strict=True))
    to_left, to_low = map(min, zip(*placement.polygon, strict=True))
    return [(x - left + to_left, y - low + to_low) for x, y in turned(points, placement)]


def turned(points: Sequence[Point], placement: Placement) -> list[Point]:
    """Points of an outline mirrored and turned as the placement says, wherever it lies."""
    if placement.mirrored:
        points = [(x, -y) for x, y in points]
    cos, sin = math.cos(math.radians(placement.turn)), math.sin(math.radians(placement.turn))
    return [(x * cos - y * sin, x * sin + y * cos) for x, y in points]


def _on_lattice(repeat: Repeat, x: float, y: float) -> bool:
    """A point seen from the lattice's own lies on it too."""
    if not repeat.across:
        return _near(x, repeat.along)
    column = round(y / repeat.across)
    if repeat.half_drop and column % 2:
        x += repeat.along / 2
    return _near(x, repeat.along) and _near(y, repeat.across)


def _near(off: float, repeat: float) -> bool:
    """A whole number of repeats."""
    return abs(math.remainder(off, repeat)) <= PHASE_MM
