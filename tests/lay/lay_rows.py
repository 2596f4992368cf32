"""Rows the lay tests begin with, and what the checker says of those they end with."""

from __future__ import annotations

from stash.lay.check import check
from stash.lay.effort import Effort
from stash.lay.errors import LayError
from stash.lay.obstacles import strip_of
from stash.lay.open_lay import open_copies, open_placements
from stash.lay.problem import LayKind, Problem
from stash.lay.search import search
from stash.lay.solve import unmeasured
from stash.lay.table import Item, Placed, length_of


def first_row(problem: Problem) -> tuple[Placed, ...]:
    """A row by a single try; empty if something finds no room."""
    try:
        items = tuple(map(Item, open_copies(problem)))
    except LayError:
        return ()
    return search(strip_of(problem), items, Effort(tries=1)).row or ()


def faults(problem: Problem, row: tuple[Placed, ...]) -> tuple[str, ...]:
    """What the checker finds wrong with the row as an open lay."""
    placements = open_placements(problem, row)
    return check(problem, unmeasured(problem, LayKind.OPEN, length_of(row), placements))
