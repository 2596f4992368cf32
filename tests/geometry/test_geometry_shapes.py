"""Rings, convex parts, sums and no-fit regions, against shapely as the reference library."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st
from shapely.affinity import translate
from shapely.geometry import Point, Polygon
from shapely.ops import unary_union

from stash.geometry.convex import convex_parts, convex_sum, is_convex
from stash.geometry.nofit import no_fit, strictly_inside
from stash.geometry.ring import (
    IntRing,
    anticlockwise,
    bounds,
    clean,
    mirror,
    open_out,
    perimeter,
    signed_area,
    turn,
)
from stash.geometry.simplify import simplify_outward


@st.composite
def stars(draw: st.DrawFn, most: int = 12, size: int = 2000) -> IntRing:
    """Simple rings of whole numbers with hollows: points around a centre, sorted by angle."""
    radii = draw(st.lists(st.integers(size // 10, size), min_size=3, max_size=most))
    step = 2 * math.pi / len(radii)
    points = [
        (round(r * math.cos(i * step)), round(r * math.sin(i * step))) for i, r in enumerate(radii)
    ]
    ring = clean(tuple(points))
    assume(len(ring) >= 3 and Polygon(ring).is_valid and signed_area(ring) > 10)
    return ring


@given(stars())
def test_area_bounds_and_perimeter_agree_with_shapely(ring: IntRing) -> None:
    polygon = Polygon(ring)
    assert signed_area(ring) == pytest.approx(polygon.area)
    assert bounds(ring) == pytest.approx(polygon.bounds)
    assert perimeter(ring) == pytest.approx(polygon.length)


@given(stars())
def test_mirror_and_turns_keep_the_area_and_the_direction(ring: IntRing) -> None:
    for changed in (mirror(ring), turn(ring, 90), turn(ring, 180), turn(mirror(ring), 270)):
        assert signed_area(changed) == signed_area(ring)
    assert turn(turn(ring, 180), 180) == ring
    assert mirror(mirror(ring)) == ring


def test_a_turn_by_45_degrees_is_a_rotation() -> None:
    [corner] = [p for p in turn(((0, 0), (1000, 0), (0, 10)), 45) if p[0] > 100]
    assert corner == pytest.approx((707, 707))  # 1000 x cos 45 degrees


def test_clean_drops_repeats_straight_points_and_spikes() -> None:
    messy = ((0, 0), (0, 0), (0, 10), (10, 10), (10, 5), (10, 0), (14, 0), (5, 0))
    assert clean(messy) == anticlockwise(((0, 0), (0, 10), (10, 10), (10, 0)))
    assert len(clean(((0, 0), (5, 0), (9, 0)))) < 3


def test_opening_out_doubles_the_area_and_loses_the_fold() -> None:
    half = ((0, 0), (100, 0), (100, 30), (0, 40))
    whole = open_out(half)
    assert signed_area(whole) == 2 * signed_area(half)
    assert bounds(whole) == (0, -40, 100, 40)
    edges = zip(whole, whole[1:] + whole[:1], strict=True)
    assert not any(a[1] == b[1] == 0 for a, b in edges)
    with pytest.raises(ValueError, match="fold"):
        open_out(((0, 1), (100, 1), (50, 30)))


@given(stars())
def test_convex_parts_cover_the_ring_exactly(ring: IntRing) -> None:
    parts = convex_parts(ring)
    assert all(is_convex(part) for part in parts)
    assert sum(signed_area(part) for part in parts) == pytest.approx(signed_area(ring))
    assert unary_union([Polygon(p) for p in parts]).symmetric_difference(
        Polygon(ring)
    ).area == pytest.approx(0, abs=1e-6 * signed_area(ring))


def test_sum_of_two_squares_is_the_square_of_both_sides() -> None:
    # de Berg et al., Computational Geometry, 3rd ed., section 13.3: edges merge by angle.
    square = ((0, 0), (10, 0), (10, 10), (0, 10))
    assert clean(convex_sum(square, square)) == ((0, 0), (20, 0), (20, 20), (0, 20))


@given(stars(most=9), stars(most=9), st.integers(-4000, 4000), st.integers(-4000, 4000))
def test_no_fit_region_says_overlap_exactly_when_shapely_does(
    a: IntRing, b: IntRing, dx: int, dy: int
) -> None:
    shared = Polygon(a).intersection(translate(Polygon(b), dx, dy)).area
    assume(shared == 0 or shared > 50)  # whole-number rounding decides a touch
    inside = strictly_inside(no_fit(a, b), dx, dy)
    if inside:
        # Rounding moves the region by at most one unit along its boundary.
        assert Polygon(a).distance(translate(Polygon(b), dx, dy)) <= 1.5
    else:
        assert shared <= 2 * (Polygon(a).length + Polygon(b).length)


def test_a_small_piece_may_lie_in_the_hollow_of_a_large_one() -> None:
    ring = ((0, 0), (100, 0), (100, 100), (0, 100), (0, 60), (80, 60), (80, 40), (0, 40))
    plug = ((0, 0), (10, 0), (10, 10), (0, 10))
    assert not strictly_inside(no_fit(ring, plug), 30, 45)
    assert strictly_inside(no_fit(ring, plug), 30, 35)


STAR = (
    *((3000, 0), (12748, 12748), (0, 3000), (-10982, 10982)),
    *((-15681, 0), (-19079, -19079), (0, -3000), (2121, -2121)),
)
"""Two of its edges, run on until they meet, meet past an end of the edge between them."""


@example(STAR, 3000)
@given(stars(most=16, size=30_000), st.sampled_from([50, 500, 3000]))
def test_simplified_outline_covers_the_real_one_and_stays_near(ring: IntRing, most: int) -> None:
    simple = simplify_outward(ring, most)
    assert len(simple) <= len(ring)
    assert bounds(simple) == bounds(ring)
    outer, inner = Polygon(simple), Polygon(ring)
    assert outer.is_valid
    assert inner.difference(outer).area <= 1e-6 * inner.area
    assert all(Point(p).distance(inner) <= most + 2 for p in simple)


def test_a_very_finely_drawn_outline_is_simplified_and_still_covered() -> None:
    ring = tuple(
        (round(3e6 * math.cos(k * math.tau / 9000)), round(2e6 * math.sin(k * math.tau / 9000)))
        for k in range(9000)
    )
    simple = simplify_outward(ring, 30_000)
    assert len(simple) < 60
    assert bounds(simple) == bounds(ring)
    assert Polygon(ring).difference(Polygon(simple)).area <= 1e-9 * Polygon(ring).area
    assert all(Point(p).distance(Polygon(ring)) <= 30_000 for p in simple)
