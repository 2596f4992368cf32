"""Places to keep clear: flaws, and whatever a remnant's outline leaves out."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pyclipper

from stash.geometry.ring import anticlockwise, bounds, clean, mirror, shift
from stash.lay.forms import FINE, fine, sheet_width
from stash.lay.lattice import lattice_of
from stash.lay.table import Strip

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.geometry.ring import IntRing
    from stash.lay.problem import Problem

SIDES = 16
"""A round flaw is kept clear as a polygon drawn around it."""
MARGIN = 1000 * FINE
"""How far beyond a remnant the ground is blocked."""


def strip_of(problem: Problem) -> Strip:
    """The open single layer of a problem's cloth."""
    width = sheet_width(problem)
    blocked = list(_flaws(problem))
    end = None
    if problem.outline:
        outline = fine(problem.outline)
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
    reach = radius / math.cos(math.pi / SIDES) + 1 / FINE
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
    """What the strip holds around a remnant, as simple rings without holes.

    The ground is cut in two along the remnant's middle line, so that the remnant is never
    a hole within it.
    """
    left, low, right, high = bounds(outline)
    middle = (low + high) // 2
    below, above = min(0, low) - MARGIN, max(width, high) + MARGIN
    rings: list[IntRing] = []
    for y0, y1 in ((below, middle), (middle, above)):
        clipper = pyclipper.Pyclipper()
        box = ((left - MARGIN, y0), (right + MARGIN, y0), (right + MARGIN, y1), (left - MARGIN, y1))
        clipper.AddPath(box, pyclipper.PT_SUBJECT, True)
        clipper.AddPath(outline, pyclipper.PT_CLIP, True)
        ground = clipper.Execute(
            pyclipper.CT_DIFFERENCE, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO
        )
        rings += [clean(tuple((int(x), int(y)) for x, y in ring)) for ring in ground]
    return rings
