"""Desirabilities against the worked example of the paper that introduced them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.pairing.desire import at_least, at_most, between, together

unit = st.floats(0.0, 1.0)


def test_tyre_tread_example() -> None:
    """Derringer & Suich 1980, tyre tread compound (from memory).

    Abrasion 129.5 (120..170), modulus 1300 (1000..1300), elongation 465.7 (400..500..600),
    hardness 68 (60..67.5..75) give d = 0.189, 1.0, 0.656, 0.932 and D = 0.583.
    """
    marks = [
        at_least(129.5, 120, 170),
        at_least(1300, 1000, 1300),
        between(465.7, 400, 500, 500, 600),
        between(68, 60, 67.5, 67.5, 75),
    ]
    assert marks == pytest.approx([0.189, 1.0, 0.656, 0.932], abs=0.0025)
    assert together((mark, 1) for mark in marks) == pytest.approx(0.583, abs=0.002)


def test_the_other_side() -> None:
    assert at_most(10, 10, 20) == 1.0
    assert at_most(15, 10, 20) == pytest.approx(0.5)
    assert at_most(20, 10, 20) == 0.0


def test_one_zero_spoils_all_and_nothing_asked_spoils_nothing() -> None:
    assert together([(1.0, 1), (0.0, 0.1)]) == 0.0
    assert together([]) == 1.0


@given(st.lists(st.tuples(unit, st.floats(0.1, 5)), min_size=1))
def test_mean_lies_between_its_marks(marks: list[tuple[float, float]]) -> None:
    mean = together(marks)
    assert min(m for m, _ in marks) - 1e-9 <= mean <= max(m for m, _ in marks) + 1e-9


@given(st.floats(-100, 100), st.floats(-100, 100))
def test_more_never_marks_lower(first: float, second: float) -> None:
    low, high = sorted((first, second))
    assert at_least(low, -10, 30) <= at_least(high, -10, 30)
