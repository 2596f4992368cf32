"""Few pieces laid within a length that is given, from both ends of the cloth.

Where every piece goes as near the start of the cloth as it can, lays are never found in which
some stand at the far end and the others slip in between. Here a length a little shorter than
the best so far is given, and each piece in turn goes to one of four places: the lowest or the
highest of the free ones nearest the start, or nearest the end. What finds no room is left over;
small changes to the order, the places and the turns make that less, until nothing is left.

Looking for a lay of a given length, and shortening it after every one found, is a usual way to
the shortest (surveyed by Bennell & Oliveira, J. Operational Research Society 60, 2009); that the
pieces left over are counted, not overlaps, is our own.
"""

from __future__ import annotations

from random import Random
from typing import TYPE_CHECKING, NamedTuple

from stash.lay.rearrange import rearranged
from stash.lay.spots import at_ends
from stash.lay.table import Placed

if TYPE_CHECKING:
    from stash.lay.effort import Effort
    from stash.lay.table import Item, Strip

MOST_PIECES = 10
"""With 12 and more it takes too long to be of use (measured on patterns of 6 to 14 pieces)."""
SHORTER = (0.01, 0.003, 0.03)
"""Shares of the best length by which the length given is shorter, in turn."""
WARM = 0.01
"""Share of all area by which more may be left over after a change than before it."""
STALE = 1500
"""Changes without gain after which everything is begun again."""
LEAST, MOST = 0.2, 2.0
"""How much larger or smaller a piece may be taken to be in the first order."""
PLACES = 4
MOVES, NEW_PLACE = 0.3, 0.25
"""How often two pieces are exchanged, and as often one is moved in the order; and how often one
goes to another place. Else it takes another form."""


class Put(NamedTuple):
    """How a piece is put down: which it is, in which form, at which of the four places."""

    item: int
    form: int
    place: int


class BothEnds:
    """The order and the places tried last, from one look to the next."""

    def __init__(self, strip: Strip, items: tuple[Item, ...], seed: int) -> None:
        self._strip, self._items = strip, items
        self._dice = Random(seed)
        self._areas = [item.forms[0].area for item in items]
        self._warm = WARM * sum(self._areas)
        self._within = 0
        self._puts: list[Put] = []
        self._left, self._stale, self._begun = float("inf"), 0, 0
        self._begin()

    def look(self, length: int, effort: Effort) -> tuple[tuple[Placed, ...] | None, int]:
        """A row shorter than `length`, if one is found while there is effort; and the tries."""
        shorter = 1 - SHORTER[self._begun % len(SHORTER)]
        within = max(effort.enough, int(length * shorter))
        if within != self._within:
            self._within = within
            self._left, _ = self._laid(self._puts, float("inf"))
        tries = 0
        while effort.left(tries):
            tries += 1
            changed = rearranged(self._puts, self._dice, MOVES, self._otherwise)
            most = self._left + self._warm * self._dice.random() ** 2
            left, row = self._laid(changed, most)
            self._stale = 0 if left < self._left else self._stale + 1
            if left <= most:
                self._puts, self._left = changed, left
                if not left:
                    return tuple(row[k] for k in range(len(self._items))), tries
            if self._stale > STALE:
                self._begin()
        return None, tries

    def _begin(self) -> None:
        """A new order, largest first on the whole, in random forms at random places."""
        dice = self._dice
        sizes = [area * dice.uniform(LEAST, MOST) for area in self._areas]
        order = sorted(range(len(sizes)), key=lambda k: -sizes[k])
        self._puts = [Put(k, self._some_form(k), dice.randrange(PLACES)) for k in order]
        self._left, self._stale = float("inf"), 0
        self._begun += 1

    def _some_form(self, item: int) -> int:
        return self._dice.randrange(len(self._items[item].forms))

    def _laid(self, puts: list[Put], most: float) -> tuple[float, dict[int, Placed]]:
        """The area left over, and the places of the others; ended once more than `most` is."""
        row: dict[int, Placed] = {}
        there: frozenset[Placed] = frozenset()
        left = 0.0
        for put in puts:
            spot = self._spot(there, put)
            if spot is not None:
                row[put.item] = spot
                there |= {spot}
                continue
            left += self._areas[put.item]
            if left > most:
                break
        return left, row

    def _spot(self, there: frozenset[Placed], put: Put) -> Placed | None:
        """Where the piece goes, in another form where that one finds no room; None: nowhere."""
        forms, strip = self._items[put.item].forms, self._strip
        for form in forms[put.form :] + forms[: put.form]:
            found = at_ends(there, form, strip.width, strip.blocked, self._within)
            if found is not None:
                return Placed(form, *(*found[0], *found[1])[put.place])
        return None

    def _otherwise(self, put: Put, what: float) -> Put:
        """The piece put down in another way."""
        if what < 2 * MOVES + NEW_PLACE:
            return put._replace(place=self._dice.randrange(PLACES))
        return put._replace(form=self._some_form(put.item))
