"""Better orders: seeded local moves around the bottom-left rule, bounded and repeatable."""

from __future__ import annotations

import random
import time
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.lay.table import Item, Placed, Strip, fill, length_of

if TYPE_CHECKING:
    from collections.abc import Callable


@dataclass(frozen=True, slots=True)
class Effort:
    """How hard to look: a number of tries (repeatable), or until a deadline."""

    tries: int = 24
    seed: int = 1
    deadline: float | None = None
    """`time.monotonic()` value; None: count tries only."""

    def left(self, done: int) -> bool:
        """True while there is effort left after `done` tries."""
        if self.deadline is not None:
            return time.monotonic() < self.deadline
        return done < self.tries


@dataclass(slots=True)
class Found:
    """The best row so far and how many were tried."""

    row: tuple[Placed, ...] | None
    tries: int = 0

    @property
    def length(self) -> int:
        """Length of the best row, solver units."""
        return length_of(self.row) if self.row is not None else -1


def search(strip: Strip, items: tuple[Item, ...], effort: Effort) -> Found:
    """The shortest row found for `items` on `strip`; `row` is None if none had room."""
    found = Found(None)
    best_order: tuple[Item, ...] = items
    best_score: tuple[float, float] | None = None
    for order in _first_orders(items):
        if found.tries and not effort.left(found.tries):
            break
        row = fill(strip, order)
        found.tries += 1
        score = _score(row)
        if score is not None and (best_score is None or score < best_score):
            found.row, best_order, best_score = row, order, score
    dice = random.Random(effort.seed)
    while len(items) > 1 and effort.left(found.tries):
        order, changed = _moved(best_order, dice)
        keep = found.row[:changed] if found.row is not None else ()
        row = fill(strip, order[changed:], keep) if found.row else fill(strip, order)
        found.tries += 1
        score = _score(row)
        if score is not None and (best_score is None or score <= best_score):
            found.row, best_order, best_score = row, order, score
    return found


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
    """One swap, reinsertion or fixed turn; and the first place that changed."""
    row = list(order)
    i, j = sorted(dice.sample(range(len(row)), 2))
    move = dice.random()
    if move < 0.45:
        row[i], row[j] = row[j], row[i]
    elif move < 0.9:
        if dice.random() < 0.5:
            row.insert(i, row.pop(j))
        else:
            row.insert(j, row.pop(i))
    else:
        item = row[i]
        forms = item.forms[1:] + item.forms[:1]
        row[i] = item._replace(forms=forms)
    return tuple(row), i
