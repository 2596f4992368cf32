"""A cloth as a lay sees it that may have to slide along it to meet a print.

Where the print begins on a cloth is not known before it lies on the table: the whole lay may
move up to one repeat away from the cut end. Seen from the lay, every flaw then lies anywhere
up to a repeat nearer, and the edge of a remnant too: all of that is kept clear.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import replace
from typing import TYPE_CHECKING

from shapely import MultiPoint, Polygon, box, unary_union
from shapely.affinity import translate

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

    from stash.lay.problem import Problem, Ring, Spot

CORNERS = 24
"""Of a round flaw once it is drawn out: around the circle, not within it."""
NOTHING = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))
"""mm. A remnant on which nothing can be promised to meet the print."""


def free_to_slide(problem: Problem) -> Problem:
    """The problem with its flaws and outline as they are to be kept clear; mm.

    It is the same where no piece meets a print, or where the print begins is known. What is no
    flaw or outline is left for `validate` to refuse.
    """
    repeat = problem.repeat
    if repeat is None or not problem.matches or repeat.at is not None:
        return problem
    patches = *map(_around, problem.spots), *problem.patches
    return replace(
        problem,
        spots=(),
        patches=tuple(_drawn_out(patch, repeat.along) for patch in patches),
        outline=_within(problem.outline, repeat.along) if problem.outline else (),
    )


def _is_sound(ring: Ring) -> bool:
    finite = all(math.isfinite(x) and math.isfinite(y) for x, y in ring)
    return len(ring) >= 3 and finite and bool(Polygon(ring).is_valid)


def _around(spot: Spot) -> Ring:
    """The corners of a polygon around a round flaw."""
    far = spot.radius / math.cos(math.pi / CORNERS)
    angles = [math.tau * k / CORNERS for k in range(CORNERS)]
    return tuple((spot.x + far * math.cos(a), spot.y + far * math.sin(a)) for a in angles)


def _drawn_out(ring: Ring, along: float) -> Ring:
    """A convex ring around the flaw wherever it may lie."""
    if not _is_sound(ring):
        return ring
    hull = MultiPoint([*ring, *((x - along, y) for x, y in ring)]).convex_hull
    assert isinstance(hull, Polygon)
    return tuple((x, y) for x, y in hull.exterior.coords[:-1])


def _within(ring: Ring, along: float) -> Ring:
    """The largest stretch of a remnant whose every point stays on it, wherever the lay lies.

    What lies outside the remnant, drawn out by a repeat, is taken off it: the erosion of the
    outline by that length (Serra, Image Analysis and Mathematical Morphology, 1982; from memory).
    """
    if not _is_sound(ring):
        return ring
    remnant = Polygon(ring)
    left, low, right, high = remnant.bounds
    outside = box(left - 1, low - 1, right + along + 1, high + 1) - remnant
    moved = translate(outside, xoff=-along)
    corners = [(x, y) for x, y in remnant.exterior.coords]
    edges: list[BaseGeometry] = [
        MultiPoint([one, two, (one[0] - along, one[1]), (two[0] - along, two[1])]).convex_hull
        for one, two in itertools.pairwise(corners)
    ]
    left_over = remnant - unary_union([outside, moved, *edges])
    parts = [part for part in getattr(left_over, "geoms", [left_over]) if part.area > 1]
    if not parts:
        return NOTHING
    largest = max(parts, key=lambda part: part.area)
    return tuple((x, y) for x, y in largest.exterior.coords[:-1])
