"""Laying everything out afresh in other orders: cheap, because what cannot win ends early.

Random orders, largest first on the whole, and then small changes to the order of the best
arrangement so far, as in the local searches over placing orders that Bennell & Oliveira
survey (J. Operational Research Society 60, 2009). Slightly worse arrangements are accepted
while that search is warm.
"""

from __future__ import annotations

import random
from typing import TYPE_CHECKING

from stash.lay.effort import Found
from stash.lay.rework import SPREAD, hinted, score_of
from stash.lay.table import Item, Placed, Strip, best_spot, ending, length_of, order_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.lay.effort import Effort

LEAST, MOST = 0.4, 1.6
"""How much larger or smaller a piece may be taken to be in a random order."""
MOVES = 0.4
"""How often two pieces are exchanged, and as often one is moved in the order; else one is put
down in another way."""
WARM = 0.06
"""Share of the score a change of order may cost at the start."""
CORNERS = 12
"""Pieces with fewer corners than this on average cost less to put down, so more are."""


def reorder(strip: Strip, items: tuple[Item, ...], start: Found, effort: Effort) -> Found:
    """The shortest arrangement found in other orders, `start` if none is shorter.

    The order of `start` is that of its row.
    """
    if start.row is None or len(items) < 2:
        return start
    corners = sum(len(item.forms[0].ring) for item in items) / len(items)
    puts = round(effort.orders * effort.tries * max(1.0, CORNERS / corners))
    found = _Orders(strip, items, start, effort)
    found.shuffle(puts // 2)
    found.climb(puts)
    return found.best


class _Orders:
    """The best arrangement so far, and how many pieces were put down for it."""

    def __init__(self, strip: Strip, items: tuple[Item, ...], start: Found, effort: Effort) -> None:
        self._strip, self._items, self._enough = strip, items, effort.enough
        self._whole = {id(form): item for item in items for form in item.forms}
        self._dice = random.Random(effort.seed)
        self._puts = 0
        self._area = sum(item.forms[0].area for item in items)
        self.best = start

    def shuffle(self, puts: int) -> None:
        """Random orders until so many pieces were put down; only what is shorter counts."""
        while self._puts < puts and self.best.length > self._enough:
            order = sorted(self._items, key=self._noisy_size)
            row = self._laid([hinted(item, self._dice) for item in order], self.best.length - 1, 0)
            if row is not None:
                self._take(row)

    def climb(self, puts: int) -> None:
        """Small changes to the best order until so many pieces were put down."""
        begun = self._puts
        order: Sequence[Item] = self.best.order
        score = score_of(self.best.row or ())
        while self._puts < puts and self.best.length > self._enough:
            heat = WARM * (1 - (self._puts - begun) / (puts - begun)) ** 2
            most = score * (1 + heat * self._dice.random())
            changed = self._rearranged(order)
            row = self._laid(changed, most, SPREAD)
            if row is None or (reached := score_of(row)) > most:
                continue
            order, score = changed, reached
            if length_of(row) < self.best.length:
                self._take(row)

    def _laid(self, order: Sequence[Item], most: float, weight: float) -> tuple[Placed, ...] | None:
        """The pieces put down in that order; None once they will score above `most`.

        The score is their length and `weight` of the mean place of their area. That is taken
        to be no less than if they filled the width, or if all still to come began at the start.
        """
        row: list[Placed] = []
        there: frozenset[Placed] = frozenset()
        filled = self._area / (2 * self._strip.width)
        halves = sum(item.forms[0].area * item.forms[0].length / 2 for item in order)
        mean = halves / self._area
        for item in order:
            self._puts += 1
            within = int(most - weight * max(filled, mean))
            spot = best_spot(ending(self._strip, within), there, item)
            if spot is None:
                return None
            row.append(spot)
            there |= {spot}
            mean += spot.x * spot.form.area / self._area
        return tuple(row)

    def _take(self, row: tuple[Placed, ...]) -> None:
        self.best = Found(row, order_of(row, self._items), self.best.tries)

    def _noisy_size(self, item: Item) -> float:
        return -item.forms[0].area * self._dice.uniform(LEAST, MOST)

    def _rearranged(self, order: Sequence[Item]) -> list[Item]:
        """The order after one to three changes."""
        changed, dice = list(order), self._dice
        for _ in range(dice.choice((1, 1, 2, 3))):
            one, two = dice.randrange(len(changed)), dice.randrange(len(changed))
            what = dice.random()
            if what < MOVES:
                changed[one], changed[two] = changed[two], changed[one]
            elif what < 2 * MOVES:
                changed.insert(two, changed.pop(one))
            else:
                changed[one] = hinted(self._whole[id(changed[one].forms[0])], dice)
        return changed
