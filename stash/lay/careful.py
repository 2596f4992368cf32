"""Careful open lays: our own search beside the open nesting library, then pushed together.

Each has a core. Whatever the library finds is settled on our grid, compacted, and taken as
the new start of our own search if it is shorter; so the answer is never worse than either.
"""

from __future__ import annotations

import time
from contextlib import nullcontext
from typing import TYPE_CHECKING

from stash.lay.compact import compact
from stash.lay.effort import Effort, Found
from stash.lay.nester import SHORTEST_SECONDS, Nester
from stash.lay.rework import rework
from stash.lay.search import search
from stash.lay.settle import settle
from stash.lay.table import length_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from stash.lay.table import Item, Placed, Strip

SLICE_SECONDS = 0.4
"""Our own search looks up this often: for news, for the clock, for a stop."""
END_SHARE = 0.04
"""Share of the time kept for pushing the best together at the end."""
FIRST_TRIES = 12


def search_carefully(
    strip: Strip,
    items: tuple[Item, ...],
    seconds: float,
    seed: int = 1,
    progress: Callable[[float, int], bool] | None = None,
) -> Found:
    """The shortest row found in about `seconds`; its row is None if nothing had room.

    `progress` hears the share of the time spent and the best length so far, in solver
    units, and answers False to stop: the best so far is kept.
    """
    begun = time.monotonic()
    end = begun + seconds * (1 - END_SHARE)
    # The library keeps whole outlines on the cloth; ours may touch its edge within their gap.
    gap = any(item.forms[0].ring != item.forms[0].body for item in items)
    free = not (strip.blocked or strip.end is not None or strip.lattice or gap)
    helped = free and seconds >= SHORTEST_SECONDS
    nester = Nester(strip, items, end - begun, seed) if helped else nullcontext()
    with nester as beside:
        first = search(strip, items, Effort(tries=FIRST_TRIES, seed=seed))
        if first.row is None:
            return first
        order, best, tries = first.order, first.row, first.tries
        turn = 0
        while time.monotonic() < end:
            turn += 1
            if progress and not progress((time.monotonic() - begun) / seconds, length_of(best)):
                break
            effort = Effort(seed=seed + turn, deadline=min(end, time.monotonic() + SLICE_SECONDS))
            found = rework(strip, order, best, effort)
            tries += found.tries
            best = _shorter(found.row, best)
            news = _news(strip, beside)
            if news is not None and length_of(news) < length_of(best):
                best, order = news, items
    pushed = compact(strip, best) if strip.lattice is None else None
    return Found(_shorter(pushed, best), order, tries)


def _shorter(one: tuple[Placed, ...] | None, other: tuple[Placed, ...]) -> tuple[Placed, ...]:
    return one if one is not None and length_of(one) < length_of(other) else other


def _news(strip: Strip, beside: Nester | None) -> tuple[Placed, ...] | None:
    """What the library found since the last look, legal and pushed together."""
    found = beside.news() if beside is not None else None
    settled = settle(strip, found) if found is not None else None
    return compact(strip, settled, rounds=4) if settled is not None else None
