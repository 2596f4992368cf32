"""From outlines to what the solver moves: whole-number rings, simplified, in every allowed turn."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import product
from typing import TYPE_CHECKING

from stash.geometry.grow import grown
from stash.geometry.ring import (
    IntRing,
    across,
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
from stash.lay.errors import TooNarrowError
from stash.lay.validate import FLAT_MM

if TYPE_CHECKING:
    from collections.abc import Iterable

    from stash.lay.problem import Point, Problem, Ring, Shape

FINE = 10_000
"""Solver units per millimetre: rounding stays far below a thread's width."""
GRID = 10
"""Placements stand on whole micrometres."""
STRAY_MM = 3.0
"""Most an outline may be simplified outward by."""


@dataclass(frozen=True, slots=True, eq=False)
class Form:
    """One way a shape may lie, in solver units, the lower left of its bounds at the origin.

    Forms are made once, kept, and told apart by identity: the search looks them up by the
    hundred thousand.
    """

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
    off: int = 0
    """Degrees of `turn` that lie off grain, within the piece's tolerance."""
    mark: tuple[int, int] | None = None
    """The point that has to lie on the print's repeat."""


def fine(ring: Ring) -> IntRing:
    """A ring in millimetres as solver units, on whole micrometres."""
    per = FINE // GRID
    return tuple((round(x * per) * GRID, round(y * per) * GRID) for x, y in ring)


def flatten_fold(ring: Ring) -> Ring:
    """Points within a hair of y = 0 put exactly on it, those amid the fold edge left out."""
    flat = tuple((x, 0.0 if abs(y) <= FLAT_MM else y) for x, y in ring)
    ends = zip(flat[-1:] + flat[:-1], flat, flat[1:] + flat[:1], strict=True)
    return tuple(here for before, here, after in ends if before[1] or here[1] or after[1])


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
    outline: IntRing,
    shape: int,
    degrees: int,
    mirrored: bool,
    stray: int,
    grow: int,
    match: IntRing,
) -> Form:
    drawn, left_over, flag = outline, degrees, mirrored
    if degrees % 90:  # turned first: simplifying keeps the bounds of what it is given
        drawn, left_over, flag = _turned(outline, degrees, mirrored), 0, False
    body = _turned(_simple(drawn, stray), left_over, flag)
    left, low, right, high = bounds(body)
    body = shift(body, -left, -low)
    ring = body
    if grow:
        ring = shift(_turned(_wide(drawn, stray, grow), left_over, flag), -left, -low)
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
        mark=next(iter(shift(_turned(match, degrees, mirrored), -left, -low)), None),
    )


@lru_cache(maxsize=4096)
def _tilted(form: Form, off: int) -> Form:
    return replace(form, off=off)


def _turned(ring: IntRing, degrees: int, mirrored: bool) -> IntRing:
    return turn(mirror(ring) if mirrored else ring, degrees)


def forms_of(
    outline: Ring,
    shape: int,
    turns: tuple[int, ...],
    mirrored: tuple[bool, ...],
    grow: int = 0,
    tolerance: int = 0,
    match: Point | None = None,
) -> tuple[Form, ...]:
    """The distinct forms of an outline: those that look the same are listed once.

    `grow` is half the gap between pieces, in solver units.

    A mirrored copy is turned the other way, so that both halves of a pair are mirror images
    in their grain and nap too. Forms off grain within `tolerance` degrees come last.
    """
    ring, mark = fine(outline), fine((match,) if match is not None else ())
    forms: list[Form] = []
    seen: set[tuple[frozenset[tuple[int, int]], tuple[int, int] | None]] = set()
    ways = [
        (off, flag, degrees)
        for flag, degrees in product(mirrored, turns)
        for off in _leans(ring, degrees, tolerance)
    ]
    for off, flag, degrees in sorted(ways, key=lambda way: way[0] != 0):
        sign = -1 if flag else 1
        angle = sign * (degrees + off) % 360
        form = _form(ring, shape, angle, flag, int(STRAY_MM * FINE), grow, mark)
        look = frozenset(form.ring), form.mark
        if look not in seen:
            seen.add(look)
            forms.append(_tilted(form, sign * off) if off else form)
    return tuple(forms)


@lru_cache(maxsize=4096)
def _leans(ring: IntRing, degrees: int, tolerance: int) -> tuple[int, ...]:
    """Degrees off grain worth trying: none, as many as may be, and where it lies narrowest."""
    if not tolerance:
        return (0,)
    ends = (0, tolerance, -tolerance)
    every = (*ends, *range(1 - tolerance, tolerance))
    narrowest = min(every, key=lambda off: across(turn(ring, degrees + off)))
    return tuple(dict.fromkeys((*ends, narrowest)))


def forms_in(
    problem: Problem,
    index: int,
    outline: Ring,
    turns: tuple[int, ...],
    mirrored: tuple[bool, ...],
) -> tuple[Form, ...]:
    """The forms of the problem's shape `index`, drawn as `outline`: its half or its whole."""
    shape = problem.shapes[index]
    grow = half_gap(problem)
    return forms_of(outline, index, turns, mirrored, grow, shape.tolerance, match_of(shape))


def match_of(shape: Shape) -> Point | None:
    """The point that has to lie on the repeat; on the fold of a piece that has one."""
    if shape.match is None or not shape.on_fold:
        return shape.match
    return shape.match[0], 0.0


def half_gap(problem: Problem) -> int:
    """Half the gap between pieces, rounded up to whole micrometres, in solver units."""
    return math.ceil(problem.gap / 2 * (FINE // GRID)) * GRID


@lru_cache(maxsize=4096)
def padded(form: Form, before: int = 0, below: int = 0, above: int = 0) -> Form:
    """The form with empty room inside its bounds: before it, below it, above it."""
    if not (before or below or above):
        return form
    return replace(
        form,
        ring=shift(form.ring, before, below),
        body=shift(form.body, before, below),
        outline=shift(form.outline, before, below),
        mark=form.mark and (form.mark[0] + before, form.mark[1] + below),
        length=form.length + before,
        across=form.across + below + above,
    )


def check_widths(
    problem: Problem, copies: Iterable[tuple[Form, ...]], width: int, doubled: bool = False
) -> None:
    """Refuse copies that are wider than `width` (solver units) in every form they may take.

    `doubled`: that is the width of one of two layers, not of the cloth.

    Raises:
        TooNarrowError: names the piece that needs most.
    """
    narrowest = [min(forms, key=lambda form: form.across) for forms in copies]
    widest = max(narrowest, key=lambda form: form.across, default=None)
    if widest is not None and widest.across > width:
        name = problem.shapes[widest.shape].name
        raise TooNarrowError(name, widest.across / FINE, width / FINE, doubled)


def turns_allowed(shape: Shape, nap: bool) -> tuple[int, ...]:
    """The turns a plain copy may take: with nap none that stands it on its head.

    A mirrored copy takes their mirror images (see `forms_of`).
    """
    turns = tuple(t for t in shape.turns if not nap or t % 360 < 180)
    return turns or shape.turns[:1]


def stands_upright(form: Form) -> bool:
    """The form may be used on a cloth with nap."""
    on_grain = form.turn - form.off
    return (-on_grain if form.mirrored else on_grain) % 360 < 180


def sheet_width(problem: Problem) -> int:
    """Usable width in solver units, rounded up to a whole micrometre.

    Up, since an outline's points are rounded too: a piece exactly as wide as the cloth may be
    less than that wider once it is on the grid.
    """
    return math.ceil(problem.width * (FINE // GRID) - 1e-6) * GRID
