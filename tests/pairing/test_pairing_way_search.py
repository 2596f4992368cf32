"""The search for the cheapest combination, against trying every one of them."""

from __future__ import annotations

from itertools import chain, combinations
from typing import TYPE_CHECKING, Any

from hypothesis import given, settings
from hypothesis import strategies as st

from stash.pairing.ways.search import WaySearch

if TYPE_CHECKING:
    from stash.pairing.ways.search import Combination


class Priced:
    """A way for the search alone."""

    def __init__(self, cost: float, group: str) -> None:
        self.cost, self.group = cost, group


def allowed(ways: list[Priced]) -> list[Combination]:
    places = range(len(ways))
    every = chain.from_iterable(combinations(places, n) for n in range(len(ways) + 1))
    return [c for c in every if len({ways[k].group for k in c}) == len(c)]


@settings(max_examples=50, deadline=None)
@given(st.data())
def test_no_combination_that_fits_costs_less(data: st.DataObject) -> None:
    count = data.draw(st.integers(0, 4))
    ways = [
        Priced(data.draw(st.integers(0, 12)) / 4, data.draw(st.sampled_from("abcde")))
        for _ in range(count)
    ]
    gaps = {
        c: data.draw(st.none() | st.integers(-3, 10)) if c else data.draw(st.integers(1, 9))
        for c in allowed(ways)
    }
    ruled_out = {c for c, gap in gaps.items() if gap is None or gap > 5}
    singles = [c for c in gaps if len(c) <= 1]
    laid: list[Combination] = []

    def lay(some: Any) -> list[float | None]:
        laid.extend(some)
        return [gaps[c] for c in some]

    search = WaySearch(ways, lay, ruled_out.__contains__, {c: gaps[c] for c in singles})
    outcome = search.find()
    able = [c for c, gap in gaps.items() if gap is not None and gap <= 0]
    assert outcome.least
    assert (outcome.found is None) == (not able)
    if outcome.found is not None:
        assert outcome.found in able
        assert search.cost(outcome.found) == min(search.cost(c) for c in able)
    assert not ruled_out & set(laid)
    assert len(laid) == len(set(laid))


def test_the_search_ends_where_there_is_too_much_to_try() -> None:
    # Sixteen ways that win 1 each where 12 are missing: 65,536 combinations.
    ways = [Priced(1 + k / 100, str(k)) for k in range(16)]
    laid = 0

    def lay(some: Any) -> list[float | None]:
        nonlocal laid
        laid += len(some)
        return [12.0 - len(c) for c in some]

    known: dict[Combination, float | None] = {(): 12.0}
    known |= {(k,): 11.0 for k in range(16)}
    outcome = WaySearch(ways, lay, lambda _: False, known).find()
    assert outcome.found is not None
    assert len(outcome.found) == 12
    assert not outcome.least
    assert laid < 100
