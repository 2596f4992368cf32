"""Descents: shorter and legal rows, repeatable, and another where one leads no further."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from hypothesis import given, settings
from hypothesis import strategies as st
from lay_rows import faults, first_row
from lay_shapes import KITES, problems, rectangle

from stash.lay.bounds import bound_of, least_length
from stash.lay.descents import IN_VAIN, Descents
from stash.lay.effort import Effort
from stash.lay.forms import FINE, sheet_width
from stash.lay.obstacles import strip_of
from stash.lay.open_lay import open_copies
from stash.lay.problem import Problem, Shape
from stash.lay.separate import Separation
from stash.lay.table import Item, Placed, length_of

if TYPE_CHECKING:
    import pytest

Row = tuple[Placed, ...]


def looked(problem: Problem, seed: int, looks: int = 4) -> list[Row]:
    """The first row by a single try, and the best after each look; none where there is no room."""
    first = first_row(problem)
    if not first:
        return []
    copies = open_copies(problem)
    least = least_length(bound_of(copies, sheet_width(problem)))
    descents, rows = Descents(strip_of(problem), tuple(map(Item, copies)), seed), [first]
    for _ in range(looks):
        effort = Effort(tries=300, enough=least)
        row, tries = descents.look(rows[-1], length_of(rows[-1]), effort)
        assert row is not None or tries >= 300
        rows.append(row or rows[-1])
    return rows


@settings(max_examples=30, deadline=None)
@given(problems(), st.integers(0, 10_000))
def test_what_descents_find_is_legal_and_shorter(problem: Problem, seed: int) -> None:
    rows = looked(problem, seed)
    for before, row in pairwise(rows):
        assert row == before or length_of(row) < length_of(before)
        assert faults(problem, row) == ()


def test_descents_are_repeatable() -> None:
    assert looked(KITES, 5) == looked(KITES, 5)


def test_after_beginnings_in_vain_it_goes_on_from_anywhere_and_comes_back(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Two squares side by side on the cloth that just holds them cannot be laid shorter: from
    the best, from anywhere with more room, and what that leads to, over and over."""
    square = Problem((Shape("square", rectangle(400, 400), 2, turns=(0,)),), 800)
    items = tuple(map(Item, open_copies(square)))
    best = first_row(square)
    assert best
    assert length_of(best) == 400 * FINE
    starts: list[tuple[Row | None, int]] = []
    real = Separation.look

    def noted(
        self: Separation, start: Row | None, length: int, effort: Effort
    ) -> tuple[Row | None, int]:
        starts.append((start, length))
        return real(self, start, length, effort)

    monkeypatch.setattr(Separation, "look", noted)
    descents = Descents(strip_of(square), items, 1)
    row, _ = descents.look(best, 400 * FINE, Effort(tries=20_000))
    assert row is None
    assert [start for start, _ in starts[:IN_VAIN]] == [best] * IN_VAIN
    assert {length for _, length in starts[:IN_VAIN]} == {400 * FINE}
    assert starts[IN_VAIN] == (None, 416 * FINE)
    assert starts[IN_VAIN:].count((best, 400 * FINE)) >= IN_VAIN
