"""Shapes the lay tests share."""

from __future__ import annotations

import math

from hypothesis import assume
from hypothesis import strategies as st
from shapely.geometry import Polygon

from stash.lay.problem import LayKind, Problem, Shape, Spot

Ring = tuple[tuple[float, float], ...]


def rectangle(length: float, across: float) -> Ring:
    return ((0, 0), (length, 0), (length, across), (0, across))


TRIANGLE: Ring = ((0, 0), (900, 300), (0, 600))
KITES = Problem(
    (
        Shape("kite", ((0, 150), (200, 0), (700, 150), (200, 300)), 6),
        Shape("step", ((0, 0), (400, 0), (400, 120), (150, 120), (150, 380), (0, 380)), 4),
    ),
    1100,
)


@st.composite
def rings(draw: st.DrawFn) -> Ring:
    """Simple rings in mm, 4 cm to 60 cm, often with hollows."""
    radii = draw(st.lists(st.integers(20, 300), min_size=3, max_size=9))
    step = 2 * math.pi / len(radii)
    ring = tuple(
        (round(r * math.cos(i * step), 1), round(r * math.sin(i * step), 1))
        for i, r in enumerate(radii)
    )
    assume(Polygon(ring).is_valid and Polygon(ring).area > 100)
    return ring


@st.composite
def halves(draw: st.DrawFn) -> Ring:
    """Halves with their fold edge on y = 0."""
    length = draw(st.integers(100, 500))
    heights = draw(st.lists(st.integers(30, 250), min_size=2, max_size=6))
    step = length / (len(heights) - 1)
    top = [(round(length - i * step, 1), float(h)) for i, h in enumerate(heights)]
    ring = ((0.0, 0.0), (float(length), 0.0), *top)
    assume(Polygon(ring).is_valid)
    return ring


@st.composite
def problems(draw: st.DrawFn) -> Problem:
    """A few shapes of every sort on a cloth that is wide enough for most of them."""
    shapes = []
    for index in range(draw(st.integers(1, 4))):
        if draw(st.booleans()):
            shapes.append(
                Shape(
                    f"piece {index}",
                    draw(rings()),
                    copies=draw(st.integers(1, 3)),
                    mirrored=draw(st.booleans()),
                    turns=draw(st.sampled_from([(0, 180), (90, 270), (0, 90, 180, 270)])),
                )
            )
        else:
            shapes.append(Shape(f"half {index}", draw(halves()), draw(st.integers(1, 2)), True))
    spots = draw(
        st.lists(
            st.builds(Spot, st.integers(0, 900), st.integers(0, 1200), st.integers(3, 60)),
            max_size=2,
        )
    )
    return Problem(
        tuple(shapes), draw(st.integers(650, 1500)), draw(st.booleans()), LayKind.OPEN, tuple(spots)
    )
