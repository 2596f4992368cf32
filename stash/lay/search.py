"""The search of every lay: beams, other orders, reworking, pushing together; repeatable."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from stash.lay.beam import FEW, beam
from stash.lay.compact import compact
from stash.lay.effort import Effort, Found
from stash.lay.forms import stands_upright
from stash.lay.orders import reorder
from stash.lay.rework import rework
from stash.lay.separate import can_separate, separated

if TYPE_CHECKING:
    from stash.lay.forms import Form
    from stash.lay.table import Item, Strip

LOOSE = 0.15
"""Share above the least thinkable length from which more tries are worth their time."""
EAGER, LESS_EAGER = 30, 5
"""Tries grow by so many times the share above that; the lesser where pieces were separated, or
have to meet a print."""
TIGHT = 0.05
"""Share above the least thinkable length up to which pieces are not separated."""


def search(strip: Strip, items: tuple[Item, ...], effort: Effort) -> Found:
    """The shortest row found for `items` on `strip`; `row` is None if none had room.

    What may be turned, or lie off grain, is first searched as if it might not: so freedom to
    turn never makes the answer longer than the same effort without it.
    """
    start = None
    plain = tuple(map(upright, items))
    if plain == items:
        plain = tuple(map(on_grain, items))
    if plain != items:
        found = search(strip, plain, effort)
        free = {id(short): item for short, item in zip(plain, items, strict=True)}
        start = replace(found, order=tuple(free[id(item)] for item in found.order))
        if start.row is not None and start.length <= effort.enough:
            return start
    return _search(strip, items, effort, start)


def upright(item: Item) -> Item:
    """The item without the forms that stand it on its head."""
    return _only(item, tuple(filter(stands_upright, item.forms)))


def on_grain(item: Item) -> Item:
    """The item without the forms that lie off grain."""
    return _only(item, tuple(form for form in item.forms if not form.off))


def plainest(item: Item) -> Item:
    """The item as it may lie whatever is allowed."""
    return on_grain(upright(item))


def _only(item: Item, forms: tuple[Form, ...]) -> Item:
    """The item with these forms; as it was if that leaves none, or all."""
    return item._replace(forms=forms) if forms and forms != item.forms else item


def _search(strip: Strip, items: tuple[Item, ...], effort: Effort, start: Found | None) -> Found:
    """Beams, all at once where few, other orders and reworking: of the best, or what is there."""
    known = start if start is not None and start.row is not None else None
    state = beam(strip, items, known.length if known else None, effort.enough)
    tries = 1 + (start.tries if start else 0)
    if state is not None and (known is None or state.length < known.length):
        known = Found(state.row, state.items, tries)
    if known is None:
        return Found(None, items, tries)
    few = len(items) <= FEW
    # A print leaves gaps however hard one looks, and finding a place on it takes long.
    eager, apart = EAGER if strip.lattice is None else LESS_EAGER, False
    if few and effort.comparisons and can_separate(strip, items):
        eager = LESS_EAGER
        apart = _looseness(strip, items, known.length, effort) > TIGHT
    if apart:
        known = separated(strip, items, known, effort)
    loose = max(0.0, _looseness(strip, items, known.length, effort) - LOOSE)
    effort = replace(effort, tries=round(effort.tries * (1 + eager * loose)))
    if few:
        known = reorder(strip, items, known, effort)
    if known.row is None or known.length <= effort.enough:
        return known
    better = rework(strip, known.order, known.row, effort)
    if apart and better.row is not None:
        better = replace(better, row=compact(strip, better.row))
    return replace(better, tries=tries + better.tries)


def _looseness(strip: Strip, items: tuple[Item, ...], length: int, effort: Effort) -> float:
    """The share by which the row is longer than its area, or pieces too long or wide, ask for.

    All these are the same whether pieces may be turned or not, and so is what is tried.
    """
    area = sum(item.forms[0].area for item in items) / strip.width
    longest = max(item.forms[0].length for item in items)
    return length / max(area, longest, effort.likely) - 1
