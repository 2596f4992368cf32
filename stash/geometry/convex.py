"""Cutting a simple ring into convex parts, and adding convex rings together.

Ears are clipped into triangles, then neighbours are joined back while the result stays
convex (Hertel & Mehlhorn, Fast triangulation of simple polygons, FCT 1983): at most four
times the fewest possible parts. The sum of two convex rings merges their edges by angle
(de Berg et al., Computational Geometry, 3rd ed., section 13.3).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.geometry.ring import cross

if TYPE_CHECKING:
    from stash.geometry.ring import IntRing

Point = tuple[int, int]


def is_convex(ring: IntRing) -> bool:
    """True if an anticlockwise ring has no hollow."""
    n = len(ring)
    return all(cross(ring[i - 1], ring[i], ring[(i + 1) % n]) >= 0 for i in range(n))


def convex_parts(ring: IntRing) -> tuple[IntRing, ...]:
    """Convex rings that together cover an anticlockwise ring exactly.

    The ring must be simple: whoever brings outlines in has made sure of that.
    """
    if is_convex(ring):
        return (ring,)
    return tuple(_join(_triangles(ring)))


def _triangles(ring: IntRing) -> list[list[Point]]:
    left = list(ring)
    triangles: list[list[Point]] = []
    while len(left) > 3:
        ear = _find_ear(left)
        if ear is None:
            raise ValueError("only a ring that crosses itself has no ear to clip")
        n = len(left)
        corner = [left[ear - 1], left[ear], left[(ear + 1) % n]]
        if cross(*corner) > 0:
            triangles.append(corner)
        del left[ear]
    if cross(*left) > 0:
        triangles.append(left)
    return triangles


def _find_ear(points: list[Point]) -> int | None:
    """A corner whose triangle holds no other point; straight corners count as ears."""
    n = len(points)
    for i in range(n):
        a, b, c = points[i - 1], points[i], points[(i + 1) % n]
        turn = cross(a, b, c)
        if turn < 0:
            continue
        if turn == 0 or not any(
            p not in (a, b, c)
            and cross(a, b, p) >= 0
            and cross(b, c, p) >= 0
            and cross(c, a, p) >= 0
            for p in points
        ):
            return i
    return None


def _join(parts: list[list[Point]]) -> list[IntRing]:
    """Join parts over a shared edge while the result stays convex."""
    joined = True
    while joined:
        joined = False
        for i in range(len(parts)):
            for j in range(i + 1, len(parts)):
                merged = _merge(parts[i], parts[j])
                if merged is not None:
                    parts[i] = merged
                    del parts[j]
                    joined = True
                    break
            if joined:
                break
    return [tuple(part) for part in parts]


def _merge(one: list[Point], other: list[Point]) -> list[Point] | None:
    """Both rings as one convex ring, or None."""
    for i, a in enumerate(one):
        b = one[(i + 1) % len(one)]
        for j, c in enumerate(other):
            if c == b and other[(j + 1) % len(other)] == a:
                ring = one[i + 1 :] + one[: i + 1]  # from b round to a
                rest = other[j + 1 :] + other[: j + 1]  # from a round to b
                whole = ring + rest[1:-1]
                return whole if is_convex(tuple(whole)) else None
    return None


def convex_sum(one: IntRing, other: IntRing) -> IntRing:
    """The Minkowski sum of two convex anticlockwise rings, exact."""
    a, b = _from_lowest(one), _from_lowest(other)
    n, m = len(a), len(b)
    i = j = 0
    out: list[Point] = []
    while i < n or j < m:
        p, q = a[i % n], b[j % m]
        out.append((p[0] + q[0], p[1] + q[1]))
        p2, q2 = a[(i + 1) % n], b[(j + 1) % m]
        lead = (p2[0] - p[0]) * (q2[1] - q[1]) - (p2[1] - p[1]) * (q2[0] - q[0])
        if j >= m or (i < n and lead > 0):
            i += 1
        elif i >= n or lead < 0:
            j += 1
        else:
            i += 1
            j += 1
    return tuple(out)


def _from_lowest(ring: IntRing) -> IntRing:
    start = min(range(len(ring)), key=lambda k: (ring[k][1], ring[k][0]))
    return ring[start:] + ring[:start]
