"""What is said of where a cloth is folded."""

from __future__ import annotations

from dataclasses import replace

from stash.config import System
from stash.lay.problem import LayKind, Problem, Shape
from stash.lay.solve import solve
from stash.report.lay_words import fold_words, longer_words
from stash.units.length import Length

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


def test_folds_that_are_not_in_the_middle_are_told_to_the_millimetre() -> None:
    lay = solve(Problem(HALVES, 1000), kind=LayKind.OPEN)
    gate = replace(lay, kind=LayKind.GATE, folds=(145.0, 645.0), folded_to=lay.need)
    [told] = fold_words(gate, System.METRIC)
    assert "one selvedge 145 mm deep, the other 355 mm, until they meet" in told
    across = replace(lay, kind=LayKind.CROSSWAYS, cross_fold=600.0, folded_to=1200.0, need=1500.0)
    [told] = fold_words(across, System.METRIC)
    assert "across the cloth, 60 cm from its cut end; folded for the first 120 cm" in told


def test_a_single_layer_at_the_end_is_told() -> None:
    lay = replace(solve(Problem(HALVES, 1000), kind=LayKind.FOLDED), folded_to=700.0, need=1100.0)
    [told] = fold_words(lay, System.METRIC)
    assert "in half; folded for the first 70 cm, a single layer after that" in told


def test_how_much_longer_agrees_with_lengths_rounded_up() -> None:
    """1.509 m and 1.552 m are told as 1.51 and 1.56 m, or as 59 1/2 and 61 1/8 in (by hand)."""
    short, long = Length.from_mm(1509), Length.from_mm(1552)
    assert longer_words(long, short, System.METRIC) == "5 cm longer"
    assert longer_words(Length.from_mm(1515), short, System.METRIC) == "6 mm longer"
    assert longer_words(short, short, System.METRIC) == "as short"
    assert longer_words(long, short, System.IMPERIAL) == "1 5/8 in longer"
