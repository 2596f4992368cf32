"""Places to keep clear: flaws, and whatever a remnant's outline leaves out."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pyclipper

from stash.geometry.ring import bounds, clean
from stash.lay.forms import FINE, fine, sheet_width
from stash.lay.table import Strip

if TYPE_CHECKING:
    from stash.geometry.ring import IntRing
    from stash.lay.problem import Problem, Spot

SIDES = 16
"""A round flaw is kept clear as a polygon drawn around it."""
MARGIN = 1000 * FINE
"""How far beyond a remnant the ground is blocked."""


def strip_of(problem: Problem) -> Strip:
    """The open single layer of a problem's cloth."""
    width = sheet_width(problem)
    blocked = [_around(spot.x, spot.y, spot.radius) for spot in problem.spots]
    end = None
    if problem.outline:
        outline = fine(problem.outline)
        blocked += _outside(outline, width)
        end = bounds(outline)[2]
    return Strip(width, tuple(blocked), end)


def folded_strip_of(problem: Problem, fold: int, width: int) -> Strip:
    """A stretch of `width` folded at y = `fold`, solver units: a flaw in either layer blocks both.

    y runs from the fold to the selvedges.
    """
    blocked = [_around(spot.x, abs(spot.y - fold / FINE), spot.radius) for spot in problem.spots]
    return Strip(width, tuple(blocked))


def spots_about(spots: tuple[Spot, ...], fold: int) -> tuple[IntRing, ...]:
    """Flaws seen from a fold across the cloth at x = `fold`, solver units: on both layers."""
    return tuple(_around(abs(spot.x - fold / FINE), spot.y, spot.radius) for spot in spots)


def shifted_spots(spots: tuple[Spot, ...], start: int) -> tuple[IntRing, ...]:
    """Flaws seen from a stretch of cloth that begins at `start`, solver units."""
    return tuple(_around(spot.x - start / FINE, spot.y, spot.radius) for spot in spots)


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
