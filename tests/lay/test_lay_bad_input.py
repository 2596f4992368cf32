"""Every bad outline gets one clear sentence that names the piece and the way out."""

from __future__ import annotations

import math
from dataclasses import replace
from random import Random
from typing import TYPE_CHECKING

import pytest
from lay_shapes import rectangle
from shapely.geometry import Polygon, box

from stash.lay.errors import BadOutlineError, LayError, NoRoomError, TooNarrowError
from stash.lay.forms import FINE, forms_of
from stash.lay.problem import LayKind, Problem, Repeat, Shape, Spot
from stash.lay.solve import solve

if TYPE_CHECKING:
    from collections.abc import Callable

BOW = ((0, 0), (200, 200), (200, 0), (0, 200))
CIRCLE = tuple(
    (300 * math.cos(k * math.tau / 10_000), 300 * math.sin(k * math.tau / 10_000))
    for k in range(10_000)
)


@pytest.mark.parametrize(
    ("shape", "words"),
    [
        (Shape("bow", BOW), "crosses or touches itself"),
        (Shape("line", ((0, 0), (100, 0))), "fewer than three"),
        (Shape("flat", ((0, 0), (100, 0), (200, 0))), "crosses or touches|no area"),
        (Shape("crumb", rectangle(3, 2)), "only 3.0 mm long"),
        (Shape("sail", rectangle(30_000, 500)), "30.0 m long"),
        (Shape("void", ((0, 0), (math.nan, 0), (3, 4))), "infinity"),
        (Shape("far", ((0, 0), (1e300, 0), (3, 4))), "over a kilometre long"),
        (Shape("gap in it", ((0, 0), (math.inf, 0), (3, 4))), "infinity"),
        (Shape("none", rectangle(100, 100), copies=0), "no times"),
        (Shape("debt", rectangle(100, 100), copies=-2), "no times"),
        (Shape("swarm", rectangle(100, 100), copies=1_000_000), "cut 1000000 times"),
        (Shape("pinched", ((0, 0), (90, 0), (90, 90), (45, 0), (0, 90))), r"near 45\.0 x 0\.0 mm"),
        (Shape("spike", ((0, 0), (9, 0), (19, 0), (9, 0), (9, 9), (0, 9))), "touches itself"),
        (Shape("thread", rectangle(6000, 0.0004), 2), "no area"),
        (Shape("tape", rectangle(300, 0.04), on_fold=True), "no area"),
        (Shape("stuck", rectangle(300, 40), turns=()), "in no direction"),
        (Shape("half", ((0, 5), (100, 9), (100, 80), (0, 80)), on_fold=True), "no straight edge"),
        (
            Shape("bent", ((0, 0), (100, 0.3), (100, 80), (0, 80)), on_fold=True),
            "no straight edge",
        ),
        (
            Shape("point", ((0, 0), (100, 80), (0, 80)), on_fold=True),
            "no straight edge",
        ),
        (
            Shape(
                "comb",
                ((0, 0), (40, 0), (50, 20), (60, 0), (100, 0), (100, 80), (0, 80)),
                on_fold=True,
            ),
            "more than one place",
        ),
    ],
)
def test_an_outline_that_is_no_piece_is_named(shape: Shape, words: str) -> None:
    with pytest.raises(BadOutlineError, match=words) as caught:
        solve(Problem((shape,), 1400))
    assert shape.name in caught.value.message
    assert caught.value.hint


@pytest.mark.parametrize("kind", [None, *LayKind])
def test_a_piece_wider_than_the_cloth_is_named(kind: LayKind | None) -> None:
    problem = Problem((Shape("skirt front", rectangle(600, 950)),), 900)
    with pytest.raises(TooNarrowError, match=r"skirt front is 95\.0 cm across .* only 90\.0 cm"):
        solve(problem, kind=kind)


def test_a_pair_wider_than_the_folded_half_can_still_lie_open() -> None:
    problem = Problem((Shape("cape", rectangle(900, 800), 2),), 1400, nap=True)
    with pytest.raises(TooNarrowError):
        solve(problem, kind=LayKind.FOLDED)
    assert solve(problem).kind is LayKind.OPEN


PANEL = Shape("panel", rectangle(300, 200))
SQUARE = rectangle(900, 900)


@pytest.mark.parametrize(
    ("cloth", "words"),
    [
        (Problem((PANEL,), 900, outline=BOW), r"outline of this remnant crosses .* near 100\.0"),
        (Problem((PANEL,), 900, outline=SQUARE[:2]), "remnant has 2 corners"),
        (Problem((PANEL,), 900, outline=((0, 0), (9, 0), (5, 0))), "remnant crosses"),
        (Problem((PANEL,), 900, outline=((0, 0), (math.nan, 0), (9, 9))), "on no cloth"),
        (Problem((PANEL,), 900, outline=CIRCLE), "remnant has 10000 corners"),
        (Problem((PANEL,), 900, patches=(SQUARE, BOW)), "Flaw 2 .* crosses"),
        (Problem((PANEL,), 900, patches=(((0, 0), (math.inf, 0), (9, 9)),)), "on no cloth"),
        (Problem((PANEL,), 900, outline=rectangle(10_000, 0.0003)), "encloses nothing"),
        (Problem((PANEL,), 900, patches=(rectangle(10_000, 0.0003),)), "encloses nothing"),
        (Problem((PANEL,), 900, repeat=Repeat(13_000)), "1300 x 0 cm is no repeat"),
        (Problem((PANEL,), 900, spots=(Spot(math.nan, 5, 5),)), "flaw at nan x 0.5 cm"),
        (Problem((PANEL,), 900, spots=(Spot(5, math.inf, 5),)), "flaw at 0.5 x inf cm"),
        (Problem((PANEL,), 900, spots=(Spot(5, 5, 0),)), "radius of 0 cm"),
        (Problem((PANEL,), 900, spots=(Spot(5, 5, -3),)), "radius of -0.3 cm"),
        (Problem((PANEL,), 900, spots=(Spot(5, 5, math.nan),)), "radius of nan cm"),
    ],
)
def test_a_cloth_that_is_none_is_refused_in_words(cloth: Problem, words: str) -> None:
    with pytest.raises(LayError, match=words) as caught:
        solve(cloth)
    assert caught.value.hint


@pytest.mark.parametrize("radius", [1e-9, 1e-4, 4e-4, 1e-3, 1e-2])
def test_a_flaw_as_small_as_a_pinprick_is_kept_clear(radius: float) -> None:
    """In the middle of the pieces' only place: they lie 30 cm apart at least, half on each side."""
    lay = solve(Problem((PANEL,), 200, spots=(Spot(100, 100, radius),)))
    assert 400 - 0.01 <= lay.need <= 400.01


def test_a_remnant_may_be_drawn_either_way_round_and_closed_twice() -> None:
    for outline in (SQUARE, SQUARE[::-1], (*SQUARE, SQUARE[0])):
        assert solve(Problem((PANEL,), 900, outline=outline)).need <= 300.01


def test_more_than_a_remnant_holds_names_a_piece_and_the_way_out() -> None:
    with pytest.raises(NoRoomError, match=r"no room .* for panel") as caught:
        solve(Problem((replace(PANEL, copies=20),), 900, outline=SQUARE))
    assert "larger cloth" in caught.value.hint


@pytest.mark.parametrize(
    "edge",
    [
        ((0, 0), (400, 0)),
        ((0, 0), (130, 0), (400, 0)),  # points along it
        ((0, 0), (0, 0), (400, 0), (400, 0)),
        ((0, 0.04), (400, -0.03)),  # a hair off the line
        ((0, -0.02), (130, 0.04), (260, 0), (400, 0.03)),
    ],
)
@pytest.mark.parametrize("kind", [LayKind.OPEN, LayKind.FOLDED])
def test_a_fold_edge_may_be_drawn_carelessly(
    edge: tuple[tuple[float, float], ...], kind: LayKind
) -> None:
    half = Shape("back", (*edge, (400, 250), (0, 250)), on_fold=True)
    lay = solve(Problem((half,), 500), kind=kind)
    assert lay.need == pytest.approx(400, abs=0.01)
    [back] = lay.placements
    assert Polygon(back.polygon).equals(box(0, 0, 400, 500))


@pytest.mark.parametrize("width", [0, -20, math.nan, math.inf, 1e9])
def test_a_width_that_is_none_is_refused(width: float) -> None:
    with pytest.raises(LayError, match="wide"):
        solve(Problem((Shape("a", rectangle(10, 10)),), width))


def test_nothing_to_lay_is_said() -> None:
    with pytest.raises(LayError, match="nothing to lay"):
        solve(Problem((), 1400))


def test_clockwise_and_repeated_points_are_repaired() -> None:
    clockwise = rectangle(300, 200)[::-1]
    repeated = ((0, 0), (0, 0), (300, 0), (300, 200), (300, 200), (0, 200))
    for ring in (clockwise, repeated):
        lay = solve(Problem((Shape("panel", ring),), 250))
        assert lay.need == pytest.approx(300, abs=0.01)


def drawn(radius: Callable[[int], float]) -> tuple[tuple[float, float], ...]:
    """Ten thousand points around a middle."""
    turn = math.tau / 10_000
    radii = [radius(k) for k in range(10_000)]
    return tuple((r * math.cos(k * turn), r * math.sin(k * turn)) for k, r in enumerate(radii))


@pytest.mark.parametrize(
    "radius",
    [
        lambda k: 300.0,
        lambda k: 300.0 - (k % 2) * 3,  # rough, as a scan
        lambda k: 300.0 if k % 1250 == 0 else 290 + Random(k).uniform(-8, 8),
        lambda k: 300.0 - (k % 2) * 120,  # five thousand slits
    ],
)
def test_ten_thousand_points_are_laid_covered(radius: Callable[[int], float]) -> None:
    ring = drawn(radius)
    lay = solve(Problem((Shape("disc", ring, 2),), 1400), tries=2)
    assert lay.checked
    assert lay.need == pytest.approx(600, abs=0.01)  # side by side: as long as the disc is wide
    assert all(len(p.polygon) == 10_000 for p in lay.placements)
    forms = forms_of(ring, 0, (0,), (False,))
    assert len(forms[0].body) <= 200  # simplified for laying, and never inward
    assert Polygon(forms[0].outline).difference(Polygon(forms[0].body)).area < FINE**2
