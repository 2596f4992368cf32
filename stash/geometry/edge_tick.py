"""Short marks on the edge of an outline, as notches are drawn. One unit throughout."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from stash.geometry.ring import signed_area

if TYPE_CHECKING:
    from stash.geometry.ring import FloatRing

    Point = tuple[float, float]

AT_CORNER = 1e-6


def edge_tick(ring: FloatRing, point: Point, longest: float) -> tuple[Point, Point]:
    """A mark from the place on the edge nearest to `point` straight into the outline.

    At a corner it halves the angle. It is `longest` long, but reaches at most half way to the
    edge on the other side, so that it never leaves the outline.

    Args:
        ring: A simple closed outline either way round, its last point not repeated.
        point: On the edge or near it.
        longest: How long the mark is where there is room.
    """
    way = 1.0 if signed_area(ring) >= 0 else -1.0
    place, start = min(
        ((_nearest(ring[i - 1], here, point), i) for i, here in enumerate(ring)),
        key=lambda found: math.dist(found[0], point),
    )
    before, after = start - 1, start
    if math.dist(place, ring[start]) <= AT_CORNER:
        after = (start + 1) % len(ring)
        across = _halving(ring[before], ring[start], ring[after], way)
    elif math.dist(place, ring[before]) <= AT_CORNER:
        across = _halving(ring[before - 1], ring[before], ring[start], way)
    else:
        across = _inward(ring[before], ring[start], way)
    reach = min(longest, _free(ring, place, across) / 2)
    return place, (place[0] + reach * across[0], place[1] + reach * across[1])


def _nearest(a: Point, b: Point, point: Point) -> Point:
    """The place between a and b nearest to the point."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    square = dx * dx + dy * dy
    if square == 0:
        return a
    along = ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / square
    along = min(1.0, max(0.0, along))
    return a[0] + along * dx, a[1] + along * dy


def _inward(a: Point, b: Point, way: float) -> Point:
    """The direction into an outline that runs from a to b."""
    span = math.dist(a, b) or 1.0
    return -way * (b[1] - a[1]) / span, way * (b[0] - a[0]) / span


def _halving(a: Point, corner: Point, b: Point, way: float) -> Point:
    """The direction that halves the angle inside a corner."""
    one, other = _inward(a, corner, way), _inward(corner, b, way)
    x, y = one[0] + other[0], one[1] + other[1]
    span = math.hypot(x, y)
    return (x / span, y / span) if span > AT_CORNER else one


def _free(ring: FloatRing, place: Point, across: Point) -> float:
    """How far it is from a place on the edge to the edge opposite."""
    free = math.inf
    for i, (bx, by) in enumerate(ring):
        ax, ay = ring[i - 1]
        dx, dy = bx - ax, by - ay
        cross = across[0] * dy - across[1] * dx
        if abs(cross) < 1e-12:
            continue
        px, py = ax - place[0], ay - place[1]
        far = (px * dy - py * dx) / cross
        along = (px * across[1] - py * across[0]) / cross
        if far > 1e-4 and -1e-9 <= along <= 1 + 1e-9:
            free = min(free, far)
    return free
