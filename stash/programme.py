"""Linear and integer programmes, solved with HiGHS."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import highspy
import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

ROWWISE = int(highspy.MatrixFormat.kRowwise)
LEAST = int(highspy.ObjSense.kMinimize)


class Rows:
    """Rows of `sum of coefficient x variable <= limit`."""

    def __init__(self) -> None:
        self._limits: list[NDArray[np.float64]] = []
        self._counts: list[NDArray[np.int32]] = []
        self._columns: list[NDArray[np.int32]] = []
        self._values: list[NDArray[np.float64]] = []

    def add(self, cells: Sequence[tuple[int, float]], limit: float) -> None:
        """One more row; `cells` are (column, coefficient)."""
        columns = [column for column, _ in cells]
        values = np.array([[value for _, value in cells]], dtype=np.float64)
        self.add_alike(columns, values, np.array([limit], dtype=np.float64))

    def add_alike(
        self, columns: Sequence[int], values: NDArray[np.float64], limits: NDArray[np.float64]
    ) -> None:
        """Rows over the same columns: `values` has one row for each of the `limits`."""
        self._limits.append(limits)
        self._counts.append(np.full(len(limits), len(columns), dtype=np.int32))
        self._columns.append(np.tile(np.array(columns, dtype=np.int32), len(limits)))
        self._values.append(values.ravel())

    @property
    def limits(self) -> NDArray[np.float64]:
        """Of all rows."""
        return np.concatenate([np.empty(0), *self._limits])

    @property
    def starts(self) -> NDArray[np.int32]:
        """Where each row begins among all cells."""
        counts = np.concatenate([np.zeros(1, dtype=np.int32), *self._counts])
        return np.cumsum(counts, dtype=np.int32)

    @property
    def columns(self) -> NDArray[np.int32]:
        """Of all cells, row after row."""
        return np.concatenate([np.empty(0, dtype=np.int32), *self._columns])

    @property
    def values(self) -> NDArray[np.float64]:
        """Of all cells, row after row."""
        return np.concatenate([np.empty(0), *self._values])


class Answer(NamedTuple):
    """The best values found of all variables."""

    values: NDArray[np.float64]
    ended: bool
    """As good as was asked for; else the time was up."""
    gap: float
    """Relative, to the best that could still exist; 0 where no variable is whole."""


class Aim(NamedTuple):
    """What is to be least, and between which bounds every variable lies."""

    cost: NDArray[np.float64]
    least: NDArray[np.float64]
    most: NDArray[np.float64]


def minimised(
    aim: Aim,
    rows: Rows,
    whole: NDArray[np.int32] | None = None,
    gap: float = 0.0,
    seconds: float = np.inf,
) -> Answer | None:
    """The values at the least cost; None if there are none, or none were found in time.

    `whole`: 1 for every variable that must be whole, else 0. `gap`: relative to the best that
    could still exist, at which the search for whole values ends.
    """
    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("mip_rel_gap", gap)
    solver.setOptionValue("time_limit", seconds)
    limits, values = rows.limits, rows.values
    solver.passModel(
        len(aim.cost),
        len(limits),
        len(values),
        ROWWISE,
        LEAST,
        0.0,
        aim.cost,
        aim.least,
        aim.most,
        np.full(len(limits), -np.inf),
        limits,
        rows.starts,
        rows.columns,
        values,
        np.zeros(len(aim.cost), dtype=np.int32) if whole is None else whole,
    )
    solver.run()
    info = solver.getInfo()
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    return Answer(
        values=np.array(solver.getSolution().col_value),
        ended=solver.getModelStatus() == highspy.HighsModelStatus.kOptimal,
        gap=0.0 if whole is None else float(info.mip_gap),
    )
