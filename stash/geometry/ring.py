"""Closed rings of points: area, bounds, mirror, turn, shift. Unit-free; last point not repeated."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable

Number = TypeVar("Number", int, float)
Ring = tuple[tuple[Number, Number], ...]
IntRing = tuple[tuple[int, int], ...]
FloatRing = tuple[tuple[float, float], ...]


def signed_area(ring: Ring[Number]) -> float:
    """Area by the shoelace formula; positive when the ring runs anticlockwise."""
    twice: float = 0
    x0, y0 = ring[-1]
    for x1, y1 in ring:
        twice += x0 * y1 - x1 * y0
        x0, y0 = x1, y1
    return twice / 2


def bounds(ring: Ring[Number]) -> tuple[Number, Number, Number, Number]:
    """Smallest and largest x and y: (min x, min y, max x, max y)."""
    xs = [x for x, _ in ring]
    ys = [y for _, y in ring]
    return min(xs), min(ys), max(xs), max(ys)


def across(ring: Ring[Number]) -> Number:
    """How wide the ring is: from its smallest y to its largest."""
    _, low, _, high = bounds(ring)
    return high - low


def cross(o: tuple[int, int], a: tuple[int, int], b: tuple[int, int]) -> int:
    """Twice the signed area of the triangle o, a, b: positive when it turns left."""
    return (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0])


def perimeter(ring: FloatRing) -> float:
    """Length of the closed boundary."""
    return sum(math.dist(a, b) for a, b in zip(ring, ring[1:] + ring[:1], strict=True))


def shift(ring: Ring[Number], dx: Number, dy: Number) -> Ring[Number]:
    """The ring moved by (dx, dy)."""
    return tuple([(x + dx, y + dy) for x, y in ring])


def anticlockwise(ring: Ring[Number]) -> Ring[Number]:
    """The same ring running anticlockwise."""
    return ring if signed_area(ring) >= 0 else ring[::-1]


def mirror(ring: Ring[Number]) -> Ring[Number]:
    """The ring mirrored in the x axis, still running the same way round."""
    return tuple([(x, -y) for x, y in reversed(ring)])


def turn(ring: Ring[Number], degrees: int) -> Ring[Number]:
    """The ring turned about the origin; quarter turns are exact, others rounded for integers."""
    quarter, rest = divmod(degrees % 360, 90)
    for _ in range(quarter):
        ring = tuple([(-y, x) for x, y in ring])
    if not (rest and ring):
        return ring
    cos, sin = math.cos(math.radians(rest)), math.sin(math.radians(rest))
    turned = [(x * cos - y * sin, x * sin + y * cos) for x, y in ring]
    if isinstance(ring[0][0], int):
        return tuple([(type(ring[0][0])(round(x)), type(ring[0][0])(round(y))) for x, y in turned])
    return tuple([(type(ring[0][0])(x), type(ring[0][0])(y)) for x, y in turned])


def open_out(half: Ring[Number]) -> Ring[Number]:
    """Open out a half drawn with its fold edge on y = 0: the half joined to its mirror image.

    The fold edge itself disappears. Works for any ring that touches y = 0 along one edge
    and lies on one side of it.
    """
    ring = half if signed_area(half) >= 0 else half[::-1]
    start = _fold_start(ring)
    ring = ring[start:] + ring[:start]
    # The ring now runs from the far end of the fold edge round to its near end.
    inner = [(x, -y) for x, y in reversed(ring) if y != 0]
    return tuple(list(ring) + inner)


def _fold_start(ring: Ring[Number]) -> int:
    """Index of the point where the longest edge lying on y = 0 ends."""
    best, length = -1, 0.0
    for i, (x1, y1) in enumerate(ring):
        x0, y0 = ring[i - 1]
        if y0 == 0 and y1 == 0 and abs(x1 - x0) > length:
            best, length = i, abs(x1 - x0)
    if best < 0:
        raise ValueError("no edge lies on the fold")
    return best


def clean(ring: Ring[Number], nearest: float = 0) -> Ring[Number]:
    """Anticlockwise, without repeated points (closer than `nearest`) and without spikes.

    Points that lie straight between their neighbours are dropped. The result may have
    fewer than three points: then the ring had no area.
    """
    points = list(ring)
    before = 0
    while len(points) != before:
        before = len(points)
        points = _without(points, lambda last, here, _: math.dist(last, here) <= nearest)
        points = _without(points, _straight)
    return anticlockwise(tuple(points)) if len(points) >= 3 else tuple(points)


def _without(
    points: list[tuple[Number, Number]],
    unwanted: Callable[[tuple[Number, Number], tuple[Number, Number], tuple[Number, Number]], bool],
) -> list[tuple[Number, Number]]:
    """One walk round, leaving out each point that is unwanted between its neighbours."""
    kept: list[tuple[Number, Number]] = []
    for here, after in zip(points, points[1:] + points[:1], strict=True):
        last = kept[-1] if kept else points[-1]
        if not unwanted(last, here, after):
            kept.append(here)
    return kept


def _straight(a: tuple[Number, Number], b: tuple[Number, Number], c: tuple[Number, Number]) -> bool:
    return (b[0] - a[0]) * (c[1] - b[1]) == (b[1] - a[1]) * (c[0] - b[0])
