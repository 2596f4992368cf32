"""How deep outlines lie in each other: against shapely, and kept up without drifting."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import array_shapes, arrays
from lay_shapes import problems, rectangle, rings
from shapely.affinity import translate
from shapely.geometry import Point, Polygon

from stash.lay.depths import LEEWAY, STEP, depths, rasterised, to_outside
from stash.lay.errors import LayError
from stash.lay.fields import Cell, Fields
from stash.lay.forms import FINE, Form, check_widths, sheet_width
from stash.lay.obstacles import strip_of
from stash.lay.open_lay import open_copies
from stash.lay.problem import Problem, Shape, Spot

if TYPE_CHECKING:
    from numpy.typing import NDArray

LEEWAY_MM, STEP_MM = LEEWAY / FINE, STEP / FINE


def form_of(ring: tuple[tuple[float, float], ...]) -> Form:
    return open_copies(Problem((Shape("piece", ring, turns=(0,)),), 2000))[0][0]


def polygon_of(form: Form) -> Polygon:
    return Polygon([(x / FINE, y / FINE) for x, y in form.ring])


def test_two_squares_lie_in_each_other_as_deep_as_they_must_be_moved() -> None:
    """Two of 100 mm: 20 mm apart along they are 80 mm deep, and 60 mm apart across 40 mm.

    The nearest point outside the region, which is smaller by the leeway, lies at most a step
    beyond its edge.
    """
    square = form_of(rectangle(100, 100))
    deep = depths(square.ring, square.ring)
    for along, across, mm in ((0, 0, 100), (2, 0, 80), (2, 6, 40), (-9, 0, 10), (0, 9, 10)):
        reached = deep.at(along, across) ** 2 * STEP_MM
        assert reached == pytest.approx(mm - LEEWAY_MM, abs=STEP_MM)
    for along, across in ((10, 0), (0, -10), (10, 10), (40, 0)):
        assert deep.at(along, across) == 0


@given(arrays(np.bool_, array_shapes(min_dims=2, max_dims=2, max_side=9)))
def test_steps_to_the_outside_are_counted_both_ways(inside: NDArray[np.bool_]) -> None:
    """Beside counting them one by one; beyond the last place is outside."""
    padded = np.pad(inside, 1)
    for axis in (0, 1):
        counted = to_outside(inside, axis)
        for place in np.ndindex(inside.shape):
            line = np.take(padded, place[1 - axis] + 1, axis=1 - axis)
            here = place[axis] + 1
            away = [abs(k - here) for k in range(len(line)) if not line[k]]
            assert counted[place] == min(away)


@settings(max_examples=60, deadline=None)
@given(rings(), rings(), st.data())
def test_only_what_overlaps_has_a_depth(
    one: tuple[tuple[float, float], ...],
    other: tuple[tuple[float, float], ...],
    data: st.DataObject,
) -> None:
    """By shapely: where there is a depth they overlap; where there is none, both made smaller by
    half of the leeway do not."""
    fixed, moved = form_of(one), form_of(other)
    deep = depths(fixed.ring, moved.ring)
    x, y = data.draw(st.integers(-65, 65)), data.draw(st.integers(-65, 65))
    there = translate(polygon_of(moved), x * STEP_MM, y * STEP_MM)
    if deep.at(x, y) > 0:
        assert polygon_of(fixed).intersection(there).area > 0
    else:
        smaller = [p.buffer(-LEEWAY_MM / 2 - 0.01) for p in (polygon_of(fixed), there)]
        assert smaller[0].intersection(smaller[1]).area == 0


@settings(max_examples=60, deadline=None)
@given(rings(), rings())
def test_exchanged_depths_are_those_of_the_other(
    one: tuple[tuple[float, float], ...], other: tuple[tuple[float, float], ...]
) -> None:
    fixed, moved = form_of(one), form_of(other)
    straight, back = depths(fixed.ring, moved.ring), depths(moved.ring, fixed.ring).exchanged()
    for x in range(-60, 61, 7):
        for y in range(-60, 61, 7):
            # A point of the grid on the very edge may be counted on either side.
            assert straight.at(x, y) == pytest.approx(back.at(x, y), abs=0.75)


@settings(max_examples=60, deadline=None)
@given(rings(), st.floats(0.2, 0.6))
def test_points_are_inside_as_shapely_says(
    ring: tuple[tuple[float, float], ...], share: float
) -> None:
    """A ring with a hole of its own shape; points on an edge count on either side."""
    whole = np.array(ring) / 10 + 35.1
    middle = whole.mean(axis=0)
    hole = middle + (whole - middle) * share
    assume(Polygon(whole).contains(Polygon(hole)))
    ground = Polygon(whole, [hole])
    inside = rasterised([whole, hole[::-1]], 71, 71)
    for x in range(0, 71, 3):
        for y in range(0, 71, 3):
            if ground.boundary.distance(Point(x, y)) > 1e-6:
                assert inside[x, y] == ground.contains(Point(x, y))


@settings(max_examples=30, deadline=None)
@given(problems(), st.data(), st.booleans())
def test_fields_that_are_kept_up_are_those_made_anew(
    problem: Problem, data: st.DataObject, flawed: bool
) -> None:
    """After moves, other weights and shorter lengths; and at every place the field of a form says
    how much it overlaps there, by the depths of pair after pair."""
    gap = data.draw(st.sampled_from([0.0, 25.0]))
    spots = (Spot(90, 60, 25),) if flawed else ()
    problem = Problem(problem.shapes, problem.width, spots=spots, gap=gap)
    copies = open_copies(problem)
    try:
        check_widths(problem, copies, sheet_width(problem))
    except LayError:
        return
    fitting = [[form for form in forms if form.across <= sheet_width(problem)] for forms in copies]
    strip, length = strip_of(problem), 1500 * FINE
    every = [form for forms in fitting for form in forms]
    kept = Fields(strip, every)
    for _ in range(4):
        length -= data.draw(st.integers(0, 30)) * FINE
        new = Fields(strip, every)
        kept.shorten(length)
        new.shorten(length)
        cells = [
            Cell(form, data.draw(st.integers(0, along - 1)), data.draw(st.integers(0, across - 1)))
            for form in (data.draw(st.sampled_from(forms)) for forms in fitting)
            for along, across in [kept.places(form)]
        ]
        eighths = st.integers(0, 400).map(lambda parts: parts / 8)
        weights = [data.draw(eighths) for _ in range(len(cells) + 1)]
        number = data.draw(st.integers(0, len(cells) - 1))
        here = cells[number].form
        alike = tuple(
            form
            for form in fitting[number]
            if (form.length, form.across) == (here.length, here.across)
        )
        fields = kept.field(number, alike, cells, weights)
        assert np.array_equal(fields, new.field(number, alike, cells, weights))
        assert fields.shape == (len(alike), *kept.places(here))
        weights[number] = 0.0
        _, along, across = fields.shape
        places = {(x, y) for x in (0, along - 1) for y in (0, across - 1)}
        places |= {(data.draw(st.integers(0, along - 1)), y) for y in range(0, across, 5)}
        for form, field in zip(alike, fields, strict=True):
            for x, y in places:
                overlaps = kept.overlaps(Cell(form, x, y), cells)
                sums = [weight * deep for weight, deep in zip(weights, overlaps, strict=True)]
                assert field[x, y] == math.fsum(sums)
