"""Bounds of lays: lines through pieces as shapely cuts them, and worked lengths."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lay_shapes import rectangle, rings
from shapely.geometry import LineString, Polygon

from stash.lay.bounds import _chords, bound_of
from stash.lay.forms import sheet_width
from stash.lay.open_lay import open_copies
from stash.lay.problem import Problem, Shape

LEG = ((0, 0), (1000, 0), (1000, 100), (700, 100), (700, 400), (0, 400))


@settings(max_examples=100)
@given(rings(), st.lists(st.integers(-3000, 3000), min_size=1, max_size=5))
def test_lines_inside_a_ring_are_as_long_as_shapely_cuts_them(
    ring: tuple[tuple[float, float], ...], tenths: list[int]
) -> None:
    """Between the points: on one, either side counts."""
    corners = {round(10 * x) for x, _ in ring}
    places = np.array([t / 10 + (0.05 if t in corners else 0) for t in tenths])
    ends = np.array(ring)
    found = _chords(np.roll(ends, 1, axis=0), ends, places)
    for u, chord in zip(places, found, strict=True):
        cut = Polygon(ring).intersection(LineString([(u, -1000), (u, 1000)]))
        assert chord == pytest.approx(cut.length, abs=1e-6)


@pytest.mark.parametrize(
    ("shape", "width", "least", "reason"),
    [
        (Shape("band", rectangle(1000, 300), 2), 650.0, 1000.0, "the longest piece"),
        (Shape("band", rectangle(1000, 300), 2), 500.0, 2000.0, "side by side"),
        (Shape("band", rectangle(100, 300), 9), 650.0, 9 * 300 * 100 / 650, "area"),
        # 400 across for 700 of its length: two on 500 pass each other only where both are 100.
        (Shape("leg", LEG, 2, turns=(0,)), 500.0, 1400.0, "side by side"),
    ],
)
def test_worked_bounds(shape: Shape, width: float, least: float, reason: str) -> None:
    """Worked by hand."""
    problem = Problem((shape,), width)
    bound = bound_of(open_copies(problem), sheet_width(problem))
    assert reason in bound.why
    assert bound.length == pytest.approx(least, rel=0.02)
