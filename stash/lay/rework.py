"""Reworking an arrangement: take a few pieces up and put them down again, better.

Ruin and recreate (Schrimpf et al., J. Computational Physics 159(2), 2000): only the pieces
taken up are placed anew, in the gaps the others leave, so a try costs a fraction of laying
everything out. Slightly worse arrangements are accepted while the search is warm.
"""

from __future__ import annotations

import math
import random
from typing import TYPE_CHECKING

from stash.lay.effort import Found
from stash.lay.table import Item, Placed, Strip, fill, length_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from stash.lay.effort import Effort

WARM = 0.02
"""Share of the score a change for the worse may cost at the start."""
SPREAD = 0.25
"""Weight of the mean place of the area against the length."""
ONE_FORM, UPWARD = 0.4, 0.3
"""How often a piece is put down in one form only, or from the other edge."""
FEWEST, MOST = 2, 9
"""Pieces taken up at once."""


def rework(
    strip: Strip,
    items: tuple[Item, ...],
    start: tuple[Placed, ...],
    effort: Effort,
) -> Found:
    """The shortest arrangement reached from `start`, which places `items` in that order."""
    dice = random.Random(effort.seed)
    area = sum(p.form.area for p in start)
    here = dict(enumerate(start))
    score = score_of(start)
    best, best_rank = start, (length_of(start), score)
    tries = 0
    while len(items) > 1 and effort.left(tries) and best_rank[0] > effort.enough:
        heat = WARM * (1 - effort.spent(tries)) ** 2
        taken = _take_up(here, dice)
        rest = {k: p for k, p in here.items() if k not in taken}
        most = score * (1 + heat * dice.random())
        # Pieces put down again add to the score, so what is left of it bounds the length.
        within = int(most - SPREAD * _spread(rest.values(), area))
        put = fill(
            strip, tuple(hinted(items[k], dice) for k in taken), tuple(rest.values()), within
        )
        tries += 1
        if put is None:
            continue
        new = rest | dict(zip(taken, put[len(rest) :], strict=True))
        new_score = score_of(tuple(new.values()))
        if new_score <= most:
            here, score = new, new_score
            rank = (length_of(tuple(here.values())), score)
            if rank < best_rank:
                best, best_rank = tuple(here[k] for k in range(len(items))), rank
    return Found(best, items, tries)


def score_of(row: tuple[Placed, ...]) -> float:
    """The length, and a little of how far right the area lies: gaps move to the end."""
    return length_of(row) + SPREAD * _spread(row, sum(p.form.area for p in row))


def _spread(row: Iterable[Placed], area: float) -> float:
    """What these pieces add to the mean place of all `area` along the cloth."""
    return sum((p.x + p.form.length / 2) * p.form.area for p in row) / area


def _take_up(here: dict[int, Placed], dice: random.Random) -> list[int]:
    """A few pieces near each other, or those that end last and some others; in a new order."""
    count = min(len(here), dice.randint(FEWEST, MOST))
    keys = list(here)
    if dice.random() < 0.5:
        last = max(keys, key=lambda k: here[k].right)
        others = dice.sample([k for k in keys if k != last], count - 1)
        taken = [last, *others]
    else:
        middle = here[dice.choice(keys)]
        taken = sorted(keys, key=lambda k: _apart(here[k], middle))[:count]
    dice.shuffle(taken)
    if dice.random() < 0.6:
        taken.sort(key=lambda k: -here[k].form.area * (0.7 + 0.6 * dice.random()))
    return taken


def _apart(one: Placed, other: Placed) -> float:
    """Distance between the middles of two pieces."""
    return math.hypot(
        one.x + one.form.length / 2 - other.x - other.form.length / 2,
        one.y + one.form.across / 2 - other.y - other.form.across / 2,
    )


def hinted(item: Item, dice: random.Random) -> Item:
    """The item as it is, or now and then with one form only, or from the other edge.

    What ends soonest is not always what leaves most room for the others.
    """
    if len(item.forms) > 1 and dice.random() < ONE_FORM:
        item = item._replace(forms=(dice.choice(item.forms),))
    return item._replace(upward=True) if dice.random() < UPWARD else item
