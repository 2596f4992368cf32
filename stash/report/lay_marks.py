"""What a drawing of a lay shows besides its pieces: one geometry for screen and paper.

Millimetres on the opened-out cloth: x along it, y across from one selvedge.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, cos, floor, pi, sin
from typing import TYPE_CHECKING

from stash.lay.check_repeat import match_point

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.lay.problem import Point, Problem, Repeat, Ring, Spot
    from stash.lay.result import Lay, Placement

HAIR = 1.0
"""Millimetres that do not count."""
CORNERS = 24
"""Corners a round flaw is drawn with in cells."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """A straight line from one point to another."""

    x1: float
    y1: float
    x2: float
    y2: float


def folds_of(lay: Lay) -> tuple[Stretch, ...]:
    """Every fold: lengthwise ones as far as the cloth is folded, then the one across."""
    along = tuple(Stretch(0.0, y, lay.folded_to, y) for y in lay.folds if lay.folded_to > 0)
    if lay.cross_fold is None:
        return along
    return (*along, Stretch(lay.cross_fold, 0.0, lay.cross_fold, lay.width))


def layer_edges(lay: Lay) -> tuple[Stretch, ...]:
    """Where a selvedge lies that is folded in over part of the width; in a gate lay both do."""
    if lay.folded_to <= 0 or not lay.folds:
        return ()
    if len(lay.folds) > 1:
        y = 2 * min(lay.folds)
        return (Stretch(0.0, y, lay.folded_to, y),)
    (fold,) = lay.folds
    if abs(2 * fold - lay.width) <= 2 * HAIR:
        return ()
    y = 2 * fold if 2 * fold < lay.width else 2 * fold - lay.width
    return (Stretch(0.0, y, lay.folded_to, y),)


def end_of_layers(lay: Lay) -> Stretch | None:
    """Where two layers end and the cloth lies single, if it does before the lay ends."""
    if lay.folded_to <= 0 or lay.folded_to >= lay.need - HAIR:
        return None
    return Stretch(lay.folded_to, 0.0, lay.folded_to, lay.width)


def flaws_of(problem: Problem | None) -> tuple[Ring, ...]:
    """Every place to keep clear as a ring, round ones first."""
    if problem is None:
        return ()
    return (*map(_round, problem.spots), *problem.patches)


def match_points(lay: Lay, problem: Problem | None) -> tuple[Point, ...]:
    """Every point that meets the print, where it lies on the cloth."""
    if problem is None or lay.repeat_at is None:
        return ()
    shapes = problem.shapes
    met = (p for p in lay.placements if shapes[p.shape].match is not None)
    return tuple(match_point(shapes[p.shape], p) for p in met)


def repeat_lines(lay: Lay, problem: Problem | None) -> tuple[Stretch, ...]:
    """The lines of the print's lattice: across the cloth, and along it where it repeats so.

    In a half-drop print the lines across are drawn column by column, each a repeat wide.
    """
    repeat = problem.repeat if problem is not None else None
    if repeat is None or lay.repeat_at is None or repeat.along <= 0:
        return ()
    middle = lay.width / 2
    if not repeat.across:
        return tuple(
            Stretch(x, 0.0, x, lay.width) for x in _steps(lay.repeat_at, repeat.along, lay.need)
        )
    along = [Stretch(0.0, y, lay.need, y) for y in _steps(middle, repeat.across, lay.width)]
    return (*_across(lay, repeat, lay.repeat_at, middle), *along)


def is_on_fold(placement: Placement, lay: Lay) -> bool:
    """A piece cut on the fold that does lie on one, not opened out on a single layer."""
    if not placement.on_fold or placement.single:
        return False
    ys = [y for _, y in placement.polygon]
    middle = (min(ys) + max(ys)) / 2
    return lay.folded_to > 0 and any(abs(middle - fold) <= HAIR for fold in lay.folds)


def cut_words(placement: Placement, lay: Lay, problem: Problem | None) -> str:
    """What a pattern piece says of itself: `cut 2`, `cut 1 on fold`, `cut 2, 3° off grain`."""
    if placement.waste:
        return "not needed"
    drawn = sum(1 for p in lay.placements if p.shape == placement.shape and not p.waste)
    copies = problem.shapes[placement.shape].copies if problem is not None else drawn
    words = f"cut {copies}"
    if placement.on_fold:
        words += " on fold" if is_on_fold(placement, lay) else " opened out"
    off = _off_grain(placement, problem)
    return f"{words}, {off}° off grain" if off else words


def _off_grain(placement: Placement, problem: Problem | None) -> int:
    """Whole degrees it lies off every way its grain allows."""
    if problem is None:
        return 0
    turns = problem.shapes[placement.shape].turns
    return min((abs((placement.turn - turn + 180) % 360 - 180) for turn in turns), default=0)


def _round(spot: Spot) -> Ring:
    turns = [2 * pi * step / CORNERS for step in range(CORNERS)]
    return tuple((spot.x + spot.radius * cos(t), spot.y + spot.radius * sin(t)) for t in turns)


def _steps(at: float, step: float, end: float) -> list[float]:
    """Every at + i x step from 0 to `end`."""
    return [at + step * i for i in range(ceil(-at / step), floor((end - at) / step) + 1)]


def _across(lay: Lay, repeat: Repeat, at: float, middle: float) -> Iterator[Stretch]:
    """The lines across of each column of the lattice, half a repeat to either side of it."""
    reach = ceil(middle / repeat.across)
    for column in range(-reach, reach + 1):
        low = max(0.0, middle + (column - 0.5) * repeat.across)
        high = min(lay.width, middle + (column + 0.5) * repeat.across)
        shift = repeat.along / 2 if repeat.half_drop and column % 2 else 0.0
        if low < high:
            for x in _steps(at + shift, repeat.along, lay.need):
                yield Stretch(x, low, x, high)
