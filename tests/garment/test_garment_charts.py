"""Charts: exact where printed, bounded where wider, rounded up where narrower."""

from __future__ import annotations

from dataclasses import replace

import pytest

from stash.garment.charts import charted_amount
from stash.garment.pattern import ChartRow, Kind, Pattern, Role
from stash.units.parse_length import parse_length


def _pattern(kind: Kind, cells: dict[str, str], *, with_nap: bool = True) -> Pattern:
    return Pattern(
        name="Any",
        kind=kind,
        charts=tuple(
            ChartRow(
                size="M",
                width=parse_length(width),
                amount=parse_length(amount),
                with_nap=with_nap,
            )
            for width, amount in cells.items()
        ),
    )


def _amount(pattern: Pattern, width: str, *, nap: bool = False) -> tuple[str, bool] | None:
    found = charted_amount(pattern, "", "M", Role.MAIN, parse_length(width), nap)
    if found is None:
        return None
    amount, exact, why = found
    assert why.endswith(".")
    return f"{float(amount.inches / 36):g} yd", exact


# The published garment chart for trousers, capri length: 2 3/4 yd at 35-36 in,
# 2 1/8 at 50 in, 1 1/2 at 58-60 in ("Estimating Fabric Yardage Needs for Common Misses
# Garments", as quoted on several pages).
LEGS = (Kind.TROUSERS_ELASTIC, Kind.TROUSERS_TAILORED, Kind.SHORTS, Kind.LEGGINGS)
CAPRI = {"36 in": "2 3/4 yd", "50 in": "2 1/8 yd", "58 in": "1 1/2 yd"}


@pytest.mark.parametrize(
    ("width", "expected"),
    [
        ("36 in", ("2.75 yd", True)),
        ("50 in", ("2.125 yd", True)),
        ("58 in", ("1.5 yd", True)),
        ("147 cm", ("1.5 yd", True)),
    ],
)
def test_a_charted_width_gives_the_charts_own_amount(
    width: str, expected: tuple[str, bool]
) -> None:
    assert _amount(_pattern(Kind.TROUSERS_ELASTIC, CAPRI), width) == expected


def test_trousers_between_widths_take_the_narrower_amount_never_an_area_share() -> None:
    """Area scaling of 2 1/8 yd at 50 in would promise 1.9 yd at 56 in; legs do not scale."""
    assert _amount(_pattern(Kind.TROUSERS_ELASTIC, CAPRI), "56 in") == ("2.125 yd", False)


def test_trousers_on_cloth_narrower_than_charted_are_refused() -> None:
    for kind in (*LEGS, Kind.PYJAMAS):
        assert _amount(_pattern(kind, {"50 in": "2 1/8 yd"}), "45 in") is None


@pytest.mark.parametrize(
    ("charted", "amount", "width", "expected"),
    # Cells of the classic width chart (three printed copies agree): row 5 reads 2 7/8 at
    # 35-36, 2 1/4 at 44-45, 1 7/8 at 52-54, 1 3/4 at 58-60; row 2 reads 2, 1 5/8, 1 3/8, 1 1/4.
    [
        ("59 in", "1 3/4 yd", "44.5 in", "2.25 yd"),
        ("59 in", "1 3/4 yd", "35.5 in", "2.875 yd"),
        ("59 in", "1 1/4 yd", "53 in", "1.375 yd"),
        ("44.5 in", "1 5/8 yd", "35.5 in", "2 yd"),
    ],
)
def test_a_dress_on_narrower_cloth_follows_the_width_chart(
    charted: str, amount: str, width: str, expected: str
) -> None:
    found = _amount(_pattern(Kind.DRESS, {charted: amount}), width)
    assert found is not None
    more = 0.25 if float(charted[:2]) - float(width[:2]) > 50 / 2.54 else 0
    assert found == (f"{float(expected.split()[0]) + more:g} yd", False)


def test_nap_adds_a_quarter_yard_where_the_chart_is_without() -> None:
    """The width chart's printed note: 1/4 yd more for one-directional cloth."""
    plain = _pattern(Kind.DRESS, {"58 in": "2 yd"}, with_nap=False)
    assert _amount(plain, "58 in") == ("2 yd", True)
    assert _amount(plain, "58 in", nap=True) == ("2.25 yd", False)
    assert _amount(_pattern(Kind.DRESS, {"58 in": "2 yd"}), "58 in", nap=True) == ("2 yd", True)


def test_one_trade_width_is_one_column() -> None:
    """58-60 in is one column of every envelope: 147 cm cloth is cut from a 150 cm chart."""
    assert _amount(_pattern(Kind.TROUSERS_ELASTIC, {"150 cm": "2 yd"}), "147 cm") == ("2 yd", False)
    assert _amount(_pattern(Kind.TROUSERS_ELASTIC, {"150 cm": "2 yd"}), "140 cm") is None


def test_nothing_is_made_up_without_a_chart_or_beyond_the_width_chart() -> None:
    assert _amount(_pattern(Kind.DRESS, {}), "58 in") is None
    assert _amount(_pattern(Kind.DRESS, {"45 in": "3 yd"}), "20 in") is None


def test_metres_beside_yards_are_never_trusted_downward() -> None:
    """A tissue pattern's envelope prints 1 1/4 yd (1.143 m) as 1.1 m, 2 1/4 yd (2.057 m) as 2.1."""
    both = _pattern(Kind.SKIRT_STRAIGHT, {"60 in": "1 1/4 yd", "150 cm": "1.1 m"})
    assert _amount(both, "150 cm") == ("1.25 yd", False)
    up = _pattern(Kind.SKIRT_STRAIGHT, {"60 in": "2 1/4 yd", "150 cm": "2.1 m"})
    assert _amount(up, "60 in") == ("2.25 yd", True)
    alone = _pattern(Kind.SKIRT_STRAIGHT, {"150 cm": "1.1 m"})
    rounded = replace(alone, charts=tuple(replace(row, rounded=True) for row in alone.charts))
    found = charted_amount(rounded, "", "M", Role.MAIN, parse_length("150 cm"), False)
    assert found is not None
    assert found[0] == parse_length("1.15 m")
    assert found[0] >= parse_length("1 1/4 yd")


def test_of_two_amounts_for_one_width_the_larger_counts() -> None:
    """2.3 m is no rounding of 2 5/8 yd (2.40 m): one of the two was read wrongly."""
    both = _pattern(Kind.TROUSERS_ELASTIC, {"115 cm": "2.3 m", "45 in": "2 5/8 yd"})
    assert _amount(both, "115 cm") == ("2.625 yd", True)
    assert _amount(both, "45 in") == ("2.625 yd", True)
