"""Pieces of several makes, and a piece too wide said in the person's units."""

from __future__ import annotations

from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st

from stash.config import System
from stash.lay.check import check
from stash.lay.errors import TooNarrowError
from stash.lay.problem import LayKind, Problem, Shape
from stash.lay.solve import solve
from stash.pairing.narrow import narrow_words
from stash.pairing.times import times_over

TAB = ((0.0, 0.0), (120.0, 0.0), (90.0, 60.0), (0.0, 50.0))
"""Not the same when it is turned over."""


@settings(max_examples=20, deadline=None)
@given(st.integers(1, 5), st.integers(2, 4), st.booleans())
def test_every_make_gets_the_same_hands(copies: int, times: int, mirrored: bool) -> None:
    shapes = times_over((Shape("tab", TAB, copies, mirrored=mirrored),), times)
    problem = Problem(shapes, 900, kind=LayKind.OPEN)
    lay = solve(problem, kind=LayKind.OPEN, tries=1)
    assert check(problem, lay) == ()
    hands = Counter(p.mirrored for p in lay.placements)
    other = copies // 2 if mirrored else 0
    assert hands == Counter({False: (copies - other) * times, True: other * times})


def test_a_piece_on_the_fold_has_no_hands() -> None:
    half = Shape("back", ((0, 0), (500, 0), (500, 200), (0, 200)), 1, on_fold=True)
    [both] = times_over((half,), 3)
    assert (both.copies, both.mirrored, both.on_fold) == (3, True, True)


def test_a_piece_too_wide_is_told_in_inches() -> None:
    # 1380.5 mm are 54.35 in, 1379.9 mm are 54.33 in: the piece up, the cloth down, to 1/8 in.
    error = TooNarrowError("leg", 1380.5, 1379.9)
    words = narrow_words(error, System.IMPERIAL)
    assert words == "leg is 54 3/8 in across and the cloth only 54 1/4 in."
    assert narrow_words(error, System.METRIC) == error.message
