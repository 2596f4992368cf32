"""Gate and crossways lays: lengths known by proof, and a checker that sees what is wrong."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from lay_shapes import problems, rectangle

from stash.lay.check import check
from stash.lay.errors import LayError, TooNarrowError
from stash.lay.problem import LayKind, Problem, Shape
from stash.lay.solve import solve

if TYPE_CHECKING:
    from stash.lay.result import Lay

HALVES = (
    Shape("front", rectangle(700, 200), on_fold=True),
    Shape("back", rectangle(700, 250), on_fold=True),
)
HALF_CIRCLE = tuple(
    (450 * math.sin(k * math.pi / 48), 450 * math.cos(k * math.pi / 48)) for k in range(49)
)
"""Straight edge across the cloth: 450 mm along the grain, 900 mm across it."""


def bottom(lay: Lay, name: str) -> list[tuple[float, float]]:
    """Smallest and largest y of every placement of a piece, lowest first."""
    spans = []
    for placement in lay.placements:
        ys = [y for _, y in placement.polygon]
        if placement.name == name:
            spans.append((min(ys), max(ys)))
    return sorted(spans)


def test_two_pieces_on_the_fold_lie_side_by_side_only_in_a_gate_lay() -> None:
    # Derived: on one fold the two fold edges, 70 cm each, are stretches of one line, so no
    # folded lay is shorter than 140 cm. With two folds each has its own: half of 100 cm
    # holds 20 + 25 cm side by side, and no lay is shorter than the piece.
    problem = Problem(HALVES, 1000)
    assert solve(problem, kind=LayKind.FOLDED).need == pytest.approx(1400, abs=0.01)
    lay = solve(problem, kind=LayKind.GATE)
    assert lay.need == pytest.approx(700, abs=0.01)
    low, high = lay.folds
    assert high - low == pytest.approx(500, abs=0.01)
    for name, half in (("front", 200), ("back", 250)):
        [(bottom_y, top_y)] = bottom(lay, name)
        assert top_y - bottom_y == pytest.approx(2 * half)
        assert (bottom_y + top_y) / 2 in (pytest.approx(low), pytest.approx(high))
    assert solve(problem).kind is LayKind.GATE  # as short as the open lay, half the cutting


@pytest.mark.parametrize("pair", [250, 300])
def test_the_meeting_line_leaves_room_for_a_pair_beside_a_piece_on_the_fold(pair: float) -> None:
    # Derived: 120 cm wide, folded to 60. Halves of 15 cm lie one on either fold; the pair
    # needs 25 (or 30) cm beside one of them, 15 + 25 + 15 <= 60 (15 + 30 + 15 = 60 exactly).
    on_fold = tuple(Shape(name, rectangle(900, 150), on_fold=True) for name in ("front", "back"))
    problem = Problem((*on_fold, Shape("sleeve", rectangle(900, pair), 2)), 1200)
    lay = solve(problem, kind=LayKind.GATE)
    assert lay.need == pytest.approx(900, abs=0.01)
    meet = 2 * lay.folds[0]  # where either selvedge lies on the lower layer
    for low, high in bottom(lay, "sleeve"):
        assert high <= meet + 0.01 or low >= meet - 0.01


def test_a_pair_as_wide_as_the_folded_half_leaves_no_place_for_the_meeting_line() -> None:
    # Derived: each strip is narrower than the half, so 50 cm of 100 fits neither.
    problem = Problem((Shape("cape", rectangle(300, 500), 2),), 1000)
    assert solve(problem, kind=LayKind.FOLDED).need == pytest.approx(300, abs=0.01)
    with pytest.raises(LayError, match="selvedges meet"):
        solve(problem, kind=LayKind.GATE)


def test_a_pair_wider_than_half_the_cloth_can_be_cut_double_crossways() -> None:
    # Derived: two layers of 45 cm hold one half circle each and no fold can be nearer; the
    # half of 100 cm is too narrow for 90. Common practice for circle skirts.
    problem = Problem((Shape("half circle", HALF_CIRCLE, 2, turns=(0, 180)),), 1000)
    lay = solve(problem, kind=LayKind.CROSSWAYS)
    assert lay.need == pytest.approx(900, abs=0.01)
    assert lay.cross_fold == pytest.approx(450, abs=0.01)
    assert lay.folds == ()
    one, other = lay.placements
    assert one.mirrored != other.mirrored
    assert {round(x, 2) for x, _ in one.polygon} == {round(900 - x, 2) for x, _ in other.polygon}
    for kind in (LayKind.FOLDED, LayKind.GATE):
        with pytest.raises(
            TooNarrowError, match=r"half circle is 90\.0 cm .* one of the two layers"
        ):
            solve(problem, kind=kind)


@pytest.mark.parametrize("turns", [(90, 270), (45, 135, 225, 315)])
@pytest.mark.parametrize("nap", [False, True])
def test_a_half_whose_grain_runs_across_its_fold_is_opened_out(
    turns: tuple[int, ...], nap: bool
) -> None:
    """At a lengthwise fold its grain would run along: so no kind may put it there."""
    band = Shape("band", rectangle(300, 60), on_fold=True, turns=turns)
    leg = Shape("leg", rectangle(900, 400), copies=2)
    problem = Problem((band, leg), 1000, nap=nap)
    for kind in (None, LayKind.OPEN, LayKind.FOLDED, LayKind.GATE):
        lay = solve(problem, kind=kind)
        assert check(problem, lay) == ()
        [placed] = [p for p in lay.placements if p.name == "band"]
        assert placed.turn in turns
        assert placed.single is (lay.kind is not LayKind.OPEN)


def test_a_half_that_fits_only_when_turned_is_opened_out() -> None:
    # Derived: 70 cm opened out is wider than the cloth of 50 cm, but turned it is 30 cm.
    wide = Shape("wide", rectangle(300, 350), on_fold=True, turns=(0, 90, 180, 270))
    cuff = Shape("cuff", rectangle(200, 250), copies=2)
    problem = Problem((wide, cuff), 500)
    for kind in (LayKind.FOLDED, LayKind.GATE):
        if kind is LayKind.GATE:
            problem = replace(problem, shapes=(wide, replace(cuff, outline=rectangle(200, 120))))
        lay = solve(problem, kind=kind)
        assert lay.need == pytest.approx(200 + 700, abs=0.01)
        [placed] = [p for p in lay.placements if p.name == "wide"]
        assert placed.single


def test_crosswise_on_the_fold_two_pairs_fold_and_the_band_follows() -> None:
    # Derived: the band, opened out, is 12 x 30 cm and lies across: 12 along, 30 across. The
    # legs fill both layers of the folded cloth for 90 cm, so it comes after them.
    band = Shape("band", rectangle(300, 60), on_fold=True, turns=(90, 270))
    leg = Shape("leg", rectangle(900, 500), copies=2)
    lay = solve(Problem((band, leg), 1000), kind=LayKind.FOLDED)
    assert lay.need == pytest.approx(900 + 120, abs=0.01)


def test_a_piece_on_the_fold_is_laid_opened_out_crossways() -> None:
    # Derived: 70 cm wide; the pair takes two layers of 40 cm, the opened-out back is 60 cm
    # across, so beside neither: 80 + 50 at the end, against 2 x 90 with a wasted twin.
    problem = Problem(
        (
            Shape("back", rectangle(500, 300), on_fold=True),
            Shape("side", rectangle(400, 600), 2),
        ),
        700,
    )
    lay = solve(problem, kind=LayKind.CROSSWAYS)
    assert lay.need == pytest.approx(1300, abs=0.01)
    assert lay.folded_to == pytest.approx(800, abs=0.01)
    [back] = [p for p in lay.placements if p.single]
    assert back.on_fold
    assert min(x for x, _ in back.polygon) == pytest.approx(800, abs=0.01)


@pytest.mark.parametrize("kind", [LayKind.GATE, LayKind.CROSSWAYS])
def test_a_small_single_is_cut_double_where_that_is_shorter(kind: LayKind) -> None:
    # Derived: it lies beside the pair on either layer, so its twin costs nothing; an end of
    # its own would cost 20 cm.
    shapes = (Shape("side", rectangle(900, 300), 2), Shape("pocket", rectangle(200, 150)))
    lay = solve(Problem(shapes, 1000), kind=kind)
    assert lay.need == pytest.approx(900 if kind is LayKind.GATE else 1800, abs=0.01)
    assert [p.name for p in lay.placements if p.waste] == ["pocket"]


def test_a_cloth_with_nap_is_never_folded_across() -> None:
    # Common practice: one of the two layers would lie with its nap the other way.
    problem = Problem((Shape("side", rectangle(400, 600), 2),), 700, nap=True)
    with pytest.raises(LayError, match="nap"):
        solve(problem, kind=LayKind.CROSSWAYS)
    assert solve(problem).kind is not LayKind.CROSSWAYS
    lay = solve(replace(problem, nap=False), kind=LayKind.CROSSWAYS)
    assert any("nap" in fault for fault in check(problem, lay))


def test_a_piece_that_may_not_be_turned_is_not_cut_double_crossways() -> None:
    # The twin lies head to foot: a pair that may only lie one way round is cut single.
    problem = Problem((Shape("side", rectangle(400, 300), 2, turns=(0,)),), 700)
    lay = solve(problem, kind=LayKind.CROSSWAYS)
    assert lay.need == pytest.approx(400, abs=0.01)
    assert all(p.single and p.turn == 0 for p in lay.placements)


def test_a_remnant_is_only_laid_open() -> None:
    outline = rectangle(900, 1000)
    for kind in (LayKind.FOLDED, LayKind.GATE, LayKind.CROSSWAYS):
        with pytest.raises(LayError, match="remnant"):
            solve(Problem(HALVES, 1000, outline=outline), kind=kind)


@settings(max_examples=40, deadline=None)
@given(problems())
def test_nap_never_makes_a_gate_lay_shorter(problem: Problem) -> None:
    try:
        with_nap = solve(replace(problem, nap=True), kind=LayKind.GATE, tries=4)
    except LayError:
        return
    assert solve(replace(problem, nap=False), kind=LayKind.GATE, tries=4).need <= with_nap.need


def test_the_checker_sees_a_wrong_gate_lay() -> None:
    shapes = (*HALVES, Shape("side", rectangle(300, 220), 2), Shape("belt", rectangle(60, 900)))
    problem = Problem(shapes, 1000)
    lay = solve(problem, kind=LayKind.GATE)
    assert check(problem, lay) == ()
    low, high = lay.folds
    for folds in ((low,), (low + 5, high), (low + 5, high + 5), (-1.0, 499.0), (500.0, 1000.0), ()):
        assert check(problem, replace(lay, folds=folds)), folds
    assert check(problem, replace(lay, cross_fold=350.0))
    assert check(problem, replace(lay, folded_to=lay.folded_to - 5))
    assert check(problem, replace(lay, folded_to=lay.need))
    assert check(problem, replace(lay, kind=LayKind.FOLDED))
    [belt] = [p for p in lay.placements if p.name == "belt"]
    rest = tuple(p for p in lay.placements if p is not belt)
    assert check(problem, replace(lay, placements=(*rest, replace(belt, single=False))))


def test_the_checker_sees_a_pair_across_the_meeting_line() -> None:
    # Folds at 20 and 70 cm of 100: the selvedges meet at 40. A pair from 35 to 45 cm on the
    # lower layer would be cut in two in the upper one, wherever its twin is said to lie.
    def ring(y: float) -> tuple[tuple[float, float], ...]:
        return tuple((x, y + v) for x, v in rectangle(300, 100))

    problem = Problem((Shape("tab", rectangle(300, 100), 2),), 1000)
    right = solve(problem, kind=LayKind.GATE)
    one, other = right.placements
    for twin in (-50.0, 950.0, 600.0):
        placements = (replace(one, polygon=ring(350)), replace(other, polygon=ring(twin)))
        lay = replace(right, folds=(200.0, 700.0), placements=placements)
        assert any("crosses a line" in fault for fault in check(problem, lay))
    legal = (replace(one, polygon=ring(290)), replace(other, polygon=ring(10)))
    assert check(problem, replace(right, folds=(200.0, 700.0), placements=legal)) == ()


def test_the_checker_sees_a_wrong_crossways_lay() -> None:
    shapes = (Shape("side", rectangle(400, 300), 2), Shape("belt", rectangle(60, 600)))
    problem = Problem(shapes, 700)
    lay = solve(problem, kind=LayKind.CROSSWAYS)
    assert lay.need == pytest.approx(860, abs=0.01)
    assert check(problem, lay) == ()
    for cross_fold in (None, 380.0, 420.0, -1.0):
        assert check(problem, replace(lay, cross_fold=cross_fold)), cross_fold
    assert check(problem, replace(lay, folds=(350.0,)))
    assert check(problem, replace(lay, folded_to=700.0))
    assert check(problem, replace(lay, kind=LayKind.FOLDED))
    one, *rest = lay.placements
    moved = replace(one, polygon=tuple((x, y + 7) for x, y in one.polygon))
    assert check(problem, replace(lay, placements=(moved, *rest)))
    early = tuple(
        replace(p, polygon=tuple((x - 30, y) for x, y in p.polygon)) if p.single else p
        for p in lay.placements
    )
    assert any("single" in fault for fault in check(problem, replace(lay, placements=early)))


def test_an_open_lay_has_no_folds() -> None:
    problem = Problem(HALVES, 1000)
    lay = solve(problem, kind=LayKind.OPEN)
    assert check(problem, replace(lay, folds=(500.0,)))
    assert check(problem, replace(lay, cross_fold=100.0))


def test_outlines_that_differ_by_rounding_only_are_the_same() -> None:
    # Turned by 180 degrees the corners agree to 1e-13 mm, where a plain overlay calls the
    # two triangles disjoint.
    ring = ((172.0, 0.0), (-44.0, 76.2), (-12.0, -20.8))
    problem = Problem((Shape("gusset", ring),), 700)
    lay = solve(problem, kind=LayKind.OPEN)
    turned = ((0.001, 572.059), (216.001, 495.859), (184.001, 592.859))
    placements = (replace(lay.placements[0], polygon=turned, turn=180, mirrored=False),)
    assert check(problem, replace(lay, need=300.0, placements=placements)) == ()
    askew = ((0.001, 572.059), (216.001, 495.9), (184.001, 592.859))
    placements = (replace(placements[0], polygon=askew),)
    assert check(problem, replace(lay, need=300.0, placements=placements))
