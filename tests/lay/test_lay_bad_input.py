"""Every bad outline gets one clear sentence that names the piece and the way out."""

from __future__ import annotations

import math

import pytest
from lay_shapes import rectangle

from stash.lay.errors import BadOutlineError, LayError, TooNarrowError
from stash.lay.problem import LayKind, Problem, Shape
from stash.lay.solve import solve

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
        (Shape("none", rectangle(100, 100), copies=0), "no times"),
        (Shape("half", ((0, 5), (100, 9), (100, 80), (0, 80)), on_fold=True), "no straight edge"),
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


@pytest.mark.parametrize("width", [0, -20, math.nan, math.inf])
def test_a_width_that_is_none_is_refused(width: float) -> None:
    with pytest.raises(LayError, match="wide"):
        solve(Problem((Shape("a", rectangle(10, 10)),), width))


def test_nothing_to_lay_is_said() -> None:
    with pytest.raises(LayError, match="nothing to lay"):
        solve(Problem((), 1400))


def test_clockwise_repeated_points_and_very_many_points_are_repaired() -> None:
    clockwise = rectangle(300, 200)[::-1]
    repeated = ((0, 0), (0, 0), (300, 0), (300, 200), (300, 200), (0, 200))
    for ring in (clockwise, repeated):
        assert solve(Problem((Shape("panel", ring),), 1400)).need == pytest.approx(
            200, abs=0.01
        ) or (solve(Problem((Shape("panel", ring),), 1400)).need == pytest.approx(300, abs=0.01))
    lay = solve(Problem((Shape("disc", CIRCLE, 2),), 1400))
    assert 600 <= lay.need <= 601
