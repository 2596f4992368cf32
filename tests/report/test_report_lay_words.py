"""What is said of a fold over part of the width."""

from __future__ import annotations

from stash.config import System
from stash.lay.problem import LayKind, Problem, Shape
from stash.lay.solve import solve
from stash.report.lay_words import fold_words

HALVES = tuple(
    Shape(name, ((0, 0), (700, 0), (700, 200), (0, 200)), on_fold=True) for name in ("a", "b")
)
SASH = Shape("sash", ((0, 0), (1400, 0), (1400, 600), (0, 600)))


def test_a_part_fold_says_how_deep_it_is() -> None:
    lay = solve(Problem((*HALVES, SASH), 1000), kind=LayKind.FOLDED)
    [metric] = fold_words(lay, System.METRIC)
    assert "20 cm deep over the next 20 cm; 60 cm stay single" in metric
    [imperial] = fold_words(lay, System.IMPERIAL)
    assert "7 7/8 in deep" in imperial


def test_a_fold_in_the_middle_needs_no_words() -> None:
    assert fold_words(solve(Problem(HALVES, 1000), kind=LayKind.FOLDED), System.METRIC) == ()
    assert fold_words(solve(Problem(HALVES, 1000), kind=LayKind.OPEN), System.METRIC) == ()
