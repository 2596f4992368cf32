"""Rectangles, fast: bags, cushions, curtains and quilt blocks have no other pieces.

The cloth laid so far ends in a line of steps. The step nearest the start is filled next, by
the rectangle that fits it best (Burke, Kendall & Whitwell, Operations Research 52(4), 2004);
where several fit as well, by the first of them in an order. Seeded swaps improve the order.
"""

from __future__ import annotations

import random
from typing import TYPE_CHECKING, NamedTuple

from stash.geometry.ring import bounds
from stash.lay.steps import FAR, Box, Spot, fill_steps
from stash.lay.table import Item, Placed, Strip

if TYPE_CHECKING:
    from collections.abc import Callable

    from stash.lay.effort import Effort
    from stash.lay.forms import Form

MEASURES: tuple[Callable[[Box], int], ...] = (
    lambda box: box.length * box.across,
    lambda box: max(box.length, box.across),
    lambda box: min(box.length, box.across),
    lambda box: box.length + box.across,
)
"""Larger ones come first in a new order, by each of these in turn."""
STALE = 1500
"""Swaps without a gain before a new order is begun."""
SHAKEN = 0.3
"""Share by which a measure may be shaken once every measure has had its turn."""


class Scored(NamedTuple):
    """Where everything lies and how good that is: length, then how far right the area lies."""

    score: tuple[int, int]
    spots: tuple[Spot, ...]


def only_rectangles(strip: Strip, items: tuple[Item, ...]) -> bool:
    """The items are all rectangles along the grain, on a plain strip with nothing in the way."""
    if strip.blocked or strip.end is not None or strip.lattice is not None:
        return False
    if any(item.at_fold for item in items):
        return False
    return all(_is_rectangle(form) for item in items for form in item.forms)


def _is_rectangle(form: Form) -> bool:
    left, low, right, high = bounds(form.ring)
    return set(form.ring) == {(left, low), (right, low), (right, high), (left, high)}


class Rectangles:
    """A search that can be taken up again: every call of `look` goes on from the last.

    Repeatable for a seed and a number of tries.
    """

    def __init__(self, strip: Strip, items: tuple[Item, ...], seed: int) -> None:
        self._dice = random.Random(seed)
        self._forms = list(dict.fromkeys(item.forms for item in items))
        self._places: dict[int, list[int]] = {}
        for place, item in enumerate(items):
            self._places.setdefault(self._forms.index(item.forms), []).append(place)
        self._kinds = [tuple(_box(form, k) for k, form in enumerate(f)) for f in self._forms]
        # A gap widens rings beyond the edges of the cloth: so does it the strip.
        form = items[0].forms[0]
        self._gap = _box(form, 0).across - form.across
        self._width = strip.width + self._gap
        counts = [len(self._places[k]) for k in range(len(self._kinds))]
        self._all = [k for k, count in enumerate(counts) for _ in range(count)]
        self._area = sum(self._kinds[k][0].length * self._kinds[k][0].across for k in self._all)
        self._begun = 0
        self._stale = STALE
        self._order = self._all
        self._here: Scored | None = None
        self._best: Scored | None = None

    def look(self, effort: Effort) -> int:
        """Go on looking; and the number of tries that took."""
        tries = 0
        while effort.left(tries) and not self._done(effort):
            tries += 1
            if self._stale >= STALE or self._here is None:
                self._begin()
            else:
                self._swap()
        return tries

    def row(self) -> tuple[Placed, ...] | None:
        """The shortest row so far, in the order of the items; None before the first look."""
        if self._best is None:
            return None
        row: dict[int, Placed] = {}
        waiting = {kind: iter(places) for kind, places in self._places.items()}
        for spot in self._best.spots:
            form = self._forms[spot.kind][spot.box.form]
            row[next(waiting[spot.kind])] = Placed(form, spot.x, spot.y)
        return tuple(row[place] for place in range(len(row)))

    def _done(self, effort: Effort) -> bool:
        return self._best is not None and self._best.score[0] - self._gap <= effort.enough

    def _begin(self) -> None:
        """A new order, by the next measure."""
        measure = MEASURES[self._begun % len(MEASURES)]
        shaken = SHAKEN if self._begun >= len(MEASURES) else 0.0
        self._begun += 1
        sizes = [-measure(boxes[0]) * (1 + shaken * self._dice.random()) for boxes in self._kinds]
        self._order = sorted(self._all, key=sizes.__getitem__)
        self._here = self._scored(self._order, FAR)
        self._keep()
        self._stale = 0

    def _swap(self) -> None:
        """One swap or reinsertion in the order, kept if it is no worse."""
        here, order = self._here, self._order.copy()
        self._stale += 1
        if here is None or len(order) < 2:
            return
        i, j = self._dice.sample(range(len(order)), 2)
        if self._dice.random() < 0.5:
            order[i], order[j] = order[j], order[i]
        else:
            order.insert(i, order.pop(j))
        new = self._scored(order, here.score[0])
        if new is None or new.score > here.score:
            return
        if new.score < here.score:
            self._stale = 0
        self._here, self._order = new, order
        self._keep()

    def _scored(self, order: list[int], limit: int) -> Scored | None:
        spots = fill_steps(order, self._kinds, self._width, limit, limit * self._width - self._area)
        if spots is None:
            return None
        length = max(spot.x + spot.box.length for spot in spots)
        spread = sum((2 * s.x + s.box.length) * s.box.length * s.box.across for s in spots)
        return Scored((length, spread), tuple(spots))

    def _keep(self) -> None:
        if self._here and (self._best is None or self._here.score < self._best.score):
            self._best = self._here


def _box(form: Form, number: int) -> Box:
    left, low, right, high = bounds(form.ring)
    return Box(right - left, high - low, number)
