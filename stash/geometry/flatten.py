"""Curves made of straight lines that stray no further than a tolerance. Unit-free."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

Point = tuple[float, float]
DEEPEST = 8
"""A curve becomes at most 2**9 lines."""


def inner_points(point_at: Callable[[float], Point], tolerance: float) -> Iterator[Point]:
    """Points strictly inside a curve over 0 to 1, halved until every part is flat enough."""
    yield from _halved(point_at, tolerance, 0.0, 1.0, 0)


def _halved(
    point_at: Callable[[float], Point], tolerance: float, start: float, end: float, depth: int
) -> Iterator[Point]:
    middle = (start + end) / 2
    a, m, b = (point_at(t) for t in (start, middle, end))
    quarters = [point_at(start + (end - start) * q) for q in (0.25, 0.75)]
    stray = max(off_line(p, a, b) for p in (m, *quarters))
    if (stray <= tolerance and depth > 0) or depth > DEEPEST or not math.isfinite(stray):
        return
    yield from _halved(point_at, tolerance, start, middle, depth + 1)
    yield m
    yield from _halved(point_at, tolerance, middle, end, depth + 1)


def off_line(p: Point, a: Point, b: Point) -> float:
    """How far a point is from the endless line through two others."""
    span = math.dist(a, b)
    if span < 1e-9:
        return math.dist(p, a)
    return abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / span


def cubic(p0: Point, p1: Point, p2: Point, p3: Point) -> Callable[[float], Point]:
    """A Bézier curve by its four points."""

    def point_at(t: float) -> Point:
        s = 1 - t
        k0, k1, k2, k3 = s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t
        return (
            k0 * p0[0] + k1 * p1[0] + k2 * p2[0] + k3 * p3[0],
            k0 * p0[1] + k1 * p1[1] + k2 * p2[1] + k3 * p3[1],
        )

    return point_at
