"""From outlines to what the solver moves: whole-number rings, simplified, in every allowed turn."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from stash.geometry.ring import (
    IntRing,
    anticlockwise,
    bounds,
    clean,
    mirror,
    open_out,
    shift,
    signed_area,
    turn,
)
from stash.geometry.simplify import simplify_outward
from stash.lay.validate import FLAT_MM

if TYPE_CHECKING:
    from stash.lay.problem import Problem, Ring, Shape

FINE = 10_000
"""Solver units per millimetre: rounding stays far below a thread's width."""
GRID = 10
"""Placements stand on whole micrometres."""
STRAY_MM = 3.0
"""Most an outline may be simplified outward by."""


@dataclass(frozen=True, slots=True)
class Form:
    """One way a shape may lie, in solver units, the lower left of its bounds at the origin."""

    shape: int
    turn: int
    mirrored: bool
    ring: IntRing
    """Simplified outward: what the solver keeps apart."""
    outline: IntRing
    """The true outline, inside `ring`."""
    length: int
    """Along the grain."""
    across: int
    area: float
    """Of the true outline."""


def fine(ring: Ring) -> IntRing:
    """A ring in millimetres as solver units, on whole micrometres."""
    per = FINE // GRID
    return tuple((round(x * per) * GRID, round(y * per) * GRID) for x, y in ring)


def flatten_fold(ring: Ring) -> Ring:
    """Points within a hair of y = 0 put exactly on it."""
    return tuple((x, 0.0 if abs(y) <= FLAT_MM else y) for x, y in ring)


def whole_outline(shape: Shape) -> Ring:
    """The piece as it lies on a single layer: a half on the fold is opened out."""
    return open_out(flatten_fold(shape.outline)) if shape.on_fold else shape.outline


@lru_cache(maxsize=4096)
def _simple(ring: IntRing, stray: int) -> IntRing:
    return simplify_outward(clean(ring), stray)


@lru_cache(maxsize=8192)
def _form(outline: IntRing, shape: int, degrees: int, mirrored: bool, stray: int) -> Form:
    ring = _turned(_simple(outline, stray), degrees, mirrored)
    left, low, right, high = bounds(ring)
    true = shift(_turned(anticlockwise(outline), degrees, mirrored), -left, -low)
    return Form(
        shape,
        degrees,
        mirrored,
        shift(ring, -left, -low),
        true,
        right - left,
        high - low,
        signed_area(true),
    )


def _turned(ring: IntRing, degrees: int, mirrored: bool) -> IntRing:
    return turn(mirror(ring) if mirrored else ring, degrees)


def forms_of(
    outline: Ring, shape: int, turns: tuple[int, ...], mirrored: tuple[bool, ...]
) -> tuple[Form, ...]:
    """The distinct forms of an outline: those that look the same are listed once.

    A mirrored copy is turned the other way, so that both halves of a pair are mirror images
    in their grain and nap too.
    """
    ring = fine(outline)
    forms: list[Form] = []
    seen: set[frozenset[tuple[int, int]]] = set()
    for flag in mirrored:
        for degrees in turns:
            angle = -degrees % 360 if flag else degrees % 360
            form = _form(ring, shape, angle, flag, int(STRAY_MM * FINE))
            look = frozenset(form.ring)
            if look not in seen:
                seen.add(look)
                forms.append(form)
    return tuple(forms)


def turns_allowed(shape: Shape, nap: bool) -> tuple[int, ...]:
    """The turns a plain copy may take: with nap none that stands it on its head.

    A mirrored copy takes their mirror images (see `forms_of`).
    """
    turns = tuple(t for t in shape.turns if not nap or t % 360 < 180)
    return turns or shape.turns[:1]


def stands_upright(form: Form) -> bool:
    """The form may be used on a cloth with nap."""
    return (-form.turn if form.mirrored else form.turn) % 360 < 180


def sheet_width(problem: Problem) -> int:
    """Usable width in solver units, rounded down to a whole micrometre."""
    return int(problem.width * (FINE // GRID) + 1e-6) * GRID
