"""Fewer points, never less area: outlines simplified outward.

A point in a hollow may be left out, and a short edge between two corners may be replaced by
letting its neighbours run on until they meet; both only add area, so a lay that is legal
for the simplified outline is legal for the real one. The bounding box stays, so a piece
exactly as wide as the cloth still fits.
"""

from __future__ import annotations

import heapq
import math
from typing import TYPE_CHECKING

from shapely.geometry import Polygon
from shapely.geometry import box as box_of

from stash.geometry.ring import anticlockwise, bounds, clean, cross

if TYPE_CHECKING:
    from stash.geometry.ring import IntRing

Point = tuple[int, int]

FINELY_DRAWN = 300
"""Points; more are thinned out first, since the careful way costs their square."""
TOO_MANY = 200
"""Points left after thinning out with which two such outlines would take minutes."""


def simplify_outward(ring: IntRing, most: float) -> IntRing:
    """A ring of fewer points that covers `ring` and never strays from it by more than `most`.

    Cheapest changes (by area added) go first. Integers in, integers out; any unit. A very
    finely drawn outline spends a tenth of `most` on being thinned out first. One that is rough
    as well, such as a scan, may spend more than all of it: it stays covered.
    """
    box = bounds(ring)
    if len(ring) > FINELY_DRAWN:
        drawn, share = ring, most / 10
        ring = _thin_out(drawn, share)
        while len(ring) > TOO_MANY:
            share *= 2
            ring = _thin_out(drawn, share)
        most = max(most - share, 0)
    points = list(anticlockwise(ring))
    strayed = [0.0] * len(points)
    while len(points) > 4:
        change = _cheapest(points, strayed, box, most)
        if change is None:
            break
        _, i, corner, stray = change
        if corner is None:
            _spread(strayed, i, len(points), stray)
            del points[i], strayed[i]
        else:
            j = (i + 1) % len(points)
            points[i], strayed[i] = corner, stray
            del points[j], strayed[j]
    return tuple(points)


Change = tuple[float, int, Point | None, float]


def _thin_out(ring: IntRing, most: float) -> IntRing:
    """Points left out of the outline grown by half of `most`, kept within its bounds."""
    grown = Polygon(ring).buffer(most / 2, join_style="mitre")
    thin = grown.simplify(most / 2 - 1).intersection(box_of(*bounds(ring)))
    if not isinstance(thin, Polygon):
        thin = box_of(*bounds(ring))
    return clean(tuple((round(x), round(y)) for x, y in thin.exterior.coords[:-1]))


def _cheapest(
    points: list[Point], strayed: list[float], box: tuple[int, int, int, int], most: float
) -> Change | None:
    """The allowed change that adds least area and crosses no other edge."""
    changes: list[Change] = []
    for i in range(len(points)):
        change = _drop_hollow(points, strayed, i) or _cut_edge(points, strayed, i, box)
        if change is not None and change[3] <= most:
            changes.append(change)
    heapq.heapify(changes)
    while changes:
        change = heapq.heappop(changes)
        if _stays_simple(points, change):
            return change
    return None


def _drop_hollow(points: list[Point], strayed: list[float], i: int) -> Change | None:
    """Leave out point i if it is hollow (reflex) or straight."""
    a, b, c = points[i - 1], points[i], points[(i + 1) % len(points)]
    turn = cross(a, b, c)
    if turn > 0:
        return None
    base = math.dist(a, c)
    if base == 0:
        return None
    stray = -turn / base + strayed[i]
    return (-turn / 2, i, None, stray)


def _spread(strayed: list[float], i: int, count: int, stray: float) -> None:
    """The new edge strays by `stray`: remember it at both its ends."""
    for k in ((i - 1) % count, (i + 1) % count):
        strayed[k] = max(strayed[k], stray)


def _cut_edge(
    points: list[Point], strayed: list[float], i: int, box: tuple[int, int, int, int]
) -> Change | None:
    """Replace the edge i, i+1 between two corners by the meeting point of its neighbours."""
    n = len(points)
    a, b, c, d = points[i - 1], points[i], points[(i + 1) % n], points[(i + 2) % n]
    if cross(a, b, c) <= 0 or cross(b, c, d) <= 0:
        return None
    ux, uy = b[0] - a[0], b[1] - a[1]
    vx, vy = c[0] - d[0], c[1] - d[1]
    det = ux * vy - uy * vx
    if det >= 0:  # the neighbours run apart or side by side: they never meet outside
        return None
    t = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / det
    x, y = a[0] + t * ux, a[1] + t * uy
    corner = _round_outward(x, y, a, b, c, d)
    if corner is None or not (box[0] <= corner[0] <= box[2] and box[1] <= corner[1] <= box[3]):
        return None
    if b == c:
        return None
    stray = _off_edge(corner, b, c) + max(strayed[i], strayed[(i + 1) % n])
    return (abs(cross(b, corner, c)) / 2, i, corner, stray)


def _off_edge(p: Point, b: Point, c: Point) -> float:
    """How far p lies from the edge from b to c, its ends included: past a sharp corner the
    nearest point of the edge is that corner, farther off than the line it lies on."""
    length = math.dist(b, c)
    along = ((p[0] - b[0]) * (c[0] - b[0]) + (p[1] - b[1]) * (c[1] - b[1])) / length
    if along <= 0:
        return math.dist(p, b)
    if along >= length:
        return math.dist(p, c)
    return abs(cross(b, p, c)) / length


def _round_outward(x: float, y: float, a: Point, b: Point, c: Point, d: Point) -> Point | None:
    """The nearest whole point to (x, y) from which edges to a and d leave b and c inside."""
    for px in (math.floor(x), math.ceil(x)):
        for py in (math.floor(y), math.ceil(y)):
            p = (px, py)
            if cross(a, p, b) >= 0 and cross(p, d, c) >= 0 and cross(b, p, c) >= 0:
                return p
    return None


def _stays_simple(points: list[Point], change: Change) -> bool:
    """No other point lies in the triangle the change adds."""
    _, i, corner, _ = change
    n = len(points)
    if corner is None:
        triangle = (points[i - 1], points[(i + 1) % n], points[i])
        own = {(i - 1) % n, i, (i + 1) % n}
    else:
        triangle = (points[i], corner, points[(i + 1) % n])
        own = {(i - 1) % n, i, (i + 1) % n, (i + 2) % n}
    a, b, c = triangle
    if cross(a, b, c) < 0:
        b, c = c, b
    return not any(
        cross(a, b, p) >= 0 and cross(b, c, p) >= 0 and cross(c, a, p) >= 0
        for k, p in enumerate(points)
        if k not in own
    )
