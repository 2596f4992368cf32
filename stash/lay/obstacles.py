"""Places to keep clear: flaws, and whatever a remnant's outline leaves out."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pyclipper

from stash.geometry.convex import convex_parts
from stash.geometry.grow import grown
from stash.geometry.ring import anticlockwise, bounds, clean, mirror, shift
from stash.lay.forms import FINE, GRID, fine, sheet_width
from stash.lay.lattice import lattice_of
from stash.lay.table import Strip

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.geometry.ring import IntRing
    from stash.lay.problem import Problem

SIDES = 16
"""A round flaw is kept clear as a polygon drawn around it."""
LEAST_MM = 2 * GRID / FINE
"""How far that polygon reaches at least: a smaller one would vanish on our grid."""


def strip_of(problem: Problem) -> Strip:
    """The open single layer of a problem's cloth."""
    width = sheet_width(problem)
    blocked = list(_flaws(problem))
    end = None
    if problem.outline:
        # A hair larger, so that a piece just as long finds room however either was rounded.
        outline = grown(clean(fine(problem.outline)), GRID)
        blocked += _outside(outline, width)
        end = bounds(outline)[2]
    return Strip(width, tuple(blocked), end, lattice_of(problem))


def strip_from(problem: Problem, start: int, low: int = 0) -> Strip:
    """The open single layer of the cloth with x >= `start` and y >= `low`, solver units."""
    lattice = lattice_of(problem)
    blocked = tuple(shift(ring, -start, -low) for ring in _flaws(problem))
    width = sheet_width(problem) - low
    return Strip(width, blocked, lattice=lattice and lattice.moved(start, low))


def folded_strip_of(problem: Problem, fold: int, width: int) -> Strip:
    """A stretch of `width` folded at y = `fold`, solver units: a flaw in either layer blocks both.

    y runs from the fold to the selvedges.

    Raises:
        LayError: a print that has to match is not the same on both sides of the fold.
    """
    lattice = lattice_of(problem)
    if lattice is not None:
        lattice = lattice.moved(0, fold).folded()
    blocked: list[IntRing] = []
    for ring in _flaws(problem):
        beyond = shift(ring, 0, -fold)
        blocked += [r for r in (beyond, mirror(beyond)) if bounds(r)[3] > 0]
    return Strip(width, tuple(blocked), lattice=lattice)


def flaws_about(problem: Problem, fold: int) -> tuple[IntRing, ...]:
    """Flaws seen from a fold across the cloth at x = `fold`, solver units: on both layers."""
    found: list[IntRing] = []
    for ring in _flaws(problem):
        after = shift(ring, -fold, 0)
        before = anticlockwise(tuple((-x, y) for x, y in after))
        found += [r for r in (after, before) if bounds(r)[2] > 0]
    return tuple(found)


def past_flaws(problem: Problem) -> int:
    """x beyond which the cloth has no flaw, solver units."""
    return max((bounds(ring)[2] for ring in _flaws(problem)), default=0)


def _flaws(problem: Problem) -> Iterator[IntRing]:
    """Everything to keep clear, as rings on the opened-out cloth."""
    for spot in problem.spots:
        yield _around(spot.x, spot.y, spot.radius)
    for patch in problem.patches:
        yield clean(fine(patch))


def _around(x: float, y: float, radius: float) -> IntRing:
    """A polygon whose sides touch the circle from outside."""
    reach = max(radius / math.cos(math.pi / SIDES) + 1 / FINE, LEAST_MM)
    return clean(
        fine(
            tuple(
                (
                    x + reach * math.cos(2 * math.pi * k / SIDES),
                    y + reach * math.sin(2 * math.pi * k / SIDES),
                )
                for k in range(SIDES)
            )
        )
    )


def _outside(outline: IntRing, width: int) -> list[IntRing]:
    """What the strip holds around a remnant, up to the remnant's end.

    In convex rings: the no-fit region of a hollow one would close a channel that a piece
    fits exactly. The ground is cut in two along the remnant's middle line first, so that the
    remnant is never a hole within it.
    """
    _, low, right, high = bounds(outline)
    middle = min(max((low + high) // 2, 1), width - 1)
    rings: list[IntRing] = []
    for y0, y1 in ((0, middle), (middle, width)):
        clipper = pyclipper.Pyclipper()
        clipper.StrictlySimple = True
        clipper.AddPath(((0, y0), (right, y0), (right, y1), (0, y1)), pyclipper.PT_SUBJECT, True)
        clipper.AddPath(outline, pyclipper.PT_CLIP, True)
        ground = clipper.Execute(
            pyclipper.CT_DIFFERENCE, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO
        )
        cleaned = (clean(tuple((int(x), int(y)) for x, y in ring)) for ring in ground)
        rings += [part for ring in cleaned if len(ring) >= 3 for part in convex_parts(ring)]
    return rings
