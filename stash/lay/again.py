"""Looking again with other seeds and more tries, as long as there is time."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

from stash.lay.errors import LayError
from stash.lay.key import QUICK_TRIES

if TYPE_CHECKING:
    from collections.abc import Callable

    from stash.lay.result import Lay

HAIR_MM = 1e-3
ROUNDS = 6
"""Rounds there shall be at least: tries are doubled while so many still fit into the time."""
MOST_TRIES = 1_000_000
"""A round that is over at once tries less than it may, whatever that is."""


def look_again(
    lay: Callable[[int, int], Lay],
    first: Lay,
    seconds: float,
    progress: Callable[[float, float], bool] | None = None,
) -> Lay:
    """The shortest of `first` and what `lay(seed, tries)` gives, round after round.

    No round begins that would probably end after `seconds`. How many there are depends on the
    clock; each of them is repeatable by its seed and tries. `progress` hears the share of the
    time spent and the best need so far in mm, and answers False to stop.
    """
    begun, took = time.monotonic(), first.seconds
    best, seed, tries = first, first.seed, QUICK_TRIES
    while best.need > best.bound.length + HAIR_MM:
        spent = time.monotonic() - begun
        if progress is not None and not progress(min(1.0, spent / seconds), best.need):
            break
        if 2 * took * ROUNDS < seconds:
            tries, took = min(2 * tries, MOST_TRIES), 2 * took
        if spent + took > seconds:
            break
        seed += 1
        begun_round = time.monotonic()
        try:
            found = lay(seed, tries)
        except LayError:  # with this seed some piece found no room
            found = best
        took = time.monotonic() - begun_round
        best = min(best, found, key=lambda one: one.need)
    return best
