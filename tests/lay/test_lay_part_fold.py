"""Folding in only part of the width: lengths known by proof, and a checker that sees a wrong fold.

Common practice: a selvedge is folded in just as far as the pieces on the fold need, so that
a wide single piece can be cut beside them.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lay_raster import raster_faults
from lay_shapes import Ring, halves, problems, rectangle, rings

from stash.lay.check import check
from stash.lay.doubled import SingleEnd
from stash.lay.effort import Effort
from stash.lay.errors import LayError
from stash.lay.folded_lay import lay_folded
from stash.lay.forms import FINE
from stash.lay.problem import LayKind, Problem, Shape, Spot
from stash.lay.solve import solve

if TYPE_CHECKING:
    from stash.lay.result import Lay

HALVES = tuple(Shape(name, rectangle(700, 200), on_fold=True) for name in ("front", "back"))
"""Both fold edges lie on the one fold line: no folded lay is shorter than 140 cm."""
SASH = Shape("sash", rectangle(1400, 600))
WIDE = Problem((*HALVES, SASH), 1000)


def full(problem: Problem, tries: int) -> float | None:
    """Need of the fold over the whole width, mm; None: it cannot be laid so."""
    effort = Effort(tries=tries)
    try:
        return lay_folded(problem, effort, SingleEnd(problem, effort)).length / FINE
    except LayError:
        return None


def folded(problem: Problem) -> Lay:
    lay = solve(problem, kind=LayKind.FOLDED)
    assert raster_faults(problem, lay) == ()
    return lay


def test_a_wide_single_piece_lies_beside_the_doubled_part() -> None:
    # Derived: 20 cm folded in over 20; of 100 cm 60 stay single, as wide as the sash.
    lay = folded(WIDE)
    assert lay.need == pytest.approx(1400, abs=0.01)
    assert lay.folds == pytest.approx((200,), abs=0.01)
    assert lay.folded_to == pytest.approx(1400, abs=0.01)
    [sash] = [p for p in lay.placements if p.single]
    assert min(y for _, y in sash.polygon) == pytest.approx(400, abs=0.01)
    assert full(WIDE, 24) == pytest.approx(2800, abs=0.01)


@pytest.mark.parametrize(
    ("across", "before"),
    [
        (450, 2100),  # beside nothing on two layers of 50 cm: 140 cm and then 70
        (590, None),  # wider than two layers of 50 cm
    ],
)
def test_a_pair_is_cut_apart_where_that_is_shorter(across: float, before: float | None) -> None:
    # Derived: end to end on the single 60 cm they are as long as the two fold edges.
    problem = Problem((*HALVES, Shape("panel", rectangle(700, across), 2)), 1000)
    lay = folded(problem)
    assert lay.need == pytest.approx(1400, abs=0.01)
    assert [p.mirrored for p in lay.placements if p.single] == [False, True]
    assert full(problem, 24) == (before and pytest.approx(before, abs=0.01))


def test_what_finds_no_room_beside_lies_after_the_fold() -> None:
    # Derived: 100 cm of yoke lie across the whole cloth, before or after the 70 cm of front.
    shapes = (
        HALVES[0],
        Shape("sash", rectangle(700, 600)),
        Shape("yoke", rectangle(300, 1000), turns=(0,)),
    )
    lay = folded(Problem(shapes, 1000))
    assert lay.need == pytest.approx(1000, abs=0.01)
    assert lay.folded_to == pytest.approx(700, abs=0.01)
    assert {p.name for p in lay.placements if p.single} == {"sash", "yoke"}


@pytest.mark.parametrize(("width", "need"), [(820, 700), (818, 1420)])
def test_the_gap_is_kept_beside_the_doubled_part(width: float, need: float) -> None:
    # Derived: 2 x 20 + 2 + 40 = 82 cm; a hair less, and the single piece comes 2 cm after.
    shapes = (HALVES[0], Shape("sash", rectangle(700, 400)))
    assert folded(Problem(shapes, width, gap=20)).need == pytest.approx(need, abs=0.01)


def test_a_flaw_on_either_layer_is_kept_clear() -> None:
    # The fold may lie at 20 cm only: a flaw 35 cm from the edge lies under both halves of it.
    spotted = replace(WIDE, spots=(Spot(50, 350, 10),))
    lay = folded(spotted)
    assert 1460 <= lay.need < 1465  # past the flaw: 60 + 1400, and the sides drawn around it


def test_what_the_fold_over_all_the_width_does_as_well_is_left_so() -> None:
    shapes = (HALVES[0], Shape("side", rectangle(700, 280), 2))
    assert folded(Problem(shapes, 1000)).folds == pytest.approx((500,))


def test_the_checker_sees_a_wrong_part_fold() -> None:
    lay = solve(WIDE, kind=LayKind.FOLDED)
    assert check(WIDE, lay) == ()
    for fold in (0.0, -200.0, 195.0, 205.0, 500.0, 505.0, 800.0):
        assert check(WIDE, replace(lay, folds=(fold,))), fold
    assert check(WIDE, replace(lay, folded_to=1395.0))
    assert check(WIDE, replace(lay, kind=LayKind.GATE))
    [sash] = [p for p in lay.placements if p.single]
    rest = tuple(p for p in lay.placements if p is not sash)
    low = replace(sash, polygon=tuple((x, y - 5) for x, y in sash.polygon))
    faults = check(WIDE, replace(lay, placements=(*rest, low)))
    assert any("cut single where the cloth is folded" in fault for fault in faults)
    assert check(WIDE, replace(lay, placements=(*rest, replace(sash, single=False))))


@pytest.mark.parametrize("fold", [100.0, 160.0, 250.0, 420.0, 500.0])
def test_the_checker_takes_a_fold_at_any_depth(fold: float) -> None:
    # A pair of 10 x 30 cm a side of the fold, and a single piece after both of them.
    shapes = (Shape("tab", rectangle(300, 100), 2), Shape("flap", rectangle(200, 150)))
    problem = Problem(shapes, 1000)
    lay = solve(problem, kind=LayKind.FOLDED)

    def at(x: float, y: float, ring: Ring) -> Ring:
        return tuple((x + a, y + b) for a, b in ring)

    one, other = [p for p in lay.placements if p.name == "tab"]
    flap = next(p for p in lay.placements if p.name == "flap" and not p.waste)
    flat = rectangle(300, 100)
    placements = (
        replace(one, polygon=at(0, fold, flat)),
        replace(other, polygon=at(0, fold - 100, flat)),
        replace(flap, polygon=at(300, 0, rectangle(200, 150)), single=True),
    )
    wanted = replace(lay, placements=placements, folds=(fold,), folded_to=300.0, need=500.0)
    assert check(problem, wanted) == ()
    beside = replace(flap, polygon=at(0, 2 * fold, rectangle(200, 150)), single=True)
    legal = check(problem, replace(wanted, placements=(*placements[:2], beside))) == ()
    assert legal is (2 * fold + 150 <= 1000)


@st.composite
def mixed(draw: st.DrawFn) -> Problem:
    """Pieces on the fold and single ones, with whatever else there may be."""
    more = draw(problems())
    halved = [Shape("half", draw(halves()), draw(st.integers(1, 2)), on_fold=True)]
    single = [Shape("single", draw(rings()), draw(st.sampled_from([1, 1, 3])))]
    shapes = (*halved, *single, *more.shapes[:2])
    return replace(more, shapes=shapes, gap=draw(st.sampled_from([0.0, 0.0, 7.5])))


@settings(max_examples=40, deadline=None)
@given(mixed())
def test_a_folded_lay_is_legal_and_never_longer_than_the_full_fold(problem: Problem) -> None:
    whole = full(problem, 3)
    try:
        lay = solve(problem, kind=LayKind.FOLDED, tries=3)
    except LayError:
        assert whole is None
        return
    assert check(problem, lay) == ()
    assert raster_faults(problem, lay) == ()
    assert lay.need >= lay.bound.length - 1e-6
    assert whole is None or lay.need <= whole + 1e-9
    assert solve(problem, kind=LayKind.OPEN, tries=3).need <= lay.need + 1e-9


@settings(max_examples=25, deadline=None)
@given(mixed())
def test_nap_never_makes_a_part_fold_shorter(problem: Problem) -> None:
    problem = replace(problem, spots=())
    try:
        with_nap = solve(replace(problem, nap=True), kind=LayKind.FOLDED, tries=3)
    except LayError:
        return
    assert solve(replace(problem, nap=False), kind=LayKind.FOLDED, tries=3).need <= with_nap.need
