"""The cutting table: bottom-left placing on no-fit regions.

Each piece goes to the legal place nearest the start of the cloth (smallest x, then smallest
y) among the corners of its free region: what the strip allows less the no-fit regions of
everything already there (the bottom-left rule on no-fit polygons, as surveyed by Bennell &
Oliveira, EJOR 184(2), 2008).
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from stash.lay.ground import NEAR, ground_for
from stash.lay.lattice import Lattice, spot_on
from stash.lay.spots import in_order, nearest

if TYPE_CHECKING:
    from collections.abc import Iterable

    from stash.geometry.ring import IntRing
    from stash.lay.forms import Form


class Item(NamedTuple):
    """One thing to place: the forms it may take, and whether it must touch the fold (y = 0)."""

    forms: tuple[Form, ...]
    at_fold: bool = False
    upward: bool = False
    """Of places equally far along the cloth the highest is taken, not the lowest."""


class Placed(NamedTuple):
    """A form put down with its lower left at (x, y), solver units."""

    form: Form
    x: int
    y: int

    @property
    def right(self) -> int:
        """Where it ends along the cloth."""
        return self.x + self.form.length


class Strip(NamedTuple):
    """What there is to lay on: the width, places to keep clear, and how far it goes."""

    width: int
    blocked: tuple[IntRing, ...] = ()
    end: int | None = None
    """x where a remnant ends; None: as long as needed."""
    lattice: Lattice | None = None
    """Where marks must lie; None: nothing matches."""
    within: int | None = None
    """What would end beyond this x is not wanted; None: anything is."""


def fill(
    strip: Strip,
    items: tuple[Item, ...],
    placed: tuple[Placed, ...] = (),
    within: int | None = None,
) -> tuple[Placed, ...] | None:
    """Place `items` in order after what is `placed` already; None if one finds no room.

    `within`: give up as soon as a piece would end beyond it.
    """
    strip = ending(strip, within)
    row = placed
    there = frozenset(placed)
    for item in items:
        spot = best_spot(strip, there, item)
        if spot is None:
            return None
        row += (spot,)
        there |= {spot}
    return row


def ending(strip: Strip, within: int | None) -> Strip:
    """The strip, of which nothing beyond `within` is wanted; or as it was, if it is less."""
    if within is None or (strip.within is not None and strip.within <= within):
        return strip
    return strip._replace(within=within)


def length_of(row: tuple[Placed, ...]) -> int:
    """Length of cloth the row uses, solver units."""
    return max((p.right for p in row), default=0)


def order_of(row: tuple[Placed, ...], items: tuple[Item, ...]) -> tuple[Item, ...]:
    """The items in the order of the row."""
    whole = {id(form): item for item in items for form in item.forms}
    return tuple(whole[id(placed.form)] for placed in row)


def best_spot(strip: Strip, there: frozenset[Placed], item: Item) -> Placed | None:
    """The form that ends soonest, then starts soonest, then lies lowest."""
    best: tuple[int, int, int] | None = None
    chosen: Placed | None = None
    for form in item.forms:
        for spot in spots(strip, there, form, item):
            rank = ((spot.x + form.length) // NEAR, spot.x // NEAR, spot.y)
            if best is None or rank < best:
                best, chosen = rank, spot
    return chosen


def spots(
    strip: Strip,
    there: frozenset[Placed],
    form: Form,
    item: Item,
    both_ends: bool = False,
) -> Iterable[Placed]:
    """The free place with the smallest x, then y, for a form of `item` beside what is `there`.

    `both_ends`: and then the highest of those with the same x, if that is another.
    """
    if strip.lattice is not None and form.mark is not None:
        return _matching(strip, strip.lattice, there, form, item.at_fold)
    found = nearest(there, form, strip.width, strip.blocked, strip.end, item.at_fold)
    if found is None:
        return ()
    low, high = found
    if item.upward:
        low = high
    if strip.within is not None and low[0] + form.length > strip.within:
        return ()
    if not both_ends or low == high:
        return (Placed(form, *low),)
    return (Placed(form, *low), Placed(form, *high))


def _matching(
    strip: Strip, lattice: Lattice, there: frozenset[Placed], form: Form, at_fold: bool
) -> Iterable[Placed]:
    """The free place with the smallest x, then y, at which the form's mark lies on the print."""
    ends = [end for end in (strip.end, strip.within) if end is not None]
    end = min(ends, default=None)
    ground = ground_for(strip.width, strip.blocked, in_order(there), form, at_fold, end)
    if ground is None or form.mark is None:
        return ()
    if end is None:
        ground = ground._replace(reach=ground.reach + round(lattice.along))
    spot = spot_on(lattice, ground, form.mark)
    return () if spot is None else (Placed(form, *spot),)
