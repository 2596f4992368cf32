"""A print may begin anywhere: a lay that slides along to meet it stays on the cloth."""

from __future__ import annotations

from dataclasses import replace
from random import Random
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lay_random import random_problem
from lay_shapes import rectangle
from shapely.geometry import Point, Polygon

from stash.lay.check import check
from stash.lay.errors import LayError, NoRoomError
from stash.lay.problem import Problem, Repeat, Shape, Spot
from stash.lay.slide import free_to_slide
from stash.lay.solve import solve

if TYPE_CHECKING:
    from stash.lay.result import Lay

POCKET = Shape("pocket", rectangle(200, 180), copies=2, match=(0.0, 90.0))


def slid(lay: Lay, along: float) -> Lay:
    """The same lay farther along the cloth."""
    placements = tuple(
        replace(p, polygon=tuple((x + along, y) for x, y in p.polygon)) for p in lay.placements
    )
    cross = None if lay.cross_fold is None else lay.cross_fold + along
    return replace(
        lay,
        placements=placements,
        need=lay.need + along,
        folded_to=lay.folded_to + along if lay.folded_to else 0.0,
        cross_fold=cross,
        repeat_at=None if lay.repeat_at is None else lay.repeat_at + along,
    )


@given(st.integers(0, 400), st.floats(0, 1))
@settings(max_examples=30, deadline=None)
def test_wherever_the_print_begins_the_lay_is_legal(number: int, share: float) -> None:
    problem = random_problem(Random(f"slide {number}"))
    repeat = Repeat(107.3)
    shapes = (*problem.shapes, replace(POCKET, name="pocket 9"))
    problem = replace(problem, shapes=shapes, repeat=repeat, width=max(problem.width, 700.0))
    try:
        lay = solve(free_to_slide(problem), tries=0)
    except LayError:
        return
    there = slid(lay, share * repeat.along)
    met = replace(problem, repeat=replace(repeat, at=there.repeat_at))
    assert check(met, there) == ()


def test_a_flaw_is_kept_clear_for_a_repeat_before_it() -> None:
    # Derived: a spot of 2 cm at 40 cm, seen from a lay that moves 0 to 10 cm, lies anywhere
    # from 30 to 40 cm.
    problem = Problem((POCKET,), 1000, spots=(Spot(400, 500, 20),), repeat=Repeat(100))
    [patch] = free_to_slide(problem).patches
    left, low, right, high = Polygon(patch).bounds
    assert (left, low, right, high) == pytest.approx((280, 480, 420, 520), abs=0.5)
    for x in (300, 350, 400):
        assert Polygon(patch).buffer(1e-6).covers(Point(x, 500).buffer(20))


def test_a_remnant_loses_a_repeat_at_its_far_edges() -> None:
    # Derived: an L whose foot reaches 1.5 m and whose leg reaches 0.5 m, each 0.1 m shorter.
    remnant = ((0.0, 0.0), (1500.0, 0.0), (1500.0, 400.0), (500.0, 400.0), (500.0, 900.0), (0, 900))
    problem = Problem((POCKET,), 900, outline=remnant, repeat=Repeat(100))
    outline = Polygon(free_to_slide(problem).outline)
    assert outline.equals(
        Polygon([(0, 0), (1400, 0), (1400, 400), (400, 400), (400, 900), (0, 900)])
    )


def test_a_remnant_shorter_than_the_repeat_promises_nothing() -> None:
    problem = Problem((POCKET,), 900, outline=rectangle(500, 900), repeat=Repeat(640))
    with pytest.raises(NoRoomError, match="pocket"):
        solve(free_to_slide(problem))


@pytest.mark.parametrize("at", [0.0, 30.0])
def test_where_the_print_begins_is_known_nothing_slides(at: float) -> None:
    problem = Problem((POCKET,), 900, spots=(Spot(400, 500, 20),), repeat=Repeat(100, at=at))
    assert free_to_slide(problem) is problem
    plain = replace(problem, repeat=None)
    assert free_to_slide(plain) is plain


def test_what_is_no_flaw_is_left_to_be_refused() -> None:
    bow = ((0.0, 0.0), (100.0, 100.0), (100.0, 0.0), (0.0, 100.0))
    problem = Problem((POCKET,), 900, patches=(bow,), outline=bow, repeat=Repeat(100))
    assert free_to_slide(problem).patches == (bow,)
    with pytest.raises(LayError, match="touches itself"):
        solve(free_to_slide(problem))
