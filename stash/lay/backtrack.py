"""Few pieces laid within a length that is given: put down in turn, and taken back where stuck.

Where every piece goes as near the start of the cloth as it can, lays are never found in which
some stand at the far end and the others slip in between. Here a length a little shorter than
the best so far is given, and every piece goes to one of four places: of the free ones nearest
either selvedge the one nearest the start of the cloth, or the one nearest its end. As soon as
anything still to come has no room left, the last piece is taken back and put elsewhere.

This is backtracking with forward checking (Haralick & Elliott, Increasing tree search efficiency
for constraint satisfaction problems, Artificial Intelligence 14, 1980), begun again after a
while with the pieces in another order (Gomes, Selman & Kautz, Boosting combinatorial search
through randomization, AAAI 1998); both cited from memory.
"""

from __future__ import annotations

from random import Random
from typing import TYPE_CHECKING, NamedTuple

from stash.lay.room import Cloth, Room

if TYPE_CHECKING:
    from stash.lay.effort import Effort
    from stash.lay.forms import Form
    from stash.lay.table import Item, Placed, Strip

MOST_PIECES = 10
"""With 12 and more the nesting library finds shorter lays in the time (measured on patterns of
6 to 14 pieces)."""
SHORTER = 0.01
"""Share of the best length by which the length given is shorter."""
STEPS = 100
"""Pieces put down before everything is begun again."""
LEAST, MOST = 0.2, 2.0
"""How much larger or smaller a piece may be taken to be in an order."""
SIZE_POWER = 0.3
"""Of the area, in an order: large pieces go first, but not always."""
FADING = 0.9
"""What is left, after a new beginning, of how often pieces of a kind had no room."""

Rooms = dict["Form", Room]
"""Where there is room for every form still to come; forms that have none are left out."""


class Kind(NamedTuple):
    """Pieces that are alike: the forms they may take, and which of the items they are."""

    forms: tuple[Form, ...]
    items: tuple[int, ...]


class Backtrack:
    """The search, and what it learnt, from one look to the next."""

    def __init__(self, strip: Strip, items: tuple[Item, ...], seed: int) -> None:
        self._cloth = Cloth(strip.width, strip.blocked, 0)
        self._dice = Random(seed)
        alike: dict[tuple[Form, ...], list[int]] = {}
        for number, item in enumerate(items):
            alike.setdefault(item.forms, []).append(number)
        self._kinds = [Kind(forms, tuple(numbers)) for forms, numbers in alike.items()]
        self._failures = [0.0] * len(self._kinds)

    def look(self, length: int, effort: Effort) -> tuple[tuple[Placed, ...] | None, int]:
        """A row shorter than `length`, if one is found while there is effort; and the tries.

        Every piece put down is a try.
        """
        end = max(effort.enough, int(length * (1 - SHORTER)))
        self._cloth = self._cloth._replace(end=end)
        everything = tuple(len(kind.items) for kind in self._kinds)
        whole = self._whole()
        self._effort, self._tries = effort, 0
        while effort.left(self._tries):
            self._begin()
            if self._go_on(everything, whole):
                return self._row(), self._tries
        return None, self._tries

    def _whole(self) -> Rooms:
        """Where every form has room before anything is put down."""
        forms = [form for kind in self._kinds for form in kind.forms]
        rooms = [Room.whole(self._cloth, form) for form in forms]
        return {room.form: room for room in rooms if room is not None}

    def _begin(self) -> None:
        """Nothing is put down; a new order, largest first on the whole."""
        dice, kinds = self._dice, range(len(self._kinds))
        areas = [kind.forms[0].area for kind in self._kinds]
        sizes = [area**SIZE_POWER * dice.uniform(LEAST, MOST) for area in areas]
        self._order = sorted(kinds, key=lambda kind: -sizes[kind])
        # What failed most is asked first: then the others need not be.
        self._asked = sorted(kinds, key=lambda kind: -self._failures[kind])
        self._failures = [FADING * failures for failures in self._failures]
        self._steps = STEPS
        self._done: set[frozenset[Placed]] = set()
        self._put: list[Placed] = []

    def _go_on(self, left: tuple[int, ...], rooms: Rooms) -> bool:
        """All that is `left` of each kind put down beside what is; False: it was not."""
        there = frozenset(self._put)
        if there in self._done or self._steps == 0 or not self._effort.left(self._tries):
            return False
        self._steps -= 1
        self._tries += 1
        kind = next(kind for kind in self._order if left[kind])
        left = (*left[:kind], left[kind] - 1, *left[kind + 1 :])
        for place in self._places(kind, rooms):
            self._put.append(place)
            now = self._looked_ahead(left, rooms)
            if now is not None and (not any(left) or self._go_on(left, now)):
                return True
            self._put.pop()
        if self._steps:
            self._done.add(there)
        return False

    def _places(self, kind: int, rooms: Rooms) -> list[Placed]:
        """Where a piece of the kind may go, in all its forms, in any order."""
        found = [rooms[form] for form in self._kinds[kind].forms if form in rooms]
        places = [place for room in found for place in room.places(self._cloth, self._put)]
        self._dice.shuffle(places)
        return places

    def _looked_ahead(self, left: tuple[int, ...], rooms: Rooms) -> Rooms | None:
        """Where there still is room; None: something has none any more."""
        now: Rooms = {}
        for kind in self._asked:
            if not left[kind]:
                continue
            found = [rooms[form] for form in self._kinds[kind].forms if form in rooms]
            narrowed = [room.beside(self._put) for room in found]
            kept = {room.form: room for room in narrowed if room is not None}
            if not kept:
                self._failures[kind] += 1
                return None
            now |= kept
        return now

    def _row(self) -> tuple[Placed, ...]:
        """All that was put down, kind after kind, in the order of the items."""
        numbers = [number for kind in self._order for number in self._kinds[kind].items]
        row = dict(zip(numbers, self._put, strict=True))
        return tuple(row[number] for number in range(len(row)))
