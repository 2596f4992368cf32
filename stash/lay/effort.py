"""How hard a search looks, and what it brings back."""

from __future__ import annotations

import time
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from stash.lay.table import length_of

if TYPE_CHECKING:
    from stash.lay.table import Item, Placed

ORDERS = 50
"""Pieces put down in other orders for every try, where a lay is worth it: open ones and plain
folded ones. The other lays of two layers seldom win, and are searched several times each."""
COMPARISONS = 40
"""Comparisons of all places for every piece and every try: open lays only, since what lies at a
fold cannot be moved just anywhere."""


@dataclass(frozen=True, slots=True)
class Effort:
    """How hard to look: a number of tries (repeatable), or until a deadline."""

    tries: int = 12
    """How often pieces are taken up and put down again where the first arrangement is good."""
    orders: int = 0
    """Pieces put down in other orders for every try, where there are few; 0: no other orders."""
    comparisons: int = 0
    """Comparisons of all places for every piece and every try, where pieces are separated."""
    seed: int = 1
    deadline: float | None = None
    """`time.monotonic()` value; None: count tries only."""
    enough: int = 0
    """Length in solver units that cannot be beaten: once reached, nothing more is tried."""
    bound: int = 0
    """Length in solver units that no lay of the problem can beat."""
    likely: int = 0
    """Length that no lay of upright pieces on grain can beat, solver units; 0: not known."""
    beat: int | None = None
    """Length in solver units that there is already: what is proven to be no shorter is left."""
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
