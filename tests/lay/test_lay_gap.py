"""A gap kept between pieces: to cut with room for the shears, or for a heavy seam allowance."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lay_shapes import problems, rectangle, rings
from shapely.geometry import Point, Polygon

from stash.geometry.grow import grown
from stash.lay.check import check
from stash.lay.errors import LayError, TooNarrowError
from stash.lay.problem import LayKind, Problem, Shape
from stash.lay.solve import solve

GAP = 10.0
PAIR = Shape("panel", rectangle(500, 400), 2)


def test_the_gap_lies_between_pieces_and_not_at_the_edge() -> None:
    # Derived: 40 + 1 + 40 cm fill 81 exactly from edge to edge; in 80.9 the second piece
    # follows the first after 1 cm.
    assert solve(Problem((PAIR,), 810, gap=GAP), kind=LayKind.OPEN).need == pytest.approx(500)
    narrow = solve(Problem((PAIR,), 809, gap=GAP), kind=LayKind.OPEN)
    assert narrow.need == pytest.approx(1010, abs=0.01)


def test_a_pair_keeps_the_gap_across_the_fold() -> None:
    # Derived: opened out the two copies are 1 cm apart about the fold, so half of 81 cm
    # holds 0.5 + 40 cm exactly.
    lay = solve(Problem((PAIR,), 810, gap=GAP), kind=LayKind.FOLDED)
    assert lay.need == pytest.approx(500)
    with pytest.raises(TooNarrowError, match="panel"):
        solve(Problem((PAIR,), 809, gap=GAP), kind=LayKind.FOLDED)
    crossways = solve(Problem((PAIR,), 410, gap=GAP), kind=LayKind.CROSSWAYS)
    assert crossways.need == pytest.approx(1010, abs=0.01)


def test_a_piece_on_the_fold_still_lies_on_it() -> None:
    # Derived: 30 cm from the fold, 1 cm, then 20 cm up to the selvedge: half of 102.
    shapes = (
        Shape("back", rectangle(500, 300), on_fold=True),
        Shape("side", rectangle(500, 200), 2),
    )
    assert solve(Problem(shapes, 1020, gap=GAP), kind=LayKind.FOLDED).need == pytest.approx(500)
    stacked = solve(Problem(shapes, 1018, gap=GAP), kind=LayKind.FOLDED)
    assert stacked.need == pytest.approx(1010, abs=0.01)


def test_single_pieces_begin_a_gap_after_the_two_layers() -> None:
    shapes = (Shape("side", rectangle(900, 300), 2), Shape("yoke", rectangle(200, 900)))
    lay = solve(Problem(shapes, 1000, gap=GAP), kind=LayKind.FOLDED)
    assert lay.need == pytest.approx(900 + 10 + 200, abs=0.01)
    assert lay.folded_to == pytest.approx(900, abs=0.01)


def test_a_remnant_is_filled_to_its_edge() -> None:
    # Derived: 40 + 1 + 40 cm on a remnant of 81 by 50.5.
    outline = rectangle(505, 810)
    problem = Problem((PAIR,), 810, outline=outline, gap=GAP)
    assert solve(problem).need == pytest.approx(500, abs=0.01)


@settings(max_examples=60, deadline=None)
@given(problems(), st.sampled_from([None, *LayKind]), st.sampled_from([0.5, 4.0, 15.0]))
def test_no_two_pieces_lie_nearer_than_the_gap(
    problem: Problem, kind: LayKind | None, gap: float
) -> None:
    wanted = replace(problem, gap=gap)
    try:
        lay = solve(wanted, kind=kind, tries=4)
    except LayError:
        return
    polygons = [Polygon(p.polygon) for p in lay.placements]
    assert all(a.distance(b) >= gap - 0.01 for a, b in combinations(polygons, 2))
    assert lay.need >= lay.bound.length - 1e-6
    opened = solve(wanted, kind=LayKind.OPEN, tries=4)
    assert opened.need <= lay.need + 1e-9


def test_the_checker_sees_a_gap_that_is_too_narrow() -> None:
    lay = solve(Problem((PAIR,), 810, gap=GAP), kind=LayKind.OPEN)
    for gap, legal in ((10.0, True), (10.02, False), (30.0, False), (0.0, True)):
        faults = check(Problem((PAIR,), 810, gap=gap), lay)
        assert (faults == ()) == legal
        assert legal or "nearer than" in faults[0]


@pytest.mark.parametrize("gap", [-1.0, 101.0, float("nan"), float("inf")])
def test_a_gap_that_is_none_is_refused(gap: float) -> None:
    with pytest.raises(LayError, match="no gap"):
        solve(Problem((PAIR,), 810, gap=gap))


@settings(max_examples=80, deadline=None)
@given(rings(), st.sampled_from([3, 50, 400]))
def test_a_grown_ring_holds_everything_that_near(
    ring: tuple[tuple[float, float], ...], by: int
) -> None:
    whole = tuple((round(x * 10), round(y * 10)) for x, y in ring)
    outer = Polygon(grown(whole, by))
    assert outer.is_valid
    inner = Polygon(whole)
    assert inner.buffer(by).difference(outer.buffer(2)).area < 1
    for x, y in outer.exterior.coords:  # and a corner stands out by twice the distance at most
        assert inner.distance(Point(x, y)) <= 2 * by + 2
