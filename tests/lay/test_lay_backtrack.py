"""Laying within a given length: legal rows, shorter ones, repeatable; and what room is left."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lay_shapes import problems, rectangle

from stash.geometry.ring import signed_area
from stash.lay.backtrack import Backtrack
from stash.lay.bounds import bound_of, least_length
from stash.lay.check import check
from stash.lay.effort import Effort
from stash.lay.errors import LayError
from stash.lay.forms import FINE, sheet_width
from stash.lay.ground import covers
from stash.lay.obstacles import strip_of
from stash.lay.open_lay import lay_open, open_copies, open_placements
from stash.lay.problem import LayKind, Problem, Shape, Spot
from stash.lay.room import Cloth, Room
from stash.lay.solve import unmeasured
from stash.lay.table import Item, Placed, length_of

if TYPE_CHECKING:
    from stash.lay.forms import Form
    from stash.lay.ground import Rings

LEGS = (Shape("front", rectangle(1080, 320), 2), Shape("back", rectangle(1080, 380), 2))

HAIRS = 100 * FINE
"""Square solver units, 0.01 mm²: what rounding corners to whole units may come to."""


def searcher(problem: Problem, seed: int = 1) -> Backtrack:
    return Backtrack(strip_of(problem), tuple(map(Item, open_copies(problem))), seed)


@settings(max_examples=40, deadline=None)
@given(problems(), st.integers(0, 10_000), st.booleans())
def test_what_is_found_is_legal_and_shorter(problem: Problem, seed: int, flawed: bool) -> None:
    spots = (Spot(90.0, 60.0, 25.0),) if flawed else ()
    problem = replace(problem, kind=LayKind.OPEN, spots=spots)
    try:
        best = lay_open(problem, Effort(tries=1)).row or ()
    except LayError:
        return
    least = least_length(bound_of(open_copies(problem), sheet_width(problem)))
    row, tries = searcher(problem, seed).look(length_of(best), Effort(tries=60, enough=least))
    assert tries <= 60
    if row is None:
        return
    assert least <= length_of(row) <= max(least, length_of(best))
    lay = unmeasured(problem, LayKind.OPEN, length_of(row), open_placements(problem, row))
    assert check(problem, lay) == ()


def test_four_legs_that_fit_side_by_side_are_laid_so() -> None:
    """2 x 320 + 2 x 380 = 1400: within 1470 one leg long, within 1390 two, which nothing beats."""
    row, _ = searcher(Problem(LEGS, 1470)).look(1200 * FINE, Effort(tries=300))
    assert row is not None
    assert length_of(row) < 1200 * FINE
    row, tries = searcher(Problem(LEGS, 1390)).look(2160 * FINE, Effort(tries=300))
    assert (row, tries) == (None, 300)


def test_looking_again_goes_on_and_is_repeatable() -> None:
    kite = Shape("kite", ((0, 150), (200, 0), (700, 150), (200, 300)), 4)
    problem = Problem((kite, Shape("strip", rectangle(500, 90), 2)), 700)
    start = length_of(lay_open(problem, Effort(tries=1)).row or ())
    rows = []
    for _ in range(2):
        looking, lengths = searcher(problem, 3), [start]
        for _ in range(4):
            row, _ = looking.look(lengths[-1], Effort(tries=150))
            lengths.append(lengths[-1] if row is None else length_of(row))
        rows.append(lengths)
    assert rows[0] == rows[1]
    assert all(later <= earlier for earlier, later in pairwise(rows[0]))


def area_of(rings: Rings) -> float:
    return sum(signed_area(tuple(ring)) for ring in rings)


def room_beside(cloth: Cloth, form: Form, put: list[Placed]) -> Room | None:
    """The room of the form, narrowed by one piece after another."""
    room = Room.whole(cloth, form)
    for count in range(1, len(put) + 1):
        room = room and room.beside(put[:count])
    return room


def places(form: Form, put: list[Placed]) -> list[tuple[float, float]]:
    """The places on 100 x 100 mm, in mm."""
    cloth = Cloth(100 * FINE, (), 100 * FINE)
    room = room_beside(cloth, form, put)
    found = [] if room is None else room.places(cloth, put)
    return [(place.x / FINE, place.y / FINE) for place in found]


def test_the_four_places_beside_a_square() -> None:
    """A square of 40 mm in the middle of 100 x 100, and one of 25 mm: the four corners of the
    cloth; with 40 mm more before and behind it, its own sides; and 40 mm have no room there."""
    (big,), (small,), (wall,) = (
        open_copies(Problem((Shape("s", rectangle(*sides), turns=(0,)),), 100))[0]
        for sides in ((40, 40), (25, 25), (30, 100))
    )
    middle = Placed(big, 30 * FINE, 30 * FINE)
    assert places(small, [middle]) == [(0, 0), (75, 0), (0, 75), (75, 75)]
    walls = [Placed(wall, 0, 0), Placed(wall, 70 * FINE, 0)]
    assert places(small, [middle, *walls]) == [(30, 0), (45, 0), (30, 75), (45, 75)]
    assert places(big, [middle, *walls]) == []
    assert places(big, walls) == [(30, 0), (30, 60)]


@settings(max_examples=60, deadline=None)
@given(problems(), st.integers(0, 3), st.booleans())
def test_room_narrowed_step_by_step_is_the_room_there_is(
    problem: Problem, start: int, flawed: bool
) -> None:
    """Beside a lay, on a cloth as long: just as much as is found by looking at all of it at once;
    and whatever has a place left there may be put down in it."""
    spots = (Spot(90.0, 60.0, 25.0),) if flawed else ()
    problem = replace(problem, kind=LayKind.OPEN, spots=spots)
    try:
        row = lay_open(problem, Effort(tries=1)).row or ()
    except LayError:
        return
    put = list(row[start:])
    strip = strip_of(problem)
    cloth = Cloth(strip.width, strip.blocked, max(800 * FINE, length_of(row[start:])))
    for form in {form for forms in open_copies(problem) for form in forms}:
        room, ground = room_beside(cloth, form, put), cloth.ground(put, form)
        if room:
            proof = room.corners[room.free]
            assert not any(covers(placed, form, proof) for placed in put[room.cut :])
        narrowed = room and room.worked_out(put)
        left = area_of(narrowed.rings) if narrowed else 0
        at_once = area_of(ground.rings()) if ground else 0
        assert left == pytest.approx(at_once, rel=1e-6, abs=HAIRS)
        for place in room.places(cloth, put) if room else []:
            assert ground is not None
            assert ground.is_free(place.x, place.y)
            assert place.right <= cloth.end
