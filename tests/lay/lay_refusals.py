"""Was there cause to refuse a lay? Worked out from the outlines alone."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from stash.lay.errors import LayError, NoRoomError, TooNarrowError
from stash.lay.problem import LayKind

if TYPE_CHECKING:
    from stash.lay.problem import Problem, Shape

ROUNDED_MM = 0.01


def unjustified(problem: Problem, kind: LayKind | None, error: LayError) -> str:
    """Why the refusal is wrong, or nothing. The problem's outlines are taken to be sound."""
    doubled = kind not in (None, LayKind.OPEN)
    if kind is LayKind.CROSSWAYS and problem.nap:
        return "" if "nap" in error.message else str(error)
    if doubled and problem.outline:
        return "" if "remnant" in error.message else str(error)
    printed = problem.repeat is not None and any(s.match for s in problem.shapes)
    if printed and _may_miss_print(problem, kind, error):
        return ""
    if isinstance(error, NoRoomError):
        return "" if problem.outline else f"no end to this cloth, yet: {error}"
    if isinstance(error, TooNarrowError):
        [shape] = [shape for shape in problem.shapes if shape.name == error.piece]
        wanted = _across(shape, problem.nap)
        if kind in (LayKind.FOLDED, LayKind.GATE) and not shape.on_fold:
            wanted = 2 * wanted + problem.gap  # one in either layer, a gap apart at the fold
        if kind is LayKind.GATE:
            wanted += problem.gap  # and where the selvedges meet
        return "" if wanted > problem.width - ROUNDED_MM else str(error)
    return "" if kind is LayKind.GATE and "selvedges meet" in error.message else str(error)


def _may_miss_print(problem: Problem, kind: LayKind | None, error: LayError) -> bool:
    """The print is mirrored at a fold across; one with columns need not meet every piece."""
    if kind is LayKind.CROSSWAYS and "print" in error.message:
        return True
    columns = problem.repeat is not None and problem.repeat.across > 0
    return columns and ("print" in error.message or "no room" in error.message)


def _across(shape: Shape, nap: bool) -> float:
    """The narrowest the whole piece can lie, mm."""
    points = list(shape.outline)
    if shape.on_fold:
        points += [(x, -y) for x, y in points]
    turns = [t for t in shape.turns if not nap or t % 360 < 180] or [shape.turns[0]]
    spans = []
    for turn in (t + off for t in turns for off in range(-shape.tolerance, shape.tolerance + 1)):
        sin, cos = math.sin(math.radians(turn)), math.cos(math.radians(turn))
        ys = [x * sin + y * cos for x, y in points]
        spans.append(max(ys) - min(ys))
    return min(spans)
