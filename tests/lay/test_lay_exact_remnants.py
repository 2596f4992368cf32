"""Pieces just as long and as wide as the remnant they are cut from: there is room, by proof."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lay_raster import raster_faults
from lay_shapes import rectangle, rings
from shapely.affinity import rotate
from shapely.geometry import Polygon

from stash.lay.errors import NoRoomError
from stash.lay.problem import Problem, Shape
from stash.lay.solve import solve

TURNS = ((0, 180), (90, 270), (45, 225), (30, 210))
sizes = st.floats(60, 900).map(lambda mm: round(mm, 4))


def laid_on_its_own_bounds(shape: Shape) -> None:
    turned = rotate(Polygon(shape.outline), shape.turns[0], origin=(0, 0))
    left, low, right, high = turned.bounds
    width = math.ceil(high - low)
    problem = Problem((shape,), width, outline=rectangle(right - left, width))
    lay = solve(problem)
    assert lay.need == pytest.approx(right - left, abs=0.002)
    assert raster_faults(problem, lay) == ()


@settings(max_examples=40, deadline=None)
@given(sizes, sizes, st.sampled_from(TURNS))
def test_a_rectangle_fits_a_remnant_as_long_as_it_is(
    length: float, across: float, turns: tuple[int, ...]
) -> None:
    laid_on_its_own_bounds(Shape("panel", rectangle(length, across), turns=turns))


@settings(max_examples=40, deadline=None)
@given(rings(), st.sampled_from(TURNS))
def test_any_piece_fits_a_remnant_as_long_as_it_is(
    ring: tuple[tuple[float, float], ...], turns: tuple[int, ...]
) -> None:
    laid_on_its_own_bounds(Shape("yoke", ring, turns=turns))


def test_a_hair_too_long_is_too_long() -> None:
    with pytest.raises(NoRoomError):
        solve(Problem((Shape("panel", rectangle(500, 200)),), 300, outline=rectangle(499.99, 300)))


def test_a_bay_just_as_wide_as_the_piece() -> None:
    # A 30 cm deep bay 10 cm across between two arms; the arms are 10 cm each.
    bay = ((0, 0), (200, 0), (200, 100), (500, 100), (500, 200), (200, 200), (200, 300), (0, 300))
    problem = Problem((Shape("strap", rectangle(500, 100)),), 300, outline=bay)
    lay = solve(problem)
    assert lay.need == pytest.approx(500, abs=0.002)
    assert {round(y) for _, y in lay.placements[0].polygon} == {100, 200}
    assert raster_faults(problem, lay) == ()
