"""Outlines as runs of edges, and the allowance each run is given outward."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

Point = tuple[float, float]
Ring = tuple[Point, ...]

MITRE_LIMIT = 2.0
"""A corner reaches at most this many allowances out; sharper ones are cut off square."""
NEARLY_STRAIGHT = 0.02
"""Sine of the turn below which two edges count as one line."""


class Add(Enum):
    """What is added outside an edge."""

    SEAM = "seam"
    HEM = "hem"
    TOP = "casing"
    EDGE = "edge"
    """An edge that is finished, not sewn to another."""
    CENTRE = "centre"
    """The centre line: nothing when it lies on the fold, else a seam."""


@dataclass(frozen=True, slots=True)
class Edge:
    """A run of points in mm, first to last, with one allowance along all of it."""

    points: tuple[Point, ...]
    add: Add = Add.SEAM


def curve(start: Point, pull_start: Point, pull_end: Point, end: Point) -> tuple[Point, ...]:
    """A cubic curve as seven points, mm; enough for 0.5 mm on an armhole."""
    points = []
    for step in range(7):
        t = step / 6
        a, b, c, d = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
        points.append(
            (
                a * start[0] + b * pull_start[0] + c * pull_end[0] + d * end[0],
                a * start[1] + b * pull_start[1] + c * pull_end[1] + d * end[1],
            )
        )
    return tuple(points)


def signed_area(ring: Ring) -> float:
    """Area in mm², positive when the ring runs counter-clockwise."""
    total = 0.0
    for (x1, y1), (x2, y2) in zip(ring, ring[1:] + ring[:1], strict=True):
        total += x1 * y2 - x2 * y1
    return total / 2


def seam_line(edges: tuple[Edge, ...]) -> Ring:
    """The edges as one ring, mm, before anything is added."""
    return tuple(start for edge in edges for start, _ in _steps(edge))


def with_allowances(edges: tuple[Edge, ...], amounts: Mapping[Add, float]) -> Ring:
    """The cutting line, mm: every edge moved outward by its allowance, corners mitred.

    `edges` follow one another round the piece in either direction.
    """
    points = seam_line(edges)
    added = [amounts[edge.add] for edge in edges for _ in _steps(edge)]
    if signed_area(points) < 0:
        points = points[::-1]
        added = added[-2::-1] + added[-1:]
    count = len(points)
    ring: list[Point] = []
    for i in range(count):
        ring.extend(
            _corner(points[i - 1], points[i], points[(i + 1) % count], added[i - 1], added[i])
        )
    return _without_loops(_without_repeats(ring))


def crosses_itself(ring: Ring) -> bool:
    """Whether any two edges of the ring that are not neighbours touch or cross."""
    return _first_crossing(ring) is not None


def _without_loops(ring: Ring) -> Ring:
    """The ring without the small loops an allowance leaves in a hollow tighter than itself.

    At each crossing the ring falls into two; the larger part is kept.
    """
    while (found := _first_crossing(ring)) is not None:
        i, j = found
        meet = _meeting(ring[i], ring[i + 1], ring[j], ring[(j + 1) % len(ring)])
        if meet is None:
            return ring
        loop: Ring = (meet, *ring[i + 1 : j + 1])
        rest: Ring = (*ring[: i + 1], meet, *ring[j + 1 :])
        kept = loop if signed_area(loop) > signed_area(rest) else rest
        ring = _without_repeats(list(kept))
    return ring


def _first_crossing(ring: Ring) -> tuple[int, int] | None:
    count = len(ring)
    for i in range(count):
        for j in range(i + 2, count):
            if (j + 1) % count == i:
                continue
            if _touch(ring[i], ring[i + 1], ring[j], ring[(j + 1) % count]):
                return i, j
    return None


def _meeting(a: Point, b: Point, c: Point, d: Point) -> Point | None:
    """Where the lines through a, b and c, d meet; None when they run alongside."""
    along = (b[0] - a[0]) * (d[1] - c[1]) - (b[1] - a[1]) * (d[0] - c[0])
    if abs(along) < 1e-9:
        return None
    share = ((c[0] - a[0]) * (d[1] - c[1]) - (c[1] - a[1]) * (d[0] - c[0])) / along
    return a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])


def _steps(edge: Edge) -> list[tuple[Point, Point]]:
    pairs = zip(edge.points, edge.points[1:], strict=False)
    return [(start, end) for start, end in pairs if math.dist(start, end) > 0.01]


def _corner(before: Point, here: Point, after: Point, add_in: float, add_out: float) -> list[Point]:
    """The moved corner at `here`: one point, or two where it is stepped or cut off."""
    ux, uy = _unit(before, here)
    vx, vy = _unit(here, after)
    first = (here[0] + uy * add_in, here[1] - ux * add_in)
    second = (here[0] + vy * add_out, here[1] - vx * add_out)
    turn = ux * vy - uy * vx
    if abs(turn) < NEARLY_STRAIGHT:
        return [first] if math.dist(first, second) < 0.5 else [first, second]
    reach = ((second[0] - first[0]) * vy - (second[1] - first[1]) * vx) / turn
    meet = (first[0] + ux * reach, first[1] + uy * reach)
    limit = MITRE_LIMIT * max(add_in, add_out)
    if turn < 0 or math.dist(meet, here) <= limit:
        return [meet]
    back = max(0.0, limit - add_in)
    forth = max(0.0, limit - add_out)
    return [
        (first[0] + ux * back, first[1] + uy * back),
        (second[0] - vx * forth, second[1] - vy * forth),
    ]


def _unit(start: Point, end: Point) -> Point:
    length = math.dist(start, end)
    return (end[0] - start[0]) / length, (end[1] - start[1]) / length


def _without_repeats(ring: list[Point]) -> Ring:
    kept = [p for i, p in enumerate(ring) if math.dist(p, ring[i - 1]) > 0.01]
    return tuple(kept)


def _touch(a: Point, b: Point, c: Point, d: Point) -> bool:
    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    if max(a[0], b[0]) < min(c[0], d[0]) or max(c[0], d[0]) < min(a[0], b[0]):
        return False
    if max(a[1], b[1]) < min(c[1], d[1]) or max(c[1], d[1]) < min(a[1], b[1]):
        return False
    return side(a, b, c) * side(a, b, d) <= 0 and side(c, d, a) * side(c, d, b) <= 0
