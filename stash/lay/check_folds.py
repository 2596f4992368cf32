"""Checking lays of two layers: the fold lines, the twins, and what is cut single.

Part of the independent checker: it works from the finished polygons alone.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from shapely import STRtree
from shapely.affinity import scale
from shapely.geometry import Polygon, box

from stash.lay.problem import LayKind

if TYPE_CHECKING:
    from collections.abc import Callable

    from stash.lay.problem import Problem
    from stash.lay.result import Lay, Placement

EDGE_MM = 0.002
"""How far a piece may pass a line and still touch it: twice the solver's grid."""
LINE_MM = 0.02
"""How far a fold may lie from where the width puts it."""


class Flat(NamedTuple):
    """One stretch of cloth that lies flat in one layer, and the line it is folded at."""

    low: float
    high: float
    fold: float


def fold_faults(
    problem: Problem, lay: Lay, same: Callable[[Polygon, Polygon], bool]
) -> tuple[str, ...]:
    """Every rule of its kind that the lay breaks; `same` tells if two outlines are one."""
    wrong = _lines(problem, lay)
    if wrong:
        return (wrong,)
    if lay.kind is LayKind.OPEN:
        return ()
    faults = []
    polygons = [Polygon(p.polygon) for p in lay.placements]
    tree = STRtree(polygons)
    across = lay.kind is LayKind.CROSSWAYS
    for p, polygon in zip(lay.placements, polygons, strict=True):
        faults += _single(problem, lay, p, polygon) if p.single else _reach(lay, p)
        if p.single:
            continue
        flat = _flat_under(lay, p, opened=p.on_fold and not across)
        if flat is None:
            faults.append(f"{p.name} crosses a line where the cloth is folded or meets")
            continue
        image = _mirrored(polygon, flat.fold, across)
        if p.on_fold and not across:
            if not same(image, polygon):
                faults.append(f"{p.name} does not lie on the fold")
        elif not any(
            lay.placements[k].shape == p.shape
            and not lay.placements[k].single
            and lay.placements[k] is not p
            and same(image, polygons[k])
            for k in tree.query(image, predicate="intersects")
        ):
            faults.append(f"{p.name} has no twin in the other layer")
    return tuple(faults)


def _lines(problem: Problem, lay: Lay) -> str:
    """What is wrong with the fold lines themselves."""
    folds, cross, half = lay.folds, lay.cross_fold, problem.width / 2
    if lay.kind is LayKind.CROSSWAYS:
        if problem.nap:
            return "a cloth with nap is folded across"
        if folds or cross is None or not 0 <= cross <= lay.need:
            return "a crossways lay without its fold across the cloth"
        return ""
    if cross is not None:
        return f"a fold across the cloth in a lay that is {lay.kind}"
    wanted = {LayKind.OPEN: 0, LayKind.FOLDED: 1, LayKind.GATE: 2}[lay.kind]
    if len(folds) != wanted:
        return f"{len(folds)} lengthwise folds in a lay that is {lay.kind}"
    if lay.kind is LayKind.FOLDED and not 0 < folds[0] <= half + LINE_MM:
        return "a fold so deep that the selvedge folded in passes the other one"
    if lay.kind is LayKind.GATE and not 0 < folds[0] < half:
        return "a fold beyond the edge of the cloth"
    if lay.kind is LayKind.GATE and abs(folds[1] - folds[0] - half) > LINE_MM:
        return "the folds are not half the width apart, so the selvedges do not meet"
    return ""


def _single(problem: Problem, lay: Lay, p: Placement, polygon: Polygon) -> list[str]:
    """A piece cut from one layer lies where there is only one, and is no one's twin."""
    faults = []
    start, high = lay.folded_to, problem.width
    if lay.cross_fold is not None:
        start = max(start, 2 * lay.cross_fold)  # where the longer layer has no other over it
    if lay.kind is LayKind.FOLDED and lay.folds[0] < problem.width / 2 - LINE_MM:
        high = 2 * lay.folds[0]  # where the selvedge folded in ends
    if start > 0 and polygon.intersects(box(-EDGE_MM, -EDGE_MM, start - EDGE_MM, high - EDGE_MM)):
        faults.append(f"{p.name} is cut single where the cloth is folded")
    if p.waste:
        faults.append(f"{p.name} is cut single and thrown away")
    return faults


def _reach(lay: Lay, p: Placement) -> list[str]:
    if max(x for x, _ in p.polygon) > lay.folded_to + EDGE_MM:
        return [f"{p.name} is cut double beyond the fold"]
    return []


def _flats(lay: Lay, opened: bool) -> list[Flat]:
    """The flat stretches along the axis the lay is folded in.

    `opened`: those either side of a fold taken together, for pieces opened out at it.
    """
    if lay.cross_fold is not None:
        ends = [(0.0, lay.cross_fold, 2 * lay.cross_fold)]
    elif len(lay.folds) == 1:
        ends = [(0.0, lay.folds[0], 2 * lay.folds[0])]
    else:  # the selvedges meet at the same distance from either fold
        meet = 2 * lay.folds[0]
        ends = [(0.0, lay.folds[0], meet), (meet, lay.folds[1], lay.width)]
    if opened:
        return [Flat(low, high, fold) for low, fold, high in ends]
    return [
        flat for low, fold, high in ends for flat in (Flat(low, fold, fold), Flat(fold, high, fold))
    ]


def _flat_under(lay: Lay, p: Placement, opened: bool) -> Flat | None:
    """The stretch the whole piece lies in; None if it crosses from one to another."""
    axis = 0 if lay.cross_fold is not None else 1
    low, high = min(q[axis] for q in p.polygon), max(q[axis] for q in p.polygon)
    slack = EDGE_MM if axis == 0 else LINE_MM
    for flat in _flats(lay, opened):
        if flat.low - slack <= low and high <= flat.high + slack:
            return flat
    return None


def _mirrored(polygon: Polygon, fold: float, across: bool) -> Polygon:
    """The polygon mirrored in the fold line: x = fold if it runs across, else y = fold."""
    if across:
        return scale(polygon, xfact=-1, origin=(fold, 0))
    return scale(polygon, yfact=-1, origin=(0, fold))
