"""Other orders: never a longer row, never another set of pieces, the same for a seed."""

from __future__ import annotations

from collections import Counter
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st
from lay_random import random_problem

from stash.lay.check import check
from stash.lay.effort import Effort, Found
from stash.lay.errors import LayError
from stash.lay.forms import FINE
from stash.lay.obstacles import strip_of
from stash.lay.open_lay import open_copies, open_placements
from stash.lay.orders import reorder
from stash.lay.problem import LayKind, Problem, Shape
from stash.lay.solve import unmeasured
from stash.lay.table import Item, fill
from stash.lay.trials import trials


def first_found(problem: Problem) -> tuple[tuple[Item, ...], Found]:
    items = tuple(Item(forms) for forms in open_copies(problem))
    return items, Found(fill(strip_of(problem), items), items, 1)


@given(st.integers(0, 10_000))
@settings(max_examples=15, deadline=None)
def test_other_orders_are_legal_never_longer_and_the_same_again(number: int) -> None:
    problem = next(iter(trials(random_problem(Random(number)))))
    try:
        items, start = first_found(problem)
    except LayError:
        return
    effort = Effort(tries=2, orders=60, seed=number)
    found = reorder(strip_of(problem), items, start, effort)
    assert found == reorder(strip_of(problem), items, start, effort)
    assert found.length <= start.length
    if found.row is None:
        assert start.row is None
        return
    placements = open_placements(problem, found.row)
    assert not check(problem, unmeasured(problem, LayKind.OPEN, found.length, placements))
    assert Counter(p.form.shape for p in found.row) == Counter(i.forms[0].shape for i in items)
    assert all(p.form in i.forms for p, i in zip(found.row, found.order, strict=True))


def test_a_pinwheel_is_found() -> None:
    # Four of 60 x 40 around one of 20 x 20 tile 100 x 100: geometry, worked by hand.
    def box(along: float, across: float, copies: int) -> Shape:
        outline = ((0.0, 0.0), (along, 0.0), (along, across), (0.0, across))
        return Shape("box", outline, copies=copies, turns=(0, 90), mirrored=False)

    problem = Problem((box(600, 400, 4), box(200, 200, 1)), 1000.0)
    items, start = first_found(problem)
    found = reorder(strip_of(problem), items, start, Effort(tries=20, orders=60))
    assert start.length > found.length == 1000 * FINE
