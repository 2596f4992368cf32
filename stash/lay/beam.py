"""A beam of arrangements: piece after piece, the best few ways so far are kept.

Beam search for packing, as in Bennell & Song, A beam search implementation for the irregular
shape packing problem, J. Heuristics 16(2), 2010; here it grows by the bottom-left rule, and
every piece may also take the highest of the places equally far along.
"""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING, NamedTuple

from stash.lay.table import Item, Placed, Strip, ending, spots

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

BREADTH = 8
"""Arrangements kept at each step."""
FEW = 16
"""So many pieces are few."""
MOST_ORDERS = 6
"""Orders of the large pieces, each tried in full: three pieces in every order."""
LARGE = 0.2
"""Share of the largest piece's area from which a piece counts as large."""
SPREAD_ALONG, SPREAD_ACROSS = 0.25, 0.1
"""Weights of the mean place of the area against the length: tight arrangements come first."""


class State(NamedTuple):
    """An arrangement that grows, and how good it is: less is better."""

    rank: float
    row: tuple[Placed, ...]
    items: tuple[Item, ...]
    length: int
    there: frozenset[Placed]
    """What the row holds, whatever the order."""
    area: float
    moment: float
    """Sum of every area times how far along and across its middle lies."""


def beam(strip: Strip, items: tuple[Item, ...], within: int | None, enough: int) -> State | None:
    """The shortest arrangement of the beams tried; None if no beam ends within `within`.

    Few pieces: the large ones in every order, a bounded number, then the others; and all
    pieces largest first by four measures. Many pieces: one beam of one arrangement.
    """
    orders = first_orders(items)
    best: State | None = None
    few = len(items) <= FEW
    if few:
        best = _large_first(strip, orders[0], within)
    for order in orders if few else orders[:1]:
        if best is not None:
            if best.length <= enough:
                break
            within = best.length
        states = _grown(strip, order, [_NOTHING], within, BREADTH if few else 1)
        best = min([*states, *([best] if best else [])], key=_length, default=None)
    return best


_NOTHING = State(0.0, (), (), 0, frozenset(), 0.0, 0.0)


def _length(state: State) -> int:
    return state.length


def _large_first(strip: Strip, order: tuple[Item, ...], within: int | None) -> State | None:
    """The large pieces in many orders; the others after the best of these."""
    least = LARGE * order[0].forms[0].area
    count = sum(item.forms[0].area >= least for item in order)
    while count > 1 and len(orders := _orders(order[:count])) > MOST_ORDERS:
        count -= 1
    if count < 2:
        return None
    states = [s for o in orders for s in _grown(strip, o, [_NOTHING], within, BREADTH)]
    states = _grown(strip, order[count:], _best(states, 2 * BREADTH), within, BREADTH)
    return min(states, key=_length, default=None)


def _orders(items: tuple[Item, ...]) -> list[tuple[Item, ...]]:
    """The orders that differ, one more than wanted at most."""
    return list(islice(_different(items), MOST_ORDERS + 1))


def _different(items: tuple[Item, ...]) -> Iterator[tuple[Item, ...]]:
    """Every order of the items; exchanging two that are alike makes no other."""
    if not items:
        yield ()
    firsts = {id(item.forms[0]): k for k, item in reversed(list(enumerate(items)))}
    for k in sorted(firsts.values()):
        for rest in _different(items[:k] + items[k + 1 :]):
            yield (items[k], *rest)


def _grown(
    strip: Strip,
    order: tuple[Item, ...],
    states: list[State],
    within: int | None,
    breadth: int,
) -> list[State]:
    """The best arrangements after all of `order` is put down; none if there is no room."""
    strip = ending(strip, within)
    for item in order:
        states = _best(_next(strip, states, item, breadth > 1), breadth)
    return states


def _next(strip: Strip, states: list[State], item: Item, both_ends: bool) -> Iterable[State]:
    for state in states:
        for form in item.forms:
            for spot in spots(strip, state.there, form, item, both_ends):
                yield _with(state, item, spot)


def _with(state: State, item: Item, spot: Placed) -> State:
    form, x, y = spot
    length = max(state.length, x + form.length)
    area = state.area + form.area
    moment = state.moment + form.area * (
        SPREAD_ALONG * (x + form.length / 2) + SPREAD_ACROSS * (y + form.across / 2)
    )
    return State(
        length + moment / area,
        (*state.row, spot),
        (*state.items, item),
        length,
        state.there | {spot},
        area,
        moment,
    )


def _best(states: Iterable[State], count: int) -> list[State]:
    """The best few; what looks the same counts once."""
    different = {state.there: state for state in states}
    return sorted(different.values(), key=_rank)[:count]


def _rank(state: State) -> float:
    return state.rank


def first_orders(items: tuple[Item, ...]) -> list[tuple[Item, ...]]:
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
