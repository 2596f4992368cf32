"""Rows of a linear programme, gathered one by one."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from scipy.optimize import LinearConstraint
from scipy.sparse import coo_array

if TYPE_CHECKING:
    from collections.abc import Sequence


class Rows:
    """Rows of `sum of coefficient x variable <= limit`."""

    def __init__(self) -> None:
        self._cells: list[tuple[int, int, float]] = []
        self._limits: list[float] = []

    def add(self, cells: Sequence[tuple[int, float]], limit: float) -> None:
        """One more row; `cells` are (column, coefficient)."""
        row = len(self._limits)
        self._cells.extend((row, column, value) for column, value in cells)
        self._limits.append(limit)

    def constraint(self, columns: int) -> LinearConstraint:
        """All rows, for `columns` variables."""
        shape = (len(self._limits), columns)
        rows, cols, values = zip(*self._cells, strict=True) if self._cells else ((), (), ())
        matrix = coo_array((np.array(values, dtype=float), (rows, cols)), shape=shape)
        return LinearConstraint(matrix.tocsr(), -np.inf, self._limits)
