"""From outlines to what the solver moves: whole-number rings, simplified, in every allowed turn."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from stash.geometry.grow import grown
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
    """What the solver keeps apart: simplified outward, and half the gap between pieces wider."""
    body: IntRing
    """Simplified outward only: what is kept clear of flaws and inside a remnant."""
    outline: IntRing
    """The true outline, inside `body`."""
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


@lru_cache(maxsize=4096)
def _wide(ring: IntRing, stray: int, grow: int) -> IntRing:
    return grown(_simple(ring, stray), grow)


@lru_cache(maxsize=8192)
def _form(
    outline: IntRing, shape: int, degrees: int, mirrored: bool, stray: int, grow: int
) -> Form:
    body = _turned(_simple(outline, stray), degrees, mirrored)
    left, low, right, high = bounds(body)
    body = shift(body, -left, -low)
    ring = body
    if grow:
        ring = shift(_turned(_wide(outline, stray, grow), degrees, mirrored), -left, -low)
    true = shift(_turned(anticlockwise(outline), degrees, mirrored), -left, -low)
    return Form(
        shape,
        degrees,
        mirrored,
        ring,
        body,
        true,
        right - left,
        high - low,
        signed_area(true),
    )


def _turned(ring: IntRing, degrees: int, mirrored: bool) -> IntRing:
    return turn(mirror(ring) if mirrored else ring, degrees)


def forms_of(
    outline: Ring,
    shape: int,
    turns: tuple[int, ...],
    mirrored: tuple[bool, ...],
    grow: int = 0,
) -> tuple[Form, ...]:
    """The distinct forms of an outline: those that look the same are listed once.

    `grow` is half the gap between pieces, in solver units.

    A mirrored copy is turned the other way, so that both halves of a pair are mirror images
    in their grain and nap too.
    """
    ring = fine(outline)
    forms: list[Form] = []
    seen: set[frozenset[tuple[int, int]]] = set()
    for flag in mirrored:
        for degrees in turns:
            angle = -degrees % 360 if flag else degrees % 360
            form = _form(ring, shape, angle, flag, int(STRAY_MM * FINE), grow)
            look = frozenset(form.ring)
            if look not in seen:
                seen.add(look)
                forms.append(form)
    return tuple(forms)


def half_gap(problem: Problem) -> int:
    """Half the gap between pieces, rounded up to whole micrometres, in solver units."""
    return math.ceil(problem.gap / 2 * (FINE // GRID)) * GRID


def padded(form: Form, before: int = 0, below: int = 0, above: int = 0) -> Form:
    """The form with empty room inside its bounds: before it, below it, above it."""
    if not (before or below or above):
        return form
    return replace(
        form,
        ring=shift(form.ring, before, below),
        body=shift(form.body, before, below),
        outline=shift(form.outline, before, below),
        length=form.length + before,
        across=form.across + below + above,
    )


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
