"""Dealing pieces out to two strips of cloth that lie side by side."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from stash.lay.table import Item, Placed, Strip, fill, length_of

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

Rows = tuple[tuple[Placed, ...], tuple[Placed, ...]]


class Lot(NamedTuple):
    """What goes to one strip or the other: its items on each; none where it may not lie."""

    first: tuple[Item, ...]
    second: tuple[Item, ...]


class Dealt(NamedTuple):
    """Which lot went where, in the order they were put down, and how they lie."""

    hands: tuple[tuple[int, ...], tuple[int, ...]]
    rows: Rows

    @property
    def length(self) -> int:
        """Where the longer strip ends, solver units."""
        return max(map(length_of, self.rows))


def deal(strips: tuple[Strip, Strip], lots: Sequence[Lot], order: Sequence[int]) -> Dealt | None:
    """Each lot goes where it ends soonest; None if one finds no room in either strip."""
    rows: list[tuple[Placed, ...]] = [(), ()]
    hands: list[list[int]] = [[], []]
    for k in order:
        options = []
        for side, strip in enumerate(strips):
            if not lots[k][side]:
                continue
            new = fill(strip, lots[k][side], rows[side])  # no form, no room
            if new is not None:
                put = new[len(rows[side]) :]
                options.append((length_of(put), max(p.x for p in put), side, new))
        if not options:
            return None
        _, _, side, new = min(options, key=lambda option: option[:3])
        rows[side] = new
        hands[side].append(k)
    return Dealt((tuple(hands[0]), tuple(hands[1])), (rows[0], rows[1]))


def fitting(items: tuple[Item, ...], width: int) -> tuple[Item, ...]:
    """The items with only the forms that fit into `width`; none if one has no such form."""
    found = tuple(i._replace(forms=tuple(f for f in i.forms if f.across <= width)) for i in items)
    return found if all(item.forms for item in found) else ()


def orders_of(items: Sequence[Item]) -> list[tuple[int, ...]]:
    """Largest first by three measures; those at the fold first among equals."""

    def by(key: Callable[[Item], float]) -> tuple[int, ...]:
        numbers = range(len(items))
        return tuple(sorted(numbers, key=lambda k: (-key(items[k]), not items[k].at_fold)))

    orders = (
        by(lambda item: item.forms[0].length),
        by(lambda item: item.forms[0].area),
        by(lambda item: item.forms[0].length + (10**9 if item.at_fold else 0)),
    )
    return list(dict.fromkeys(orders))
