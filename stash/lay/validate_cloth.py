"""Looking at the cloth of a problem before any solver does: width, remnant, flaws, print."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from shapely.geometry import Polygon
from shapely.validation import explain_validity

from stash.lay.errors import LayError
from stash.lay.problem import COARSEST_MM, FINEST_MM, LayKind

if TYPE_CHECKING:
    from stash.geometry.ring import FloatRing
    from stash.lay.problem import Problem, Repeat, Spot

WIDEST_MM = 100_000
"""Of a cloth; far beyond any loom."""
LONGEST_MM = 1_000_000
"""Of a remnant, or how far along the cloth a flaw may lie: a kilometre."""
LARGEST_FLAW_MM = 10_000
WIDEST_GAP_MM = 100
MOST_CORNERS = 200
"""Of a remnant or a flaw: they are measured by hand."""
THIN_MM = 0.005
"""What is no wider than that is a line: a few steps of the solver's grid."""


def check_cloth(problem: Problem) -> None:
    """Refuse a cloth nothing can be laid on.

    Raises:
        LayError: a width, gap, remnant, flaw or repeat that is none, or a kind of lay this
            cloth cannot be laid in.
    """
    if not 0 < problem.width <= WIDEST_MM:
        raise LayError(
            f"A cloth cannot be {problem.width / 10:g} cm wide.", "Give the width as 140cm or 55in."
        )
    if not 0 <= problem.gap <= WIDEST_GAP_MM:
        raise LayError(
            f"{problem.gap / 10:g} cm is no gap to keep between pieces.",
            f"Give 0 to {WIDEST_GAP_MM / 10:g} cm.",
        )
    if problem.nap and problem.kind is LayKind.CROSSWAYS:
        raise LayError(
            "A cloth with nap cannot be folded across: one layer would lie upside down.",
            "Lay it open, folded or gate.",
        )
    if problem.outline:
        if problem.kind is not LayKind.OPEN:
            raise LayError("A remnant is laid open, in a single layer.", "Use the open lay.")
        _check_corners("The outline of this remnant", problem.outline)
    for number, patch in enumerate(problem.patches, start=1):
        _check_corners(f"Flaw {number} of those with corners", patch)
    for spot in problem.spots:
        _check_spot(spot)
    if problem.repeat is not None:
        _check_repeat(problem.repeat)


def crossing(shape: Polygon) -> str:
    """What is wrong with an outline that is not simple, and near which point."""
    where = explain_validity(shape).partition("[")[2].rstrip("]").split()
    return f"crosses or touches itself near {' x '.join(f'{float(v):.1f}' for v in where)} mm"


def is_line(shape: Polygon) -> bool:
    """It is hardly wider than a line anywhere: of a long strip, twice its area by its edge."""
    return bool(2 * shape.area < THIN_MM * shape.length)


def _check_corners(what: str, ring: FloatRing) -> None:
    hint = "Give its corners in order, once round, three or more."
    if len(ring) < 3:
        raise LayError(f"{what} has {len(ring)} corners.", hint)
    if len(ring) > MOST_CORNERS:
        raise LayError(f"{what} has {len(ring)} corners.", f"Give {MOST_CORNERS} at most.")
    if not all(abs(v) <= LONGEST_MM for corner in ring for v in corner):  # nor is NaN
        raise LayError(f"{what} has a corner that lies on no cloth.", "Check its numbers.")
    shape = Polygon(ring)
    if not shape.is_valid:
        raise LayError(f"{what} {crossing(shape)}.", hint)
    if shape.area < 1 or is_line(shape):
        raise LayError(f"{what} encloses nothing.", hint)


def _check_spot(spot: Spot) -> None:
    on_cloth = abs(spot.x) <= LONGEST_MM and abs(spot.y) <= LONGEST_MM
    if not on_cloth or not 0 < spot.radius <= LARGEST_FLAW_MM:
        raise LayError(
            f"There is no flaw at {spot.x / 10:g} x {spot.y / 10:g} cm with a radius of "
            f"{spot.radius / 10:g} cm.",
            f"Give its middle, and a radius above 0 and up to {LARGEST_FLAW_MM / 1000:g} m.",
        )


def _check_repeat(repeat: Repeat) -> None:
    sizes = (repeat.along, *((repeat.across,) if repeat.across else ()))
    if not all(FINEST_MM <= size <= COARSEST_MM for size in sizes):
        raise LayError(
            f"{repeat.along / 10:g} x {repeat.across / 10:g} cm is no repeat of a print.",
            f"Give {FINEST_MM} mm to {COARSEST_MM / 1000:g} m, counted once the cloth is washed.",
        )
    if repeat.at is not None and not math.isfinite(repeat.at):
        raise LayError(
            f"A print cannot begin at {repeat.at / 10:g} cm.", "Leave its beginning open."
        )
    if repeat.half_drop and not repeat.across:
        raise LayError(
            "A half-drop print has a repeat across too, which is missing.",
            "Give both, as 32cm x 20cm.",
        )
