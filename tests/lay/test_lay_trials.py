"""A slice of the random trials, and proof that both judges see what is wrong.

`python tests/lay/lay_trials.py --problems 10000` runs them all.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from lay_raster import raster_faults
from lay_shapes import rectangle
from lay_trials import Tally, judge, run

from stash.lay.check import check
from stash.lay.problem import LayKind, Problem, Shape, Spot
from stash.lay.solve import solve

if TYPE_CHECKING:
    from stash.lay.result import Lay

PANEL = Shape("panel", rectangle(300, 200), 4)
SEED, SLICE = 20, 30


def test_random_problems_are_laid_legally_or_refused_with_cause() -> None:
    tally = run(SEED, range(SLICE), tries=2, only=None)
    assert tally.words == []
    assert tally.counts["problems"] == SLICE
    assert {name.split(":")[0] for name in tally.kinds} == {"best", *LayKind}
    assert sum(tally.kinds.values()) > SLICE
    assert len(tally.asking) == 9  # every rule was asked for at least once


def moved(lay: Lay, place: int, dx: float, dy: float) -> Lay:
    """The lay with one of its pieces shifted."""
    piece = lay.placements[place]
    ring = tuple((x + dx, y + dy) for x, y in piece.polygon)
    kept = [*lay.placements]
    kept[place] = replace(piece, polygon=ring)
    return replace(lay, placements=tuple(kept))


@pytest.mark.parametrize(
    ("problem", "dx", "dy"),
    [
        (Problem((PANEL,), 800), 2, 0),  # off the end
        (Problem((PANEL,), 800), 0, 2),  # over its neighbour, or off the edge
        (Problem((PANEL,), 840, gap=10), 0, -2),  # too near, not touching
        (Problem((PANEL,), 900, spots=(Spot(100, 850, 40),)), 0, 60),
        (Problem((PANEL,), 900, outline=rectangle(310, 820)), 0, 30),
    ],
)
def test_both_judges_see_a_piece_that_was_moved(problem: Problem, dx: float, dy: float) -> None:
    lay = solve(problem, kind=LayKind.OPEN)
    assert check(problem, lay) == raster_faults(problem, lay) == ()
    last = max(
        range(len(lay.placements)), key=lambda k: max(y for _, y in lay.placements[k].polygon)
    )
    wrong = moved(lay, last, dx, dy)
    tally = Tally()
    judge(problem, wrong, 1, tally)
    assert tally.counts["illegal by checker"] == tally.counts["illegal by raster"] == 1
    assert tally.faults == 2
