"""Desirability functions: how well one number answers one wish, and many wishes together.

Derringer & Suich, "Simultaneous Optimization of Several Response Variables", Journal of
Quality Technology 12(4), 1980: each response becomes a mark from 0 to 1, one-sided or
two-sided, and the marks are joined by their geometric mean.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable


def at_least(value: float, low: float, target: float) -> float:
    """0 at or below `low`, rising in a straight line to 1 at `target` and above."""
    if value >= target:
        return 1.0
    if value <= low:
        return 0.0
    return (value - low) / (target - low)


def at_most(value: float, target: float, high: float) -> float:
    """1 at or below `target`, falling in a straight line to 0 at `high` and above."""
    return at_least(-value, -high, -target)


def between(value: float, low: float, from_: float, to: float, high: float) -> float:
    """1 from `from_` to `to`, falling to 0 at `low` below and at `high` above."""
    return min(at_least(value, low, from_), at_most(value, to, high))


def together(marks: Iterable[tuple[float, float]]) -> float:
    """The weighted geometric mean of (mark, weight) pairs; 1 when there is nothing to mark.

    One mark of 0 makes the whole 0.
    """
    pairs = [(mark, weight) for mark, weight in marks if weight > 0]
    if not pairs:
        return 1.0
    if any(mark <= 0 for mark, _ in pairs):
        return 0.0
    total = sum(weight for _, weight in pairs)
    return math.exp(sum(weight * math.log(mark) for mark, weight in pairs) / total)
