"""Short marks on the edge of an outline, judged by shapely."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon

from stash.geometry.edge_tick import edge_tick


@st.composite
def rings(draw: st.DrawFn) -> tuple[tuple[float, float], ...]:
    """Outlines seen whole from their middle, either way round, hollow corners included."""
    count = draw(st.integers(3, 12))
    turns = [2 * math.pi * i / count for i in range(count)]
    reach = [draw(st.floats(30, 300)) for _ in turns]
    ring = [(r * math.cos(t), r * math.sin(t)) for r, t in zip(reach, turns, strict=True)]
    return tuple(ring[::-1] if draw(st.booleans()) else ring)


@settings(max_examples=50)
@given(ring=rings(), share=st.floats(0, 1), at_corner=st.booleans(), off=st.floats(-5, 5))
def test_a_tick_touches_the_edge_and_stays_inside(
    ring: tuple[tuple[float, float], ...], share: float, at_corner: bool, off: float
) -> None:
    piece = Polygon(ring)
    edge = piece.exterior
    place = Point(ring[int(share * (len(ring) - 1))])
    if not at_corner:
        place = edge.interpolate(share, normalized=True)
    near = (place.x + off, place.y + off)
    start, end = edge_tick(ring, near, 8.0)
    assert edge.distance(Point(start)) <= 1e-6
    assert Point(near).distance(Point(start)) == pytest.approx(edge.distance(Point(near)), abs=1e-6)
    assert piece.buffer(1e-6).covers(LineString([start, end]))
    assert 0 < math.dist(start, end) <= 8.0 + 1e-9


def test_a_tick_stands_square_to_its_edge_and_halves_a_corner() -> None:
    square = ((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0))
    for ring in (square, square[::-1]):
        start, end = edge_tick(ring, (40, -3), 8)
        assert start == pytest.approx((40, 0))
        assert end == pytest.approx((40, 8))
        start, end = edge_tick(ring, (100, 100), 8)
        assert start == pytest.approx((100, 100))
        assert end == pytest.approx((100 - math.sqrt(32), 100 - math.sqrt(32)))
