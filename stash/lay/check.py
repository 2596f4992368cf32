"""The independent checker: every lay passes here before its length is shown.

It works from the problem and the finished polygons alone, with shapely, and shares no code
with the placing. An empty answer means the lay is legal.
"""

from __future__ import annotations

import math
from collections import Counter
from typing import TYPE_CHECKING

import numpy as np
from shapely import STRtree, difference, get_coordinates, intersection, symmetric_difference
from shapely.geometry import Point, Polygon

from stash.lay.check_folds import fold_faults
from stash.lay.check_repeat import repeat_faults, turned

if TYPE_CHECKING:
    from stash.lay.problem import Problem, Ring, Shape
    from stash.lay.result import Lay, Placement

NEAR_MM = 0.002
"""Outlines and edges agree to this: twice the solver's grid."""
SLIVER_MM2 = 0.25
"""Largest shared area still called touching: rounding along a metre of common edge."""
SNAP_MM = 1e-4
"""Overlays are worked out on this grid: edges that differ by rounding only would else be
told apart now and then, and two equal outlines called different."""
FOLD_MM = 0.05
"""A fold edge may stray this far from the straight line and counts as lying on it."""
GAP_MM = 0.01
"""How much a gap between pieces may fall short."""


def check(problem: Problem, lay: Lay) -> tuple[str, ...]:
    """Every way in which `lay` breaks the rules of `problem`, in words."""
    faults: list[str] = []
    faults += _counts(problem, lay)
    for placement in lay.placements:
        faults += _one(problem, lay, placement)
    polygons = [Polygon(p.polygon) for p in lay.placements]
    faults += _apart(problem, lay, polygons)
    faults += _clear(problem, lay, polygons)
    faults += fold_faults(problem, lay, _same)
    faults += repeat_faults(problem, lay)
    return tuple(faults)


def _counts(problem: Problem, lay: Lay) -> list[str]:
    """As many copies of each piece as wanted, half of a mirrored pair mirrored."""
    faults = []
    wanted = [p for p in lay.placements if not p.waste]
    counts = Counter(p.shape for p in wanted)
    flipped = Counter(p.shape for p in wanted if p.mirrored)
    for index, shape in enumerate(problem.shapes):
        if counts[index] != shape.copies:
            faults.append(f"{shape.name}: {counts[index]} copies instead of {shape.copies}")
        plain = counts[index] - flipped[index]
        if shape.on_fold or _has_mirror_look(problem, shape):
            continue
        allowed = {shape.copies // 2} if shape.mirrored else {0}
        if shape.mirrored and shape.copies % 2:
            allowed.add(shape.copies // 2 + 1)
        if flipped[index] not in allowed:
            faults.append(f"{shape.name}: {flipped[index]} mirrored and {plain} not")
    if any(not 0 <= p.shape < len(problem.shapes) for p in lay.placements):
        faults.append("a piece that was not asked for")
    return faults


def _has_mirror_look(problem: Problem, shape: Shape) -> bool:
    """The piece looks the same mirrored, so that which copy is mirrored says nothing."""
    if shape.match is not None and problem.repeat is not None:
        ys = [y for _, y in shape.outline]
        if abs(2 * shape.match[1] - min(ys) - max(ys)) > NEAR_MM:
            return False  # it matters for the print
    return _congruent([(x, -y) for x, y in shape.outline], shape.outline)


def _one(problem: Problem, lay: Lay, placement: Placement) -> list[str]:
    """The right outline, turned as the rules allow, inside the cloth."""
    shape = problem.shapes[placement.shape]
    faults = []
    if not _turn_allowed(problem, shape, placement):
        faults.append(f"{shape.name} is turned by {placement.turn} degrees")
    if not _congruent(_expected(shape, placement), placement.polygon):
        faults.append(f"{shape.name} does not have its outline")
    xs = [x for x, _ in placement.polygon]
    ys = [y for _, y in placement.polygon]
    if min(ys) < -NEAR_MM or max(ys) > problem.width + NEAR_MM:
        faults.append(f"{shape.name} lies beyond the edge of the cloth")
    if min(xs) < -NEAR_MM or max(xs) > lay.need + NEAR_MM:
        faults.append(f"{shape.name} lies beyond the end of the lay")
    return faults


def _turn_allowed(problem: Problem, shape: Shape, placement: Placement) -> bool:
    turns = {t % 360 for t in shape.turns}
    if problem.nap and any(t < 180 for t in turns):
        turns = {t for t in turns if t < 180}
    turn = -placement.turn if placement.mirrored else placement.turn
    off = min(min((turn - t) % 360, (t - turn) % 360) for t in turns)
    return off <= shape.tolerance


def _expected(shape: Shape, placement: Placement) -> list[tuple[float, float]]:
    """The outline mirrored and turned as the placement says, wherever it lies."""
    points = [(float(x), float(y)) for x, y in shape.outline]
    if shape.on_fold:
        flat = [(x, y if y > FOLD_MM else 0.0) for x, y in points]
        half, other = Polygon(flat), Polygon([(x, -y) for x, y in flat])
        whole = half.union(other)
        if not isinstance(whole, Polygon):
            return points
        points = [(x, y) for x, y in whole.exterior.coords[:-1]]
    return turned(points, placement)


def _congruent(expected: list[tuple[float, float]], ring: Ring) -> bool:
    """The same outline up to a shift."""
    one, other = Polygon(expected), Polygon(ring)
    dx = other.bounds[0] - one.bounds[0]
    dy = other.bounds[1] - one.bounds[1]
    return _same(Polygon([(x + dx, y + dy) for x, y in expected]), other)


def _same(one: Polygon, other: Polygon) -> bool:
    """What only one of them covers is thinner, all the way round, than the grid."""
    if not (one.is_valid and other.is_valid):
        return False
    if _same_corners(one, other):
        return True
    # What only one covers, times its reach, is never less than the area times how far the
    # centres of gravity lie apart: a cheap no, since overlays of fine outlines take seconds.
    least = one.area * one.centroid.distance(other.centroid) / math.dist((0, 0), _size(one))
    if least > 2 * NEAR_MM * one.length:
        return False
    rest = symmetric_difference(one, other, grid_size=SNAP_MM)
    return bool(rest.area <= NEAR_MM * one.length)


def _same_corners(one: Polygon, other: Polygon) -> bool:
    """The same corners in the same order, whichever comes first, either way round."""
    a, b = get_coordinates(one)[:-1], get_coordinates(other)[:-1]
    if a.shape != b.shape:
        return False
    for ring in (b, b[::-1]):
        first = abs(ring - a[0]).sum(axis=1).argmin()
        if abs(np.roll(ring, -first, axis=0) - a).max() <= NEAR_MM:
            return True
    return False


def _size(polygon: Polygon) -> tuple[float, float]:
    left, low, right, high = polygon.bounds
    return right - left, high - low


def _apart(problem: Problem, lay: Lay, polygons: list[Polygon]) -> list[str]:
    """No two pieces share more than a sliver, or lie nearer than the gap."""
    faults = []
    tree = STRtree(polygons)
    for i, j in tree.query(polygons, predicate="intersects").T:
        if i < j and intersection(polygons[i], polygons[j], grid_size=SNAP_MM).area > SLIVER_MM2:
            faults.append(f"{lay.placements[i].name} and {lay.placements[j].name} overlap")
    least = problem.gap - GAP_MM
    if least <= 0:
        return faults
    for i, j in tree.query(polygons, predicate="dwithin", distance=least).T:
        if i < j and polygons[i].distance(polygons[j]) < least:
            names = f"{lay.placements[i].name} and {lay.placements[j].name}"
            faults.append(f"{names} lie nearer than {problem.gap:g} mm")
    return faults


def _clear(problem: Problem, lay: Lay, polygons: list[Polygon]) -> list[str]:
    """Flaws kept clear; a remnant's outline kept inside."""
    faults = []
    cloth = Polygon(problem.outline).buffer(NEAR_MM) if problem.outline else None
    patches = [Polygon(patch) for patch in problem.patches]
    for placement, polygon in zip(lay.placements, polygons, strict=True):
        for spot in problem.spots:
            if polygon.distance(Point(spot.x, spot.y)) < spot.radius - NEAR_MM:
                faults.append(f"{placement.name} lies on a flaw")
        inner = polygon.buffer(-NEAR_MM) if patches else polygon
        if any(inner.intersects(patch) for patch in patches):
            faults.append(f"{placement.name} lies on a flaw")
        if cloth is not None and difference(polygon, cloth, grid_size=SNAP_MM).area > SLIVER_MM2:
            faults.append(f"{placement.name} lies beyond the remnant")
    return faults
