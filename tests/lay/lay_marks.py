"""A second opinion on grain and print: worked out from the outlines alone."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stash.lay.problem import Point, Problem, Shape
    from stash.lay.result import Lay, Placement

NEAR_MM = 0.02


def off_grain(problem: Problem, lay: Lay) -> list[str]:
    """Pieces turned further from every allowed angle than their tolerance."""
    faults = []
    for placement in lay.placements:
        shape = problem.shapes[placement.shape]
        turn = -placement.turn if placement.mirrored else placement.turn
        turns = [t for t in shape.turns if not problem.nap or t % 360 < 180] or shape.turns
        if min(abs(math.remainder(turn - t, 360)) for t in turns) > shape.tolerance:
            faults.append(f"{placement.name} lies off grain")
    return faults


def off_print(problem: Problem, lay: Lay) -> list[str]:
    """Match points that do not lie on the one lattice the lay names."""
    repeat = problem.repeat
    if repeat is None or not any(shape.match for shape in problem.shapes):
        return []
    if lay.repeat_at is None:
        return ["the lay does not say where the print begins"]
    faults = []
    if repeat.at is not None and _off(lay.repeat_at - repeat.at, repeat.along) > NEAR_MM:
        faults.append("the print begins elsewhere")
    for placement in lay.placements:
        shape = problem.shapes[placement.shape]
        if shape.match is None or placement.waste:
            continue
        x, y = _where(shape, placement)
        start = lay.repeat_at
        if repeat.across:
            column = round((y - problem.width / 2) / repeat.across)
            if abs(y - problem.width / 2 - column * repeat.across) > NEAR_MM:
                faults.append(f"{placement.name} does not meet the print across")
            if repeat.half_drop and column % 2:
                start += repeat.along / 2
        if _off(x - start, repeat.along) > NEAR_MM:
            faults.append(f"{placement.name} does not meet the print")
    return faults


def _off(distance: float, step: float) -> float:
    return abs(math.remainder(distance, step))


def _where(shape: Shape, placement: Placement) -> Point:
    """The match point on the cloth: the outline laid over the placed one by its bounds."""
    ring = list(shape.outline)
    assert shape.match is not None
    mark = shape.match
    if shape.on_fold:
        ring += [(x, -y) for x, y in ring]
        mark = (mark[0], 0.0)  # the print is centred on the fold
    flip = -1 if placement.mirrored else 1
    sin, cos = math.sin(math.radians(placement.turn)), math.cos(math.radians(placement.turn))
    turned = [(x * cos - flip * y * sin, x * sin + flip * y * cos) for x, y in (*ring, mark)]
    *outline, (mx, my) = turned
    dx = min(x for x, _ in placement.polygon) - min(x for x, _ in outline)
    dy = min(y for _, y in placement.polygon) - min(y for _, y in outline)
    return mx + dx, my + dy
