"""Rectangles against perfect packings of the literature and against rules of their own.

`perfect` holds categories C1 to C4 of Hopper & Turton, An empirical investigation of
meta-heuristic and heuristic algorithms for a 2D packing problem, EJOR 128(1), 2001: every
problem was made by cutting a sheet up, so the shortest length is the sheet's. Turns by 90
degrees are allowed, as in the paper.
"""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lay_rows import faults
from lay_shapes import TRIANGLE, rectangle

from stash.lay.benchmark import read_instance
from stash.lay.effort import Effort
from stash.lay.forms import FINE
from stash.lay.obstacles import strip_of
from stash.lay.open_lay import open_copies
from stash.lay.problem import Problem, Shape, Spot
from stash.lay.rectangles import Rectangles, only_rectangles
from stash.lay.table import Item, Placed, length_of

PERFECT = Path(__file__).with_name("perfect")
CATEGORIES = {
    "c1": ((20, 20), (16, 17, 16)),
    "c2": ((40, 15), (25, 25, 25)),
    "c3": ((60, 30), (28, 29, 28)),
    "c4": ((60, 60), (49, 49, 49)),
}
"""Width and shortest length of the sheet, and pieces of each problem: table 2 of the paper."""


def rows_of(problem: Problem, tries: int, enough: int = 0) -> tuple[Placed, ...]:
    items = tuple(Item(forms) for forms in open_copies(problem))
    search = Rectangles(strip_of(problem), items, seed=1)
    search.look(Effort(tries=tries, enough=enough))
    row = search.row()
    assert row is not None
    return row


@pytest.mark.parametrize("category", CATEGORIES)
@pytest.mark.parametrize("number", [1, 2, 3])
def test_the_problems_have_the_published_sheets_and_counts(category: str, number: int) -> None:
    data = json.loads((PERFECT / f"{category}p{number}.json").read_text(encoding="utf-8"))
    (width, length), counts = CATEGORIES[category]
    assert data["strip_height"] == width
    assert sum(item["demand"] for item in data["items"]) == counts[number - 1]
    corners = [(item["demand"], item["shape"]["data"][2]) for item in data["items"]]
    assert sum(count * x * y for count, (x, y) in corners) == width * length


@pytest.mark.parametrize("name", ["c1p1", "c1p3", "c2p1", "c2p2"])
def test_a_sheet_cut_up_is_put_together_again(name: str) -> None:
    _, problem, scale = read_instance(PERFECT / f"{name}.json")
    (_, sheet), _ = CATEGORIES[name[:2]]
    row = rows_of(problem, 4000, enough=round(sheet * scale * FINE))
    assert length_of(row) / FINE / scale == pytest.approx(sheet, abs=1e-6)
    assert faults(problem, row) == ()


@pytest.mark.parametrize("name", ["c3p1", "c3p2", "c4p1", "c4p2"])
def test_larger_sheets_come_within_a_twentieth(name: str) -> None:
    _, problem, scale = read_instance(PERFECT / f"{name}.json")
    (_, sheet), _ = CATEGORIES[name[:2]]
    row = rows_of(problem, 300)
    assert sheet <= length_of(row) / FINE / scale + 1e-6 <= 1.05 * sheet + 1e-6
    assert faults(problem, row) == ()


@st.composite
def rectangle_problems(draw: st.DrawFn) -> Problem:
    """Rectangles 1 cm to 40 cm, some several times, with and without a gap between them."""
    sizes = st.integers(10, 400)
    shapes = tuple(
        Shape(
            f"block {k}",
            rectangle(draw(sizes), draw(sizes)),
            draw(st.integers(1, 4)),
            turns=draw(st.sampled_from([(0, 180), (0, 90, 180, 270)])),
        )
        for k in range(draw(st.integers(1, 5)))
    )
    return Problem(shapes, draw(st.integers(400, 900)), gap=draw(st.sampled_from([0.0, 7.0])))


@settings(max_examples=60, deadline=None)
@given(rectangle_problems(), st.integers(1, 40))
def test_every_piece_lies_on_the_cloth_apart_and_repeatably(problem: Problem, tries: int) -> None:
    row = rows_of(problem, tries)
    assert faults(problem, row) == ()
    assert Counter(p.form.shape for p in row) == {
        k: shape.copies for k, shape in enumerate(problem.shapes)
    }
    assert rows_of(problem, tries) == row
    area = sum(p.form.area for p in row) / FINE**2
    assert length_of(row) / FINE >= area / problem.width - 1e-6


def test_only_rectangles_on_plain_cloth_are_laid_so() -> None:
    block = Shape("block", rectangle(300, 200), 2)
    for problem, wanted in [
        (Problem((block,), 900), True),
        (Problem((block, Shape("pennant", TRIANGLE)), 900), False),
        (Problem((block, Shape("bias", rectangle(300, 200), turns=(45,))), 900), False),
        (Problem((block,), 900, spots=(Spot(100, 100, 5),)), False),
        (Problem((block,), 900, outline=rectangle(900, 900)), False),
    ]:
        items = tuple(Item(forms) for forms in open_copies(problem))
        assert only_rectangles(strip_of(problem), items) is wanted
