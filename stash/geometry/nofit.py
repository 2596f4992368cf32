"""No-fit regions: where one outline may not be put because it would overlap another.

For outlines A and B the no-fit region is the Minkowski sum of A and -B: B moved by t
overlaps A exactly when t lies strictly inside it. Summing the convex parts and uniting
them gives the region with its true holes (places where B fits into a hollow of A).
"""

from __future__ import annotations

from functools import lru_cache
from itertools import chain
from typing import TYPE_CHECKING, NamedTuple

import pyclipper

from stash.geometry.convex import convex_parts, convex_sum
from stash.geometry.ring import IntRing, bounds

if TYPE_CHECKING:
    from collections.abc import Iterator

MANY = 16
"""Rings united at once."""
SHRINK = 3
"""Whole units a region is shrunk by for searching, so that an exact fit is a thin free slit."""


class NoFit(NamedTuple):
    """`exact` rings bound the region (holes run clockwise); `shrunk` are for searching."""

    exact: tuple[IntRing, ...]
    shrunk: tuple[IntRing, ...]
    box: tuple[int, int, int, int]


@lru_cache(maxsize=4096)
def _parts(ring: IntRing) -> tuple[IntRing, ...]:
    return convex_parts(ring)


@lru_cache(maxsize=4096)
def _negative_parts(ring: IntRing) -> tuple[IntRing, ...]:
    return tuple(tuple((-x, -y) for x, y in part) for part in convex_parts(ring))


def part_sums(fixed: IntRing, moved: IntRing) -> tuple[IntRing, ...]:
    """Convex rings that together are the no-fit region: one for each pair of convex parts."""
    return tuple(convex_sum(a, b) for a in _parts(fixed) for b in _negative_parts(moved))


class _Image(NamedTuple):
    """A ring mirrored, moved to the origin, and begun at its least point; and how far moved."""

    ring: IntRing
    dx: int
    dy: int


@lru_cache(maxsize=4_000)
def _image(ring: IntRing, across: int, along: int) -> _Image:
    """The image of a ring under (x, y) -> (across x, along y), signs of 1 or -1."""
    points = [(across * x, along * y) for x, y in ring]
    if across * along < 0:
        points.reverse()
    left, low, _, _ = bounds(tuple(points))
    points = [(x - left, y - low) for x, y in points]
    first = points.index(min(points))
    return _Image(tuple(points[first:] + points[:first]), -left, -low)


@lru_cache(maxsize=4_000)
def no_fit(fixed: IntRing, moved: IntRing) -> NoFit:
    """The no-fit region of `moved` about `fixed`: both simple, anticlockwise, whole numbers.

    Kept for as long as the program runs: it depends on the outlines only, never on the
    width of a cloth. Pairs that are mirror images of one another, or each other's exchange,
    have regions that are images too (the region of B about A is that of A about B turned by
    180 degrees), so only one of up to eight is worked out.
    """
    signs, swapped, one, other = min(_looks(fixed, moved), key=lambda look: look[2:])
    region = _region(one.ring, other.ring)
    turn = -1 if swapped else 1
    a, b = (other, one) if swapped else (one, other)
    # Of the images moved to the origin: undo the move, then the mirroring, which is its own undo.
    across, along = signs
    dx, dy = b.dx - a.dx, b.dy - a.dy
    reverse = across * along < 0

    def back(ring: IntRing) -> IntRing:
        points = [(across * (turn * x + dx), along * (turn * y + dy)) for x, y in ring]
        return tuple(points[::-1] if reverse else points)

    exact = tuple(map(back, region.exact))
    boxes = [bounds(ring) for ring in exact]
    box = (
        min(b[0] for b in boxes),
        min(b[1] for b in boxes),
        max(b[2] for b in boxes),
        max(b[3] for b in boxes),
    )
    return NoFit(exact, tuple(map(back, region.shrunk)), box)


Look = tuple[tuple[int, int], bool, _Image, _Image]


def _looks(fixed: IntRing, moved: IntRing) -> Iterator[Look]:
    """The eight ways to see a pair: mirrored or not either way, and exchanged or not."""
    for signs in ((1, 1), (-1, -1), (1, -1), (-1, 1)):
        one, other = _image(fixed, *signs), _image(moved, *signs)
        yield signs, False, one, other
        yield signs, True, other, one


class _Rings(NamedTuple):
    exact: tuple[IntRing, ...]
    shrunk: tuple[IntRing, ...]


@lru_cache(maxsize=4_000)
def _region(fixed: IntRing, moved: IntRing) -> _Rings:
    sums = part_sums(fixed, moved)
    rings = sums if len(sums) == 1 else _unite(sums)
    exact = tuple(tuple((int(x), int(y)) for x, y in ring) for ring in rings)
    return _Rings(exact, _shrink(exact))


def _unite(rings: tuple[IntRing, ...]) -> tuple[IntRing, ...]:
    """The rings united, neighbours first: many all at once cost far more."""
    groups: list[tuple[IntRing, ...]] = [(ring,) for ring in rings]
    while len(groups) > 1:
        groups = [
            _united(tuple(chain.from_iterable(groups[k : k + MANY])))
            for k in range(0, len(groups), MANY)
        ]
    return groups[0]


def _united(rings: tuple[IntRing, ...]) -> tuple[IntRing, ...]:
    clipper = pyclipper.Pyclipper()
    clipper.AddPaths(rings, pyclipper.PT_SUBJECT, True)
    united = clipper.Execute(pyclipper.CT_UNION, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO)
    return tuple(united)


def _shrink(rings: tuple[IntRing, ...]) -> tuple[IntRing, ...]:
    offset = pyclipper.PyclipperOffset(miter_limit=4.0)
    offset.AddPaths(rings, pyclipper.JT_MITER, pyclipper.ET_CLOSEDPOLYGON)
    return tuple(tuple((int(x), int(y)) for x, y in ring) for ring in offset.Execute(-SHRINK))


def strictly_inside(region: NoFit, x: int, y: int) -> bool:
    """True if the point lies inside the region, not on its boundary and not in a hole."""
    left, low, right, high = region.box
    if not (left < x < right and low < y < high):
        return False
    inside = False
    for ring in region.exact:
        where = pyclipper.PointInPolygon((x, y), ring)
        if where < 0:
            return False
        if where > 0:
            inside = not inside
    return inside
