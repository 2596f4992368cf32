"""Cutting a length off a cloth: what may be cut from the rest could be cut there before."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import make_valid
from shapely.affinity import translate
from shapely.geometry import Point, Polygon

from stash.cloth.cut_off import cut_off
from stash.cloth.record import Cloth, Flaw, Structure
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

REMNANT = ((0, 0), (1000, 0), (1000, 700), (500, 1400), (0, 1400))
HAIR_MM = 0.001
"""What rounding may move."""

coordinate = st.integers(0, 2000).map(float)
corners = st.lists(st.tuples(coordinate, coordinate), min_size=3, max_size=7, unique=True)
spots = st.builds(Flaw, coordinate, coordinate, st.integers(1, 400).map(float))
patches = corners.map(tuple).map(Flaw.cornered)


def cloth(flaws: tuple[Flaw, ...] = (), outline: tuple[tuple[float, float], ...] = ()) -> Cloth:
    return Cloth(
        name="linen",
        structure=Structure.WOVEN,
        width=Length.from_mm(1400),
        bought=Length.from_mm(2000),
        left=Length.from_mm(2000),
        flaws=flaws,
        outline=outline,
    )


def cut(one: Cloth, mm: float) -> Cloth:
    used = Length.from_mm(mm)
    return cut_off(one, used, one.left - used).cloth


def shape(flaw: Flaw) -> BaseGeometry:
    if flaw.points:
        return make_valid(Polygon(flaw.points))
    return Point(flaw.x, flaw.y).buffer(flaw.radius)


def test_a_flaw_moves_up_to_the_new_end() -> None:
    after = cut(cloth((Flaw(800, 700, 50, "ink"),)), 450)
    assert after.flaws == (Flaw(350, 700, 50, "ink"),)
    assert after.left.mm == 1550


def test_flaws_that_were_cut_away_are_named() -> None:
    done = cut_off(
        cloth((Flaw(300, 100, 20, "hole"), Flaw(900, 100, 20, "ink"))),
        Length.from_mm(400),
        Length.from_mm(1600),
    )
    assert [flaw.what for flaw in done.gone] == ["hole"]
    assert [flaw.what for flaw in done.cloth.flaws] == ["ink"]


def test_of_a_flaw_across_the_cut_stays_what_is_left_of_it() -> None:
    # A chord 30 mm from the middle of a circle of 50 mm is twice 40 mm (3-4-5 triangle).
    spot, over, tear = cut(
        cloth(
            (
                Flaw(370, 700, 50),
                Flaw(420, 700, 50),
                Flaw.cornered(((350, 0), (450, 0), (450, 60), (350, 60)), "tear"),
            )
        ),
        400,
    ).flaws
    assert (spot.x, spot.y, spot.radius) == (0, 700, 40)
    assert (over.x, over.radius) == (20, 50)
    assert set(tear.points) == {(0, 0), (50, 0), (50, 60), (0, 60)}


def test_an_outline_is_cut_at_the_length_and_moved() -> None:
    after = cut(cloth(outline=REMNANT), 450)
    assert Polygon(after.outline).equals(
        Polygon(((0, 0), (550, 0), (550, 700), (50, 1400), (0, 1400)))
    )


def test_of_an_outline_that_falls_into_parts_the_largest_stays() -> None:
    legs = (
        (0, 0),
        (1000, 0),
        (1000, 300),
        (200, 300),
        (200, 800),
        (900, 800),
        (900, 1300),
        (0, 1300),
    )
    done = cut_off(cloth(outline=legs), Length.from_mm(400), Length.from_mm(600))
    assert done.parts == 2
    assert Polygon(done.cloth.outline).equals(
        Polygon(((0, 800), (500, 800), (500, 1300), (0, 1300)))
    )


def test_nothing_stays_of_a_cloth_or_an_outline_used_up() -> None:
    whole = cut(cloth((Flaw(800, 700, 50),), REMNANT), 2000)
    short = cut(cloth((Flaw(800, 700, 50),), REMNANT), 1100)
    for after in (whole, short):
        assert (after.left, after.flaws, after.outline) == (ZERO, (), ())


@given(st.lists(spots | patches, max_size=4), st.integers(1, 1900))
def test_every_flaw_stays_covered_and_none_before_the_end(flaws: list[Flaw], at: int) -> None:
    assume(all(not flaw.points or Polygon(flaw.points).is_valid for flaw in flaws))
    before = cloth(tuple(flaws))
    after = cut(before, at)
    covered: BaseGeometry = Polygon()
    for flaw in after.flaws:
        assert flaw.x >= 0
        assert flaw.radius > 0
        covered = covered.union(shape(flaw))
    rest = Polygon(((0, -3000), (6000, -3000), (6000, 6000), (0, 6000)))
    for flaw in flaws:
        moved = translate(shape(flaw), -at).intersection(rest)
        bare = moved.difference(covered.buffer(HAIR_MM)).area
        # The reference library draws a circle with 64 corners, inside it.
        drawn = flaw.radius**2 * (math.pi - 32 * math.sin(math.pi / 32))
        assert bare <= 1 + (0 if flaw.points else drawn)


@given(corners, st.integers(1, 1900))
def test_the_outline_left_lay_within_the_outline(
    outline: list[tuple[float, float]], at: int
) -> None:
    assume(Polygon(outline).is_valid)
    after = cut(cloth(outline=tuple(outline)), at)
    if not after.outline:
        return
    left = Polygon(after.outline)
    assert left.is_valid
    assert left.bounds[0] >= 0
    assert translate(Polygon(outline), -at).buffer(HAIR_MM).covers(left)
