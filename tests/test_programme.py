"""Linear and integer programmes beside those scipy solves, and worked ones."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from stash.programme import Aim, Rows, minimised

if TYPE_CHECKING:
    from numpy.typing import NDArray


class Programme(NamedTuple):
    """Costs, bounds, rows and their limits."""

    cost: NDArray[np.float64]
    most: NDArray[np.float64]
    rows: NDArray[np.float64]
    limits: NDArray[np.float64]

    @property
    def aim(self) -> Aim:
        return Aim(self.cost, np.zeros(len(self.cost)), self.most)


@st.composite
def programmes(draw: st.DrawFn) -> Programme:
    columns, count = draw(st.integers(1, 5)), draw(st.integers(1, 5))

    def whole(least: int, most: int, size: int) -> NDArray[np.float64]:
        drawn = draw(st.lists(st.integers(least, most), min_size=size, max_size=size))
        return np.array(drawn, dtype=np.float64)

    rows = whole(-5, 5, columns * count).reshape(count, columns)
    return Programme(whole(-9, 9, columns), whole(1, 9, columns), rows, whole(-4, 20, count))


@settings(max_examples=150, deadline=None)
@given(programmes(), st.booleans())
def test_the_least_cost_is_the_one_scipy_finds(given: Programme, whole: bool) -> None:
    rows = Rows()
    for coefficients, limit in zip(given.rows, given.limits, strict=True):
        cells = [(k, float(value)) for k, value in enumerate(coefficients) if value]
        rows.add(cells, float(limit))
    kinds = np.ones(len(given.cost), dtype=np.int32)
    found = minimised(given.aim, rows, whole=kinds if whole else None)
    wanted = milp(
        given.cost,
        constraints=LinearConstraint(given.rows, -np.inf, given.limits),
        bounds=Bounds(0, given.most),
        integrality=kinds if whole else None,
    )
    assert (found is None) == (wanted.x is None)
    if found is not None:
        assert found.ended
        assert found.gap == 0
        assert found.values @ given.cost == pytest.approx(wanted.fun, abs=1e-6)
        assert (given.rows @ found.values <= given.limits + 1e-6).all()


def test_rows_alike_are_rows_one_by_one() -> None:
    """Two cuts of 120 and 150 from 400: by hand, two of the first and one of the second."""
    together, one_by_one = Rows(), Rows()
    values = np.array([[120.0, 150.0], [1.0, 0.0]])
    together.add_alike((0, 1), values, np.array([400.0, 2.0]))
    one_by_one.add([(0, 120), (1, 150)], 400)
    one_by_one.add([(0, 1), (1, 0)], 2)
    aim = Aim(np.array([-1.0, -1.01]), np.zeros(2), np.full(2, 9.0))
    kinds = np.ones(2, dtype=np.int32)
    answers = [minimised(aim, rows, whole=kinds) for rows in (together, one_by_one)]
    for answer in answers:
        assert answer is not None
        assert answer.values.tolist() == [2, 1]


def test_nothing_is_printed(capfd: pytest.CaptureFixture[str]) -> None:
    """The solver greets who makes one, in some versions: that would run through a drawn screen."""
    assert minimised(Aim(np.ones(1), np.zeros(1), np.ones(1)), Rows()) is not None
    assert capfd.readouterr() == ("", "")
