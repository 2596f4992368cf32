"""Better orders: seeded local moves around the bottom-left rule, bounded and repeatable."""

from __future__ import annotations

import random
from dataclasses import replace
from typing import TYPE_CHECKING

from stash.lay.effort import Effort, Found
from stash.lay.forms import stands_upright
from stash.lay.rework import rework
from stash.lay.table import Item, Placed, Strip, fill, length_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from stash.lay.forms import Form


def search(strip: Strip, items: tuple[Item, ...], effort: Effort) -> Found:
    """The shortest row found for `items` on `strip`; `row` is None if none had room.

    What may be turned, or lie off grain, is first searched as if it might not: so freedom to
    turn never makes the answer longer than the same effort without it.
    """
    start = None
    plain = tuple(map(upright, items))
    if plain == items:
        plain = tuple(map(on_grain, items))
    if plain != items:
        found = search(strip, plain, effort)
        free = {id(short): item for short, item in zip(plain, items, strict=True)}
        start = replace(found, order=tuple(free[id(item)] for item in found.order))
        if start.row is not None and start.length <= effort.enough:
            return start
    found = _climb(strip, _first_orders(items), effort, start)
    if found.row is None or not effort.rework or found.length <= effort.enough:
        return found
    better = rework(strip, found.order, found.row, replace(effort, tries=effort.rework))
    return replace(better, tries=found.tries + better.tries)


def upright(item: Item) -> Item:
    """The item without the forms that stand it on its head."""
    return _only(item, tuple(filter(stands_upright, item.forms)))


def on_grain(item: Item) -> Item:
    """The item without the forms that lie off grain."""
    return _only(item, tuple(form for form in item.forms if not form.off))


def _only(item: Item, forms: tuple[Form, ...]) -> Item:
    """The item with these forms; as it was if that leaves none, or all."""
    return item._replace(forms=forms) if forms and forms != item.forms else item


def _climb(
    strip: Strip, orders: list[tuple[Item, ...]], effort: Effort, start: Found | None
) -> Found:
    """Try the first orders, then seeded moves of the best, keeping what is no worse."""
    row, order = (start.row, start.order) if start else (None, orders[0])
    score = _score(row)
    tries = 0
    for candidate in orders:
        if tries and (not effort.left(tries) or _reached(row, effort)):
            break
        new = fill(strip, candidate)
        tries += 1
        if _better(new, score):
            row, order, score = new, candidate, _score(new)
    dice = random.Random(effort.seed)
    while len(order) > 1 and effort.left(tries) and not _reached(row, effort):
        candidate, changed = _moved(order, dice)
        new = fill(strip, candidate[changed:], row[:changed]) if row else fill(strip, candidate)
        tries += 1
        if _better(new, score):
            row, order, score = new, candidate, _score(new)
    return Found(row, order, tries + (start.tries if start else 0))


def _reached(row: tuple[Placed, ...] | None, effort: Effort) -> bool:
    return row is not None and length_of(row) <= effort.enough


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
