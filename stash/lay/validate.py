"""Looking at what came in before any solver does: each fault gets one clear sentence."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from shapely.geometry import Polygon
from shapely.validation import explain_validity

from stash.geometry.ring import bounds
from stash.lay.errors import BadOutlineError, LayError, TooNarrowError
from stash.lay.problem import LayKind, Problem, Shape

if TYPE_CHECKING:
    from stash.geometry.ring import FloatRing

SMALLEST_MM = 5
LARGEST_MM = 12_000
MOST_POINTS = 20_000
WIDEST_GAP_MM = 100
FLAT_MM = 0.05
"""How far a fold edge may stray from y = 0 and still be one."""


def validate(problem: Problem) -> None:
    """Refuse what no lay can be made of.

    Raises:
        LayError: no pieces, a width that is not a width, a kind this cloth cannot be laid in.
        BadOutlineError: an outline that is not a piece.
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
    for shape in problem.shapes:
        check_outline(shape)


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
