"""Better orders: seeded local moves around the bottom-left rule, bounded and repeatable."""

from __future__ import annotations

import random
import time
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from stash.lay.forms import stands_upright
from stash.lay.table import Item, Placed, Strip, fill, length_of

if TYPE_CHECKING:
    from collections.abc import Callable


@dataclass(frozen=True, slots=True)
class Effort:
    """How hard to look: a number of tries (repeatable), or until a deadline."""

    tries: int = 12
    seed: int = 1
    deadline: float | None = None
    """`time.monotonic()` value; None: count tries only."""

    begun: float = field(default_factory=time.monotonic)

    def left(self, done: int) -> bool:
        """True while there is effort left after `done` tries."""
        if self.deadline is not None:
            return time.monotonic() < self.deadline
        return done < self.tries

    def spent(self, done: int) -> float:
        """Share of the effort used up after `done` tries, 0-1."""
        if self.deadline is not None:
            whole = max(self.deadline - self.begun, 1e-9)
            return min(1.0, (time.monotonic() - self.begun) / whole)
        return min(1.0, done / max(self.tries, 1))


@dataclass(frozen=True, slots=True)
class Found:
    """The best row so far, the order that gave it, and how many were tried."""

    row: tuple[Placed, ...] | None
    order: tuple[Item, ...]
    tries: int

    @property
    def length(self) -> int:
        """Length of the best row, solver units."""
        return length_of(self.row) if self.row is not None else -1


def search(strip: Strip, items: tuple[Item, ...], effort: Effort) -> Found:
    """The shortest row found for `items` on `strip`; `row` is None if none had room.

    What may be turned is first searched as if it might not: so freedom to turn never makes
    the answer longer than the same effort without it.
    """
    upright = tuple(_upright(item) for item in items)
    if upright == items:
        return _climb(strip, _first_orders(items), effort, None)
    start = _climb(strip, _first_orders(upright), replace(effort, deadline=None), None)
    free = {id(short): item for short, item in zip(upright, items, strict=True)}
    order = tuple(free[id(item)] for item in start.order)
    return _climb(strip, _first_orders(items), effort, replace(start, order=order))


def _upright(item: Item) -> Item:
    """The item without the forms that stand it on its head."""
    forms = tuple(filter(stands_upright, item.forms)) or item.forms
    return item if forms == item.forms else item._replace(forms=forms)


def _climb(
    strip: Strip, orders: list[tuple[Item, ...]], effort: Effort, start: Found | None
) -> Found:
    """Try the first orders, then seeded moves of the best, keeping what is no worse."""
    row, order = (start.row, start.order) if start else (None, orders[0])
    score = _score(row)
    tries = 0
    for candidate in orders:
        if tries and not effort.left(tries):
            break
        new = fill(strip, candidate)
        tries += 1
        if _better(new, score):
            row, order, score = new, candidate, _score(new)
    dice = random.Random(effort.seed)
    while len(order) > 1 and effort.left(tries):
        candidate, changed = _moved(order, dice)
        new = fill(strip, candidate[changed:], row[:changed]) if row else fill(strip, candidate)
        tries += 1
        if _better(new, score):
            row, order, score = new, candidate, _score(new)
    return Found(row, order, tries + (start.tries if start else 0))


def _better(new: tuple[Placed, ...] | None, score: tuple[float, float] | None) -> bool:
    """No longer than the best, or anything where there was nothing."""
    found = _score(new)
    return found is not None and (score is None or found <= score)


def _score(row: tuple[Placed, ...] | None) -> tuple[float, float] | None:
    """Length first; then how far right the area lies, so that equal lengths still improve."""
    if row is None:
        return None
    return length_of(row), sum((2 * p.x + p.form.length) * p.form.area for p in row)


def _first_orders(items: tuple[Item, ...]) -> list[tuple[Item, ...]]:
    """Largest first by four measures; those at the fold first among equals."""

    def by(key: Callable[[Item], float]) -> tuple[Item, ...]:
        return tuple(sorted(items, key=lambda item: (-key(item), not item.at_fold)))

    orders = [
        by(lambda item: item.forms[0].area),
        by(lambda item: item.forms[0].length),
        by(lambda item: item.forms[0].across),
        by(lambda item: item.forms[0].length + item.forms[0].across),
    ]
    return list(dict.fromkeys(orders))


def _moved(order: tuple[Item, ...], dice: random.Random) -> tuple[tuple[Item, ...], int]:
    """One swap or reinsertion; and the first place that changed."""
    row = list(order)
    i, j = sorted(dice.sample(range(len(row)), 2))
    if dice.random() < 0.5:
        row[i], row[j] = row[j], row[i]
    elif dice.random() < 0.5:
        row.insert(i, row.pop(j))
    else:
        row.insert(j, row.pop(i))
    return tuple(row), i
