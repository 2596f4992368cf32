"""The order to sew in."""

from __future__ import annotations

import heapq
from datetime import date
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from stash.garment.make import Make

NEVER = date.max


def sewing_order(makes: Iterable[Make]) -> tuple[int, ...]:
    """Make ids: a muslin before its make, then the soonest due, then the highest priority.

    A muslin is as urgent as the make it tests.
    """
    by_id = {make.id: make for make in makes}
    tests: dict[int, list[int]] = {}
    waiting = dict.fromkeys(by_id, 0)
    for make in by_id.values():
        if make.muslin_for in by_id and make.muslin_for is not None:
            tests.setdefault(make.id, []).append(make.muslin_for)
            waiting[make.muslin_for] += 1
    ready = [(_urgency(by_id[m], by_id), m) for m, count in waiting.items() if count == 0]
    heapq.heapify(ready)
    order = []
    while ready:
        _, done = heapq.heappop(ready)
        order.append(done)
        for tested in tests.get(done, ()):
            waiting[tested] -= 1
            if waiting[tested] == 0:
                heapq.heappush(ready, (_urgency(by_id[tested], by_id), tested))
    # Makes that test each other in a ring can only follow at the end.
    return (*order, *sorted(set(by_id) - set(order)))


def _urgency(make: Make, by_id: dict[int, Make]) -> tuple[date, int, bool, int]:
    due, priority = make.due or NEVER, make.priority
    tested = by_id.get(make.muslin_for) if make.muslin_for is not None else None
    if tested is not None:
        due, priority = min(due, tested.due or NEVER), max(priority, tested.priority)
    return (due, -priority, not make.muslin, make.id)
