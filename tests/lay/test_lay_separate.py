"""Laying within a given length by parting what overlaps: legal rows, shorter ones, repeatable."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lay_rows import faults, first_row
from lay_shapes import KITES, problems, rectangle

from stash.lay.bounds import bound_of, least_length
from stash.lay.compact import pushed_apart
from stash.lay.effort import Effort, Found
from stash.lay.forms import FINE, sheet_width
from stash.lay.obstacles import strip_of
from stash.lay.open_lay import open_copies, open_placements, row_of
from stash.lay.problem import Problem, Shape, Spot
from stash.lay.separate import Separation, separated
from stash.lay.table import Item, Placed, length_of, order_of

LEGS = (Shape("front", rectangle(1080, 320), 2), Shape("back", rectangle(1080, 380), 2))
FLAW = (Spot(90.0, 60.0, 25.0),)


def searcher(problem: Problem, seed: int = 1) -> Separation:
    return Separation(strip_of(problem), tuple(map(Item, open_copies(problem))), seed)


def looked(problem: Problem, seed: int) -> list[tuple[Placed, ...]]:
    """The first row, and the best after each of four looks."""
    looking, rows = searcher(problem, seed), [first_row(problem)]
    for _ in range(4):
        row, _ = looking.look(rows[-1], length_of(rows[-1]), Effort(tries=300))
        rows.append(row or rows[-1])
    return rows


@settings(max_examples=40, deadline=None)
@given(problems(), st.integers(0, 10_000), st.booleans(), st.sampled_from([0.0, 6.0]))
def test_what_is_found_is_legal_and_shorter(
    problem: Problem, seed: int, flawed: bool, gap: float
) -> None:
    problem = replace(problem, spots=FLAW if flawed else (), gap=gap)
    best = first_row(problem)
    if not best:
        return
    least = least_length(bound_of(open_copies(problem), sheet_width(problem)))
    looking = searcher(problem, seed)
    row, _ = looking.look(best, length_of(best), Effort(tries=150, enough=least))
    if row is not None:
        assert least <= length_of(row) < length_of(best)
        assert faults(problem, row) == ()


@settings(max_examples=40, deadline=None)
@given(problems(), st.integers(0, 10_000))
def test_what_a_quick_search_separates_is_legal_repeatable_and_never_longer(
    problem: Problem, seed: int
) -> None:
    row = first_row(problem)
    if not row:
        return
    items = tuple(map(Item, open_copies(problem)))
    start = Found(row, order_of(row, items), 1)
    effort = Effort(tries=1, comparisons=40, seed=seed)
    found, again = (separated(strip_of(problem), items, start, effort) for _ in range(2))
    assert found == again
    assert found.row is not None
    assert found.length <= start.length
    assert found.order == order_of(found.row, items)
    assert faults(problem, found.row) == ()


@settings(max_examples=40, deadline=None)
@given(problems())
def test_placements_lead_back_to_their_row(problem: Problem) -> None:
    row = first_row(problem)
    if not row:
        return
    items = tuple(map(Item, open_copies(problem)))
    placements = open_placements(problem, row)
    assert sorted(row_of(items, placements), key=str) == sorted(row, key=str)
    assert row_of(items, (*placements, placements[0])) == ()  # one copy more than there is


@settings(max_examples=40, deadline=None)
@given(problems(), st.data(), st.booleans())
def test_pieces_thrown_anywhere_are_pushed_apart_or_given_up(
    problem: Problem, data: st.DataObject, flawed: bool
) -> None:
    problem = replace(problem, spots=FLAW if flawed else ())
    far = st.integers(0, 60_000)
    thrown = tuple(
        p._replace(x=p.x + data.draw(far) * 10, y=max(0, p.y - data.draw(far) * 10))
        for p in first_row(problem)
    )
    row = pushed_apart(strip_of(problem), thrown)
    assert row is None or faults(problem, row) == ()


def test_two_legs_in_each_other_are_pushed_side_by_side() -> None:
    """Two of 380 mm that overlap by 20 mm across, on 800 mm: beside each other, one leg long."""
    problem = Problem((Shape("back", rectangle(1080, 380), 2),), 800)
    form = open_copies(problem)[0][0]
    row = pushed_apart(strip_of(problem), (Placed(form, 0, 0), Placed(form, 15 * FINE, 360 * FINE)))
    assert row is not None
    assert length_of(row) / FINE == pytest.approx(1080, abs=0.05)
    assert faults(problem, row) == ()


def test_four_legs_that_fit_side_by_side_are_laid_so() -> None:
    """2 x 320 + 2 x 380 = 1400: within 1470 one leg long, within 1390 two, which nothing beats."""
    wide, narrow = Problem(LEGS, 1470), Problem(LEGS, 1390)
    best = first_row(narrow)
    row, _ = searcher(wide).look(best, 1200 * FINE, Effort(tries=300))
    assert row is not None
    assert length_of(row) < 1200 * FINE
    looking, left = searcher(narrow), 300
    while left > 0:
        row, tries = looking.look(best, 2160 * FINE, Effort(tries=left))
        assert row is None
        left -= tries


def test_a_piece_wider_than_the_cloth_is_not_turned_across_it() -> None:
    """900 x 100 three times and 500 x 350 twice on 700: the long ones lie along it, whatever turn
    they are allowed."""
    every = (0, 90, 180, 270)
    band, panel = rectangle(900, 100), rectangle(500, 350)
    pieces = (Shape("band", band, 3, turns=every), Shape("panel", panel, 2, turns=every))
    rows = looked(Problem(pieces, 700), 2)
    assert all(faults(Problem(pieces, 700), row) == () for row in rows)


def test_a_length_nothing_fits_in_is_given_up() -> None:
    problem = Problem(LEGS, 1470)
    looking = searcher(problem)
    assert looking.look(first_row(problem), 900 * FINE, Effort(tries=40))[0] is None


def test_looking_again_goes_on_and_is_repeatable() -> None:
    rows = looked(KITES, 5)
    assert rows == looked(KITES, 5)
    lengths = [length_of(row) for row in rows]
    assert all(later <= earlier for earlier, later in pairwise(lengths))
    assert lengths[-1] < lengths[0]


def test_a_remnant_is_not_left() -> None:
    """A cloth with a corner cut off and a flaw: shorter, and on the cloth."""
    outline = ((0, 0), (1600, 0), (1600, 700), (1200, 1100), (0, 1100))
    remnant = replace(KITES, outline=outline, spots=FLAW)
    rows = looked(remnant, 3)
    assert length_of(rows[-1]) < length_of(rows[0])
    assert all(faults(remnant, row) == () for row in rows)
