"""Looking at what came in before any solver does: each fault gets one clear sentence."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from shapely.geometry import Point, Polygon
from shapely.validation import explain_validity

from stash.geometry.ring import bounds
from stash.lay.errors import BadOutlineError, LayError, TooNarrowError
from stash.lay.problem import LayKind, Problem, Repeat, Shape

if TYPE_CHECKING:
    from stash.geometry.ring import FloatRing

SMALLEST_MM = 5
LARGEST_MM = 12_000
MOST_POINTS = 20_000
WIDEST_GAP_MM = 100
WIDEST_TOLERANCE = 45
FINEST_MM = 1
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
    if not (math.isfinite(problem.width) and problem.width > 0):
        raise LayError(
            f"A cloth cannot be {problem.width:g} mm wide.", "Give the width as 140cm or 55in."
        )
    if not 0 <= problem.gap <= WIDEST_GAP_MM:
        raise LayError(
            f"{problem.gap:g} mm is no gap to keep between pieces.",
            f"Give 0 to {WIDEST_GAP_MM / 10:g} cm.",
        )
    if problem.nap and problem.kind is LayKind.CROSSWAYS:
        raise LayError(
            "A cloth with nap cannot be folded across: one layer would lie upside down.",
            "Lay it open, folded or gate.",
        )
    if problem.outline and problem.kind is not LayKind.OPEN:
        raise LayError("A remnant is laid open, in a single layer.", "Use the open lay.")
    for patch in problem.patches:
        _check_patch(patch)
    if problem.repeat is not None:
        _check_repeat(problem.repeat)
    for shape in problem.shapes:
        check_outline(shape)
        _check_rules(shape)


def check_outline(shape: Shape) -> None:
    """Refuse an outline that is not a piece.

    Raises:
        BadOutlineError: says what is wrong with it and how to mend it.
    """
    ring = shape.outline
    if shape.copies < 1:
        raise BadOutlineError(shape.name, "is cut no times.", "Give it one copy or more.")
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
        where = explain_validity(polygon).partition("[")[2].rstrip("]")
        raise BadOutlineError(
            shape.name, f"crosses or touches itself near {where} mm.", "Mend the outline there."
        )
    if polygon.area < 1:
        raise BadOutlineError(shape.name, "has no area.", "Draw a closed outline.")
    if shape.on_fold:
        _check_fold(shape)


def _check_rules(shape: Shape) -> None:
    """What a piece says of its grain and of the print is possible."""
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


def _check_repeat(repeat: Repeat) -> None:
    sizes = (repeat.along, repeat.across)
    if not all(math.isfinite(size) and size <= LARGEST_MM for size in sizes) or (
        repeat.along < FINEST_MM or (repeat.across and repeat.across < FINEST_MM)
    ):
        raise LayError(
            f"{repeat.along:g} x {repeat.across:g} mm is no repeat of a print.",
            f"Give {FINEST_MM} mm or more.",
        )
    if repeat.half_drop and not repeat.across:
        raise LayError(
            "A half-drop print has a repeat across too, which is missing.",
            "Give both, as 32cm x 20cm.",
        )


def _check_patch(ring: FloatRing) -> None:
    shape = Polygon(ring) if len(ring) >= 3 else Polygon()
    if not all(math.isfinite(v) for corner in ring for v in corner) or not (
        shape.is_valid and shape.area > 0
    ):
        raise LayError(
            f"A flaw with {len(ring)} corners encloses nothing or crosses itself.",
            "Give its corners in order, three or more.",
        )


def _check_size(name: str, ring: FloatRing) -> None:
    left, low, right, high = bounds(ring)
    size = max(right - left, high - low)
    if size < SMALLEST_MM:
        raise BadOutlineError(
            name, f"is only {size:.1f} mm long.", "Check the unit of the drawing."
        )
    if size > LARGEST_MM:
        raise BadOutlineError(
            name, f"is {size / 1000:.1f} m long.", "Check the unit of the drawing."
        )


def _check_fold(shape: Shape) -> None:
    ring = shape.outline
    edges = zip(ring, ring[1:] + ring[:1], strict=True)
    on_fold = [a for a, b in edges if abs(a[1]) <= FLAT_MM and abs(b[1]) <= FLAT_MM and a != b]
    if not on_fold or min(y for _, y in ring) < -FLAT_MM:
        raise BadOutlineError(
            shape.name,
            "is cut on the fold but has no straight edge for it.",
            "Draw the half with its fold edge along y = 0 and the rest above it.",
        )
    if len(on_fold) > 1:
        raise BadOutlineError(
            shape.name,
            "meets the fold in more than one place.",
            "Draw the half with one straight fold edge.",
        )


def check_width(name: str, across: int, width: int, fine: int) -> None:
    """Refuse a piece whose narrowest way to lie is wider than the cloth; `fine` units per mm."""
    if across > width:
        raise TooNarrowError(name, across / fine, width / fine)
