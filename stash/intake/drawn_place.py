"""Laying a drawn outline down: its grain from left to right, its fold on the upper edge."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from shapely.geometry import Polygon

from stash.errors import BadInputError
from stash.garment.draft.piece import NARROWEST_MM
from stash.geometry.affine import Affine, scaled, shifted, turned
from stash.geometry.ring import bounds, clean, signed_area
from stash.lay.errors import BadOutlineError
from stash.lay.validate import check_outline

if TYPE_CHECKING:
    from stash.lay.problem import Shape

Point = tuple[float, float]
Ring = tuple[Point, ...]
Line = tuple[Point, Point]

ON_FOLD_MM = 0.25
"""Points this near to the fold lie on it."""
SHORTEST_FOLD_MM = 10.0
PARALLEL_DEGREES = 3.0
SAME_MM = 0.02
"""Points nearer than this are one point."""
ROUNDED_MM = 0.01
"""How much a width may lose by rounding."""


@dataclass(frozen=True, slots=True)
class Placed:
    """An outline laid down, and the map that brought it there."""

    ring: Ring
    place: Affine
    crosswise: bool = False
    """Its fold runs across the grain, and so does its x."""


def lay_along(ring: Ring, direction: Point) -> Placed:
    """The ring turned until `direction` runs from left to right, its corner at the origin.

    Raises:
        BadInputError: It has no area.
    """
    turn = turned(-math.degrees(math.atan2(direction[1], direction[0])))
    return _settled(ring, turn)


def lay_on_fold(ring: Ring, direction: Point, fold: Line | None, upper: bool) -> Placed:
    """The half with its fold exactly on y = 0 and the rest below it.

    Args:
        ring: The half as drawn.
        direction: Its grain.
        fold: Where the fold is, if a line says so.
        upper: Prefer the upper edge, as our own drawings have it.

    Raises:
        BadInputError: It has no area, or no straight edge to fold at.
    """
    crosswise = False
    if fold is not None:
        along = (fold[1][0] - fold[0][0], fold[1][1] - fold[0][1])
        askew = _between(along, direction)
        crosswise = askew > 90 - PARALLEL_DEGREES
        if PARALLEL_DEGREES < askew < 90 - PARALLEL_DEGREES:
            raise BadInputError(
                f"its fold is {askew:.0f} degrees off its grain.", "Check the two lines."
            )
        flip = along[0] * direction[0] + along[1] * direction[1] < 0
        direction = (-along[0], -along[1]) if flip else along
    placed = lay_along(ring, direction)
    low, high = _edge(placed.ring, 0.0), _edge(placed.ring, bounds(placed.ring)[3])
    if fold is not None:
        y = placed.place(((fold[0][0] + fold[1][0]) / 2, (fold[0][1] + fold[1][1]) / 2))[1]
        use_low = y < bounds(placed.ring)[3] / 2
    else:
        use_low = low >= high or (upper and low > SHORTEST_FOLD_MM)
    if (low if use_low else high) < SHORTEST_FOLD_MM:
        raise BadInputError(
            "it has no straight edge along its grain to fold at.", "Draw the half, fold straight."
        )
    if not use_low:
        # Both halves are alike once it is opened out, so the half may be turned over.
        placed = _settled(ring, scaled(1, -1).after(placed.place))
    snapped = tuple((x, 0.0 if y <= ON_FOLD_MM else y) for x, y in placed.ring)
    return Placed(_tidy(snapped), placed.place, crosswise)


def has_fold_edge(ring: Ring, direction: Point) -> bool:
    """One of its sides along the grain is straight, so that it may be half of a piece."""
    laid = lay_along(ring, direction).ring
    return max(_edge(laid, 0.0), _edge(laid, bounds(laid)[3])) >= SHORTEST_FOLD_MM


@dataclass(frozen=True, slots=True)
class _Edge:
    """The upper edge of a half."""

    line: Line
    """As it is drawn on the sheet."""
    askew: float
    """Degrees off the grain; 0: it lies along it."""


def _upper_edge(ring: Ring, direction: Point) -> _Edge | None:
    """The straight edge a half is folded at, nearly along its grain; None where there is none.

    A fold that is a little askew runs along most of the half, at its very top.
    """
    turn = turned(-math.degrees(math.atan2(direction[1], direction[0])))
    laid = tuple(map(turn, ring))
    left, low, right, high = bounds(laid)
    if _edge(tuple((x, y - low) for x, y in laid), 0.0) >= SHORTEST_FOLD_MM:
        return _Edge((ring[0], ring[1]), 0.0)
    for i, (x, y) in enumerate(laid):
        before = laid[i - 1]
        askew = _between((x - before[0], y - before[1]), (1.0, 0.0))
        is_top = max(y, before[1]) <= low + 0.1 * (high - low)
        if askew <= PARALLEL_DEGREES and is_top and abs(x - before[0]) > 0.5 * (right - left):
            return _Edge((ring[i - 1], ring[i]), askew)
    return None


def refuse_unlayable(shape: Shape, called: str) -> None:
    """Say at once what a lay would say of this piece later: its size, its fold edge.

    A lay takes a hairline too; nobody cuts one: it is a stray line, or the drawing is read in the
    wrong unit.

    Raises:
        BadInputError: Its message begins with what the piece is `called`.
    """
    try:
        check_outline(shape)
    except BadOutlineError as error:
        raise BadInputError(f"{called} {error.what}", error.hint) from error
    # Of a half opened out the widest place is twice as wide.
    least = NARROWEST_MM / 2 if shape.on_fold else NARROWEST_MM
    if Polygon(shape.outline).buffer(-(least - ROUNDED_MM) / 2).is_empty:
        raise BadInputError(
            f"{called} is nowhere {NARROWEST_MM:g} mm wide.",
            "Check the unit of the drawing, or leave this line out.",
        )


def upper_fold(ring: Ring, direction: Point, guessed: list[str]) -> Line | None:
    """The fold of our own drawings, which is the upper edge, where that is not quite straight."""
    edge = _upper_edge(ring, direction)
    if edge is None:
        guessed.append("its upper edge is not straight: its fold is taken to be its lower edge")
        return None
    if edge.askew > 0:
        guessed.append(
            f"its fold is {edge.askew:.1f} degrees off its grain: the piece is turned to it"
        )
        return edge.line
    return None


def halves_apart(ring: Ring, fold: Line) -> bool:
    """Both sides of the fold are drawn: the piece is open already."""
    along = (fold[1][0] - fold[0][0], fold[1][1] - fold[0][1])
    span = math.hypot(*along)
    if span < 1e-6:
        return False
    sides = [(along[0] * (y - fold[0][1]) - along[1] * (x - fold[0][0])) / span for x, y in ring]
    return min(sides) < -2 and max(sides) > 2


def upward(line: Line) -> Point:
    """The direction of a line, so that near-upright ones run up the sheet, others to the right."""
    dx, dy = line[1][0] - line[0][0], line[1][1] - line[0][1]
    steep = abs(dy) > abs(dx) * math.tan(math.radians(20))
    back = dy > 0 if steep else dx < 0
    return (-dx, -dy) if back else (dx, dy)


def _between(a: Point, b: Point) -> float:
    """The angle of two lines in degrees, 0 to 90."""
    cross = abs(a[0] * b[1] - a[1] * b[0])
    return math.degrees(math.atan2(cross, abs(a[0] * b[0] + a[1] * b[1])))


def _settled(ring: Ring, place: Affine) -> Placed:
    moved = tuple(map(place, ring))
    left, low, _, _ = bounds(moved)
    corner = shifted(-left, -low)
    return Placed(_tidy(tuple(map(corner, moved))), corner.after(place))


def _tidy(ring: Ring) -> Ring:
    """To a thousandth of a millimetre, without repeated points; what is left has an area."""
    rounded = tuple((round(x, 3) + 0.0, round(y, 3) + 0.0) for x, y in ring)
    tidy = clean(rounded, SAME_MM)
    if len(tidy) < 3 or signed_area(tidy) <= 0:
        raise BadInputError("it has no area.", "Draw it at its true size.")
    return tidy


def _edge(ring: Ring, height: float) -> float:
    """How much of the line y = height the outline runs along."""
    total = 0.0
    for i, (x, y) in enumerate(ring):
        before = ring[i - 1]
        if abs(y - height) <= ON_FOLD_MM and abs(before[1] - height) <= ON_FOLD_MM:
            total += abs(x - before[0])
    return total
