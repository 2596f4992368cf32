"""The width curve as arithmetic: it never rises, whatever was found at the widths tried."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.pairing.judgement import Need, Sureness
from stash.pairing.width_curve import curve_points, letters, need_at, uncertain
from stash.units.length import Length

widths = st.integers(300, 3000).map(Length.from_mm)
lengths = st.none() | st.integers(1, 9000).map(Length.from_mm)


def need(length: Length | None, sureness: Sureness = Sureness.LAID_OUT) -> Need:
    return Need(length=length, sureness=sureness, why="By hand.")


@given(st.dictionaries(widths, lengths, min_size=1), st.lists(widths))
def test_it_never_rises_and_is_the_least_up_to_each_width(
    found: dict[Length, Length | None], more: list[Length]
) -> None:
    points = curve_points({width: need(length) for width, length in found.items()}, more)
    assert [point.usable for point in points] == sorted({*found, *more})
    for point in points:
        up_to = [n for width, n in found.items() if width <= point.usable and n is not None]
        assert point.need == min(up_to, default=None)
        assert (point.found_at is None) == (point.need is None)
        if point.found_at is not None:
            assert point.found_at <= point.usable
            assert found[point.found_at] == point.need
    for one, other in pairwise(points):
        assert one.need is None or (other.need is not None and other.need <= one.need)


@given(st.dictionaries(widths, lengths, min_size=1), widths)
def test_between_widths_the_narrower_one_holds(
    found: dict[Length, Length | None], asked: Length
) -> None:
    points = curve_points({width: need(length) for width, length in found.items()})
    point = need_at(points, asked)
    narrower = [width for width in found if width <= asked]
    assert (point.usable if point else None) == max(narrower, default=None)


@given(st.dictionaries(widths, lengths, min_size=2), st.integers(1, 20))
def test_what_is_tried_next_lies_inside_a_fall(
    found: dict[Length, Length | None], most: int
) -> None:
    points = curve_points({width: need(length) for width, length in found.items()})
    closer = uncertain(points, most)
    assert len(closer) == len(set(closer)) <= most
    for width in closer:
        below = need_at(points, width)
        assert below is not None
        above = next(point for point in points if point.usable > width)
        assert below.usable < width < above.usable
        assert above.need is not None
        assert below.need is None or above.need < below.need


def test_a_level_stretch_hides_nothing() -> None:
    two, one = need(Length.from_mm(2000)), need(Length.from_mm(1000))
    tried = {Length.from_mm(mm): n for mm, n in ((700, two), (900, two), (1000, one), (3000, one))}
    assert uncertain(curve_points(tried), 9) == [Length.from_mm(950)]


def test_a_chart_is_exact_only_at_its_own_width() -> None:
    """Wider cloth never needs more, so the charted amount is an estimate there (common
    practice)."""
    charted = need(Length.from_mm(1800), Sureness.CHARTED)
    at, wider = curve_points({Length.from_mm(1380): charted}, [Length.from_mm(1480)])
    assert (at.sureness, wider.sureness) == (Sureness.CHARTED, Sureness.ESTIMATED)
    assert at.need == wider.need


@pytest.mark.parametrize(("count", "last"), [(1, "a"), (26, "z"), (27, "aa"), (53, "ba")])
def test_letters_go_on_after_z(count: int, last: str) -> None:
    found = letters(count)
    assert found[-1] == last
    assert len(set(found)) == count
