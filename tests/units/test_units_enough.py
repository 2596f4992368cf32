"""Need, have and gap agree as they are shown, whatever the lengths."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.config import System
from stash.units.enough import show_enough
from stash.units.length import Length
from stash.units.parse_length import parse_length

LENGTHS = st.integers(min_value=0, max_value=20_000_000_000).map(Length)
NEARLY = st.integers(min_value=-60_000_000, max_value=60_000_000)


def _check(need: Length, have: Length, system: System) -> None:
    shown = show_enough(need, have, system)
    needs, holds, gap = (parse_length(t) for t in (shown.needs, shown.holds, shown.gap))
    assert shown.short == (have < need)
    assert needs >= need
    if shown.short:
        assert holds <= have
        assert needs - holds == gap
        assert gap >= need - have
    else:
        assert holds - needs == gap
        assert gap <= have - need


@given(LENGTHS, LENGTHS, st.sampled_from(System))
def test_the_three_agree(need: Length, have: Length, system: System) -> None:
    _check(need, have, system)


@given(LENGTHS, NEARLY, st.sampled_from(System))
def test_they_agree_when_it_is_close(need: Length, off: int, system: System) -> None:
    _check(need, Length(max(0, need.nm + off)), system)


@pytest.mark.parametrize(
    ("need", "have", "system", "texts"),
    [
        # 1.203 m is called 1.21 m and 1.534 m is called 1.53 m: 32 cm between them, not 33.
        (1203, 1534, System.METRIC, ("1.21 m", "1.53 m", "0.32 m to spare")),
        (1581, 1588, System.METRIC, ("1581 mm", "1588 mm", "7 mm to spare")),
        (1500, 1430, System.METRIC, ("1.50 m", "1.43 m", "0.07 m short")),
        # 1 5/8 yd are 58 1/2 in; four inches more lie within the next eighth of a yard.
        (1485.9, 1587.5, System.IMPERIAL, ("58 1/2 in", "62 1/2 in", "4 in to spare")),
        (914.4, 1828.8, System.IMPERIAL, ("1 yd", "2 yd", "1 yd to spare")),
    ],
)
def test_worked_examples(
    need: float, have: float, system: System, texts: tuple[str, str, str]
) -> None:
    shown = show_enough(Length.from_mm(need), Length.from_mm(have), system)
    assert (shown.needs, shown.holds, shown.words) == texts
