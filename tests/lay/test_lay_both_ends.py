"""Looking from both ends of the cloth: only legal rows, only shorter ones, and repeatable."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st
from lay_shapes import problems, rectangle

from stash.lay.both_ends import BothEnds
from stash.lay.bounds import bound_of, least_length
from stash.lay.check import check
from stash.lay.effort import Effort
from stash.lay.errors import LayError
from stash.lay.forms import FINE, Form, sheet_width
from stash.lay.obstacles import strip_of
from stash.lay.open_lay import lay_open, open_copies, open_placements
from stash.lay.problem import LayKind, Problem, Shape, Spot
from stash.lay.solve import unmeasured
from stash.lay.spots import at_ends
from stash.lay.table import Item, Placed, length_of

LEGS = (Shape("front", rectangle(1080, 320), 2), Shape("back", rectangle(1080, 380), 2))


def searcher(problem: Problem, seed: int = 1) -> BothEnds:
    return BothEnds(strip_of(problem), tuple(map(Item, open_copies(problem))), seed)


@settings(max_examples=40, deadline=None)
@given(problems(), st.integers(0, 10_000), st.booleans())
def test_what_is_found_is_legal_and_shorter(problem: Problem, seed: int, flawed: bool) -> None:
    spots = (Spot(90.0, 60.0, 25.0),) if flawed else ()
    problem = replace(problem, kind=LayKind.OPEN, spots=spots)
    try:
        best = lay_open(problem, Effort(tries=1)).row or ()
    except LayError:
        return
    least = least_length(bound_of(open_copies(problem), sheet_width(problem)))
    row, tries = searcher(problem, seed).look(length_of(best), Effort(tries=60, enough=least))
    assert tries <= 60
    if row is None:
        return
    assert least <= length_of(row) <= max(least, length_of(best))
    lay = unmeasured(problem, LayKind.OPEN, length_of(row), open_placements(problem, row))
    assert check(problem, lay) == ()


def test_four_legs_that_fit_side_by_side_are_laid_so() -> None:
    """2 x 320 + 2 x 380 = 1400: within 1470 one leg long, within 1390 two, which nothing beats."""
    row, _ = searcher(Problem(LEGS, 1470)).look(1200 * FINE, Effort(tries=300))
    assert row is not None
    assert length_of(row) < 1200 * FINE
    row, tries = searcher(Problem(LEGS, 1390)).look(2160 * FINE, Effort(tries=300))
    assert (row, tries) == (None, 300)


def test_looking_again_goes_on_and_is_repeatable() -> None:
    kite = Shape("kite", ((0, 150), (200, 0), (700, 150), (200, 300)), 4)
    problem = Problem((kite, Shape("strip", rectangle(500, 90), 2)), 700)
    start = length_of(lay_open(problem, Effort(tries=1)).row or ())
    rows = []
    for _ in range(2):
        looking, lengths = searcher(problem, 3), [start]
        for _ in range(4):
            row, _ = looking.look(lengths[-1], Effort(tries=150))
            lengths.append(lengths[-1] if row is None else length_of(row))
        rows.append(lengths)
    assert rows[0] == rows[1]
    assert all(later <= earlier for earlier, later in pairwise(rows[0]))


def places(there: frozenset[Placed], form: Form) -> list[tuple[float, ...]]:
    """The four places on 100 x 100 mm, in mm."""
    start, end = at_ends(there, form, 100 * FINE, (), 100 * FINE) or ((), ())
    return [tuple(v / FINE for v in spot) for spot in (*start, *end)]


def test_the_four_places_beside_a_square() -> None:
    """A square of 40 mm in the middle of 100 x 100, and one of 25 mm: the four corners of the
    cloth; with 40 mm more before and behind it, its own sides."""
    (big,), (small,) = (
        open_copies(Problem((Shape("s", rectangle(side, side), turns=(0,)),), 100))[0]
        for side in (40, 25)
    )
    there = frozenset({Placed(big, 30 * FINE, 30 * FINE)})
    assert places(there, small) == [(0, 0), (0, 75), (75, 0), (75, 75)]
    (wall,) = open_copies(Problem((Shape("w", rectangle(30, 100), turns=(0,)),), 100))[0]
    there |= {Placed(wall, 0, 0), Placed(wall, 70 * FINE, 0)}
    assert places(there, small) == [(30, 0), (30, 75), (45, 0), (45, 75)]
    assert at_ends(there, big, 100 * FINE, (), 100 * FINE) is None
