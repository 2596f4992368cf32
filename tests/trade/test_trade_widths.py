"""The width chart and the common widths, against copies printed elsewhere."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import BadInputError
from stash.trade.widths import CHART, COMMON_WIDTHS, ONE_WAY_EXTRA, convert_by_chart
from stash.units.format_length import EIGHTH_YARD
from stash.units.length import Length
from stash.units.parse_length import parse_length


def convert(amount: str, from_inches: float, to_inches: float) -> Length:
    return convert_by_chart(
        parse_length(amount), Length.from_inches(from_inches), Length.from_inches(to_inches)
    )


@pytest.mark.parametrize(
    ("amount", "from_inches", "to_inches", "there"),
    [
        # The classic width chart, row 7, as printed by three independent pages.
        ("2 3/4 yd", 44.5, 59, "2 yd"),
        ("2 3/4 yd", 44.5, 35.5, "3 3/8 yd"),
        ("2 3/4 yd", 44.5, 53, "2 1/4 yd"),
        # Row 7 at 32 in, printed by a page of its own.
        ("2 yd", 59, 32, "3 3/4 yd"),
        # Between 2 7/8 and 3 1/8 yd: the larger row.
        ("3 yd", 44.5, 59, "2 3/8 yd"),
        # A trade chart of common misses' garments prints the same pairs for these four:
        # straight skirt, A-line skirt, long-sleeved blouse, blouse with tie.
        ("2 yd", 35.5, 50, "1 1/2 yd"),
        ("2 yd", 35.5, 59, "1 1/4 yd"),
        ("2 1/4 yd", 35.5, 59, "1 3/8 yd"),
        ("2 1/2 yd", 35.5, 59, "1 5/8 yd"),
        ("3 3/4 yd", 35.5, 59, "2 1/4 yd"),
    ],
)
def test_the_classic_chart(amount: str, from_inches: float, to_inches: float, there: str) -> None:
    assert convert(amount, from_inches, to_inches) == parse_length(there)


def test_one_way_cloth_takes_a_quarter_yard_more() -> None:
    # The chart's printed note: add 1/4 yard for one-directional fabrics.
    assert convert("3 yd", 44.5, 59) + ONE_WAY_EXTRA == parse_length("2 5/8 yd")


@pytest.mark.parametrize(
    ("amount", "there"),
    # Capri trousers and Bermuda shorts, 50 to 58-60 in, as a trade chart of common misses'
    # garments prints them: legs lie side by side or they do not.
    [("2 1/8 yd", "1 1/2 yd"), ("1 7/8 yd", "1 1/4 yd")],
)
def test_trousers_are_not_on_the_chart(amount: str, there: str) -> None:
    assert convert(amount, 50, 59) != parse_length(there)


def test_the_columns_fall_as_the_cloth_widens() -> None:
    for narrow, wide in pairwise(CHART):
        assert len(narrow.eighths) == len(wide.eighths) == 12
        assert all(n >= w for n, w in zip(narrow.eighths, wide.eighths, strict=True))
    for column in CHART:
        assert list(column.eighths) == sorted(set(column.eighths))


def test_metric_labels_find_their_column() -> None:
    # 147 and 115 cm are how shops label 58 and 45 in.
    assert convert_by_chart(
        parse_length("2 3/4 yd"), parse_length("115 cm"), parse_length("147 cm")
    ) == parse_length("2 yd")


def test_beyond_the_chart_is_said() -> None:
    with pytest.raises(BadInputError, match="wider than 66"):
        convert("2 yd", 72, 60)
    with pytest.raises(BadInputError, match="narrower than 32"):
        convert("2 yd", 45, 20)


WIDTHS = st.integers(8200, 16800).map(lambda tenths: Length.from_mm(Fraction(tenths, 10)))


@given(st.integers(1, 80), WIDTHS, WIDTHS)
def test_wider_cloth_never_asks_more_nor_narrower_less(
    eighths: int, one: Length, other: Length
) -> None:
    amount = EIGHTH_YARD.times(eighths)
    narrow, wide = sorted((one, other))
    assert (
        convert_by_chart(amount, narrow, wide) <= amount <= convert_by_chart(amount, wide, narrow)
    )


@given(st.integers(1, 79), WIDTHS, WIDTHS)
def test_a_larger_garment_never_asks_less(eighths: int, one: Length, other: Length) -> None:
    amount = EIGHTH_YARD.times(eighths)
    larger = EIGHTH_YARD.times(eighths + 1)
    assert convert_by_chart(amount, one, other) <= convert_by_chart(larger, one, other)


def test_common_widths_are_the_metric_and_inch_labels_of_the_trade() -> None:
    # 90, 112-115, 137-140 and 147-152 cm are sold as 36, 44-45, 54 and 58-60 in: common
    # practice.
    for common in COMMON_WIDTHS.values():
        ranges = ((900, 915), (1120, 1150), (1370, 1400), (1470, 1524))
        for width, (low, high) in zip(common, ranges, strict=True):
            assert low <= width.mm <= high
