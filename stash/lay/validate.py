"""Looking at what came in before any solver does: each fault gets one clear sentence."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from shapely.geometry import Point, Polygon

from stash.geometry.ring import bounds
from stash.lay.errors import BadOutlineError, LayError
from stash.lay.validate_cloth import check_cloth, crossing, is_line

if TYPE_CHECKING:
    from stash.geometry.ring import FloatRing
    from stash.lay.problem import Problem, Shape

SMALLEST_MM = 5
LARGEST_MM = 12_000
MOST_POINTS = 20_000
KILOMETRE_MM = 1_000_000
MOST_COPIES = 99
WIDEST_TOLERANCE = 45
BESIDE_MM = 0.1
"""How far a match point may lie outside its outline, by rounding."""
FLAT_MM = 0.05
"""How far a fold edge may stray from y = 0 and still be one."""


def validate(problem: Problem) -> None:
    """Refuse what no lay can be made of.

    Raises:
        LayError: no pieces, a width that is not a width, a kind this cloth cannot be laid in,
            a flaw or a repeat that is none.
        BadOutlineError: an outline that is not a piece, or a rule no piece can have.
        TooNarrowError: a piece wider than the cloth in every way it may be turned.
    """
    if not problem.shapes:
        raise LayError("There is nothing to lay out.", "Add pieces to the pattern first.")
    check_cloth(problem)
    for shape in problem.shapes:
        check_outline(shape)
        _check_rules(shape)


def check_outline(shape: Shape) -> None:
    """Refuse an outline that is not a piece.

    Raises:
        BadOutlineError: says what is wrong with it and how to mend it.
    """
    ring = shape.outline
    if not 1 <= shape.copies <= MOST_COPIES:
        often = "no times" if shape.copies < 1 else f"{shape.copies} times"
        raise BadOutlineError(
            shape.name, f"is cut {often}.", f"Give it one copy or more, {MOST_COPIES} at most."
        )
    if len(ring) > MOST_POINTS:
        raise BadOutlineError(
            shape.name, f"has {len(ring)} points.", "Simplify the drawing and read it again."
        )
    if not all(math.isfinite(x) and math.isfinite(y) for x, y in ring):
        raise BadOutlineError(shape.name, "has a point at infinity.", "Draw the outline again.")
    if len(ring) < 3:
        raise BadOutlineError(shape.name, "has fewer than three points.", "Draw a closed outline.")
    _check_size(shape.name, ring)
    polygon = Polygon(ring)
    if not polygon.is_valid:
        raise BadOutlineError(shape.name, f"{crossing(polygon)}.", "Mend the outline there.")
    if polygon.area < 1 or is_line(polygon):
        raise BadOutlineError(shape.name, "has no area.", "Draw a closed outline.")
    if shape.on_fold:
        _check_fold(shape)


def _check_rules(shape: Shape) -> None:
    """What a piece says of its grain and of the print is possible."""
    if not shape.turns:
        raise BadOutlineError(
            shape.name, "may lie in no direction.", "Let it lie along the grain at least."
        )
    if not 0 <= shape.tolerance <= WIDEST_TOLERANCE:
        raise BadOutlineError(
            shape.name,
            f"may lie {shape.tolerance} degrees off grain.",
            f"Give 0 to {WIDEST_TOLERANCE} degrees.",
        )
    if shape.match is None:
        return
    if not all(map(math.isfinite, shape.match)) or (
        Polygon(shape.outline).distance(Point(shape.match)) > BESIDE_MM
    ):
        raise BadOutlineError(
            shape.name, "has its match point beside it.", "Put it on the stitching line."
        )


def _check_size(name: str, ring: FloatRing) -> None:
    left, low, right, high = bounds(ring)
    size = max(right - left, high - low)
    if size < SMALLEST_MM:
        raise BadOutlineError(
            name, f"is only {size:.1f} mm long.", "Check the unit of the drawing."
        )
    if size > LARGEST_MM:
        long = f"{size / 1000:.1f} m" if size < KILOMETRE_MM else "over a kilometre"
        raise BadOutlineError(name, f"is {long} long.", "Check the unit of the drawing.")


def _check_fold(shape: Shape) -> None:
    ring = shape.outline
    on_line = [abs(y) <= FLAT_MM for _, y in ring]
    if all(on_line):
        raise BadOutlineError(shape.name, "has no area.", "Draw the half with its fold edge.")
    begun = sum(
        here and not before
        for before, here in zip(on_line[-1:] + on_line[:-1], on_line, strict=True)
    )
    straight = any(
        on_line[i - 1] and on_line[i] and abs(ring[i - 1][0] - ring[i][0]) > FLAT_MM
        for i in range(len(ring))
    )
    if not straight or min(y for _, y in ring) < -FLAT_MM:
        raise BadOutlineError(
            shape.name,
            "has no straight edge along its grain to fold at.",
            "Draw the half with its fold edge along y = 0 and the rest above it.",
        )
    if begun > 1:
        raise BadOutlineError(
            shape.name,
            "meets the fold in more than one place.",
            "Draw the half with one straight fold edge.",
        )
