"""The cutting table: bottom-left placing on no-fit regions.

Each piece goes to the legal place nearest the start of the cloth (smallest x, then smallest
y) among the corners of its free region: what the strip allows less the no-fit regions of
everything already there (the bottom-left rule on no-fit polygons, as surveyed by Bennell &
Oliveira, EJOR 184(2), 2008).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import pyclipper

from stash.geometry.nofit import NoFit, no_fit, strictly_inside
from stash.geometry.ring import IntRing, bounds
from stash.lay.forms import GRID, Form

SLIT = 3
"""Half the width of the slit an exact fit leaves free, solver units."""
MOST_NUDGES = 3


class Item(NamedTuple):
    """One thing to place: the forms it may take, and whether it must touch the fold (y = 0)."""

    forms: tuple[Form, ...]
    at_fold: bool = False


class Placed(NamedTuple):
    """A form put down with its lower left at (x, y), solver units."""

    form: Form
    x: int
    y: int

    @property
    def right(self) -> int:
        """Where it ends along the cloth."""
        return self.x + self.form.length


@dataclass(frozen=True, slots=True)
class Strip:
    """What there is to lay on: the width, places to keep clear, and how far it goes."""

    width: int
    blocked: tuple[IntRing, ...] = ()
    end: int | None = None
    """x where a remnant ends; None: as long as needed."""


def fill(
    strip: Strip, items: tuple[Item, ...], placed: tuple[Placed, ...] = ()
) -> tuple[Placed, ...] | None:
    """Place `items` in order after what is `placed` already; None if one finds no room."""
    row = list(placed)
    for item in items:
        spot = _best(strip, row, item)
        if spot is None:
            return None
        row.append(spot)
    return tuple(row)


def length_of(row: tuple[Placed, ...]) -> int:
    """Length of cloth the row uses, solver units."""
    return max((p.right for p in row), default=0)


def _best(strip: Strip, row: list[Placed], item: Item) -> Placed | None:
    """The form that ends soonest, then starts soonest, then lies lowest."""
    found: list[tuple[int, int, int, int, Form]] = []
    for form in item.forms:
        spot = _spot(strip, row, form, item.at_fold)
        if spot is not None:
            found.append((spot[0] + form.length, spot[0], spot[1], len(found), form))
    if not found:
        return None
    _, x, y, _, form = min(found)
    return Placed(form, x, y)


def _spot(strip: Strip, row: list[Placed], form: Form, at_fold: bool) -> tuple[int, int] | None:
    top = 0 if at_fold else strip.width - form.across
    if top < 0:
        return None
    reach = max((p.right for p in row), default=0)
    if strip.blocked:
        reach = max(reach, *(bounds(ring)[2] for ring in strip.blocked))
    if strip.end is not None:
        reach = min(reach, strip.end - form.length)
        if reach < 0:
            return None
    regions = [(no_fit(p.form.ring, form.ring), p.x, p.y) for p in row]
    regions += [(no_fit(ring, form.ring), 0, 0) for ring in strip.blocked]
    near = [
        (region, dx, dy)
        for region, dx, dy in regions
        if region.box[2] + dx > 0 and region.box[1] + dy < top + SLIT and region.box[3] + dy > -SLIT
    ]
    if not near:
        return (0, 0)
    return _first_free(near, reach, top)


def _first_free(near: list[tuple[NoFit, int, int]], reach: int, top: int) -> tuple[int, int] | None:
    """The free corner with the smallest x, then y, on the placing grid."""
    clipper = pyclipper.Pyclipper()
    clipper.AddPath(
        ((-SLIT, -SLIT), (reach + SLIT, -SLIT), (reach + SLIT, top + SLIT), (-SLIT, top + SLIT)),
        pyclipper.PT_SUBJECT,
        True,
    )
    for region, dx, dy in near:
        for ring in region.shrunk:
            clipper.AddPath([(x + dx, y + dy) for x, y in ring], pyclipper.PT_CLIP, True)
    free = clipper.Execute(pyclipper.CT_DIFFERENCE, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO)
    corners = sorted({(x, y) for ring in free for x, y in ring})
    for corner in corners:
        spot = _settle(near, corner, reach, top)
        if spot is not None:
            return spot
    return None


def _settle(
    near: list[tuple[NoFit, int, int]], corner: tuple[int, int], reach: int, top: int
) -> tuple[int, int] | None:
    """The corner on the grid, nudged along the cloth until it truly touches nothing."""
    x = min(max(round(corner[0] / GRID) * GRID, 0), reach)
    y = min(max(round(corner[1] / GRID) * GRID, 0), top)
    for _ in range(MOST_NUDGES):
        if not any(strictly_inside(region, x - dx, y - dy) for region, dx, dy in near):
            return x, y
        x += GRID
        if x > reach:
            return None
    return None
