"""Weights, percentages and money as people type them."""

from __future__ import annotations

from contextlib import suppress
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.config import System
from stash.errors import BadInputError
from stash.units.length import Length
from stash.units.money import parse_money, parse_price, show_money
from stash.units.percent import parse_loss, parse_percent, parse_recovery, parse_share, show_percent
from stash.units.weight import (
    GSM_PER_MOMME,
    GSM_PER_OUNCE,
    parse_weight,
    show_weight,
)


@pytest.mark.parametrize(
    ("ounces", "gsm"),
    # Computed from 1 lb = 453.59237 g and 1 yd = 0.9144 m, both exact by definition (1959).
    [
        ("2.6", 88.15),
        ("4", 135.62),
        ("5", 169.53),
        ("5.3", 179.70),
        ("6", 203.43),
        ("8", 271.25),
        ("10", 339.06),
        ("12", 406.87),
        ("14.75", 500.11),
    ],
)
def test_ounces_per_square_yard(ounces: str, gsm: float) -> None:
    for unit in ("oz", "oz/yd²", "oz/yd2", "oz/sq yd"):
        assert parse_weight(f"{ounces} {unit}") == pytest.approx(gsm, abs=0.005)


@pytest.mark.parametrize(
    ("gsm", "ounces"),
    # As above.
    [(100, 2.949), (150, 4.424), (200, 5.899), (240, 7.078), (300, 8.848), (400, 11.797)],
)
def test_grams_back_to_ounces(gsm: int, ounces: float) -> None:
    assert gsm / float(GSM_PER_OUNCE) == pytest.approx(ounces, abs=0.0005)
    assert parse_weight(f"{gsm} gsm") == gsm
    assert parse_weight(f"{gsm} g/m²") == gsm


def test_momme_is_pounds_per_45_inches_by_100_yards() -> None:
    # The silk trade's definition; it quotes 4.340, and 8 momme as about 1 oz/yd².
    assert float(GSM_PER_MOMME) == pytest.approx(4.340, abs=0.0005)
    assert parse_weight("19 momme") == pytest.approx(82.46, abs=0.005)
    assert parse_weight("8 momme") == pytest.approx(34.72, abs=0.005)
    assert parse_weight("8 momme") / float(GSM_PER_OUNCE) == pytest.approx(1.024, abs=0.0005)


def test_running_weights_are_divided_by_the_width() -> None:
    # g/m² = grams per running metre / width in metres: a definition.
    running = parse_weight("450 g/m", Length.from_mm(1500))
    assert running == pytest.approx(300)
    assert running / float(GSM_PER_OUNCE) == pytest.approx(8.848, abs=0.0005)
    jeans = parse_weight("12.5 oz/linear yd", Length.from_inches(58))
    assert jeans == pytest.approx(263.06, abs=0.005)
    assert jeans / float(GSM_PER_OUNCE) == pytest.approx(7.7586, abs=0.00005)


def test_a_running_weight_needs_the_width() -> None:
    with pytest.raises(BadInputError, match="width is not known"):
        parse_weight("450 g/m")


@pytest.mark.parametrize(
    ("typed", "hint"), [("19 mm", "19 momme"), ("240 g", "240 gsm"), ("240", "240 gsm")]
)
def test_an_unclear_weight_is_asked_about(typed: str, hint: str) -> None:
    with pytest.raises(BadInputError) as caught:
        parse_weight(typed)
    assert hint in caught.value.hint


@pytest.mark.parametrize("typed", ["", "heavy", "0 gsm", "-5 oz", "9999 gsm", "1/0 oz", "2 kg"])
def test_what_is_no_weight_is_refused(typed: str) -> None:
    with pytest.raises(BadInputError):
        parse_weight(typed)


@given(st.integers(1, 5000))
def test_whole_grams_read_back_the_same(gsm: int) -> None:
    assert parse_weight(show_weight(gsm, System.METRIC)) == gsm


@given(st.integers(1, 1400))
def test_tenths_of_an_ounce_read_back_the_same(tenths: int) -> None:
    shown = show_weight(tenths / 10 * float(GSM_PER_OUNCE), System.IMPERIAL)
    assert shown == f"{tenths / 10:.1f} oz/yd²"
    assert show_weight(parse_weight(shown), System.IMPERIAL) == shown


@pytest.mark.parametrize(
    ("typed", "percent"),
    [
        # Stretch = (stretched - relaxed) / relaxed: the trade's definition, as in ASTM D3107.
        ("4 in to 5 in", 25),
        ("4 in to 5.4 in", 35),
        ("4 → 6 in", 50),
        ("4 in -> 7 in", 75),
        ("4 in to 8 in", 100),
        ("10 cm → 13 cm", 30),
        ("10 cm → 13,5 cm", 35),
        ("10 cm to 14 cm", 40),
        ("10 cm to 16 cm", 60),
        ("35 %", 35),
        ("35%", 35),
        ("35", 35),
        ("12½ %", 12.5),
        ("0", 0),
    ],
)
def test_percent_as_typed_or_as_measured(typed: str, percent: float) -> None:
    assert parse_percent(typed) == percent


def test_the_home_shrinkage_square() -> None:
    # A 12 1/2 inch square: each 1/8 inch lost is 1 %. Common practice.
    assert parse_loss("12 1/2 in to 12 3/8 in") == 1
    assert parse_loss("12 1/2 in to 12 in") == 4
    assert parse_loss("5 %") == 5


def test_recovery_as_measured() -> None:
    # Definitions of ASTM D3107 (from memory): 10 stretches to 15 and rests at 10.4: 92 %.
    assert parse_recovery("10 cm to 15 cm to 10.4 cm") == pytest.approx(92)
    assert parse_recovery("10 → 15 → 10 cm") == 100
    assert parse_recovery("92 %") == 92


@pytest.mark.parametrize(
    "typed",
    ["10 cm to 13.5 cm", "10 to 15 to 9 cm", "10 to 10 to 10 cm", "101 %", "10 to 15 to 12"],
)
def test_what_is_no_recovery_is_refused(typed: str) -> None:
    with pytest.raises(BadInputError):
        parse_recovery(typed)


@pytest.mark.parametrize("typed", ["", "a lot", "-5 %", "5 in to 4 in", "0 in to 4 in", "4 to 5"])
def test_what_is_no_stretch_is_refused(typed: str) -> None:
    with pytest.raises(BadInputError):
        parse_percent(typed)


@pytest.mark.parametrize("typed", ["", "100 %", "48 cm to 50 cm", "50 cm to 0 cm", "much"])
def test_what_is_no_loss_is_refused(typed: str) -> None:
    with pytest.raises(BadInputError):
        parse_loss(typed)


@pytest.mark.parametrize("typed", ["much", "-5 %"])
def test_a_loss_is_not_told_how_a_stretch_is_typed(typed: str) -> None:
    with pytest.raises(BadInputError) as caught:
        parse_loss(typed)
    assert caught.value.hint == "Type 5 %, or the lengths before and after: 50 cm to 48 cm."


def test_a_share_is_not_measured() -> None:
    assert parse_share("2.5 %") == 2.5
    with pytest.raises(BadInputError, match=r"Type 3 %\.$"):
        parse_share("10 cm to 13 cm")


@given(st.integers(0, 9999))
def test_tenths_of_a_percent_read_back_the_same(tenths: int) -> None:
    assert parse_percent(show_percent(tenths / 10)) == pytest.approx(tenths / 10)


@pytest.mark.parametrize(
    "typed", ["12.50", "12,50", "€ 12.50", "€12.50", "12.50 EUR", "12,5 eur", "12 1/2"]
)
def test_money_with_or_without_its_currency(typed: str) -> None:
    assert parse_money(typed, "EUR") == Decimal("12.50")


@pytest.mark.parametrize(
    "typed", ["", "$12", "12 USD", "12.505", "-3", "free", "€ 12 EUR", "1,250", "€-3"]
)
def test_what_is_no_price_here_is_refused(typed: str) -> None:
    with pytest.raises(BadInputError):
        parse_money(typed, "EUR")


@given(st.integers(0, 10**9), st.sampled_from(["EUR", "€", "$", "GBP", "Kr"]))
def test_cents_read_back_the_same(cents: int, currency: str) -> None:
    amount = Decimal(cents).scaleb(-2)
    assert parse_money(show_money(amount, currency), currency) == amount


@given(st.text(max_size=80) | st.text("0123456789 ./,-½→mgoz%²€yd", max_size=20))
def test_any_text_is_an_amount_or_bad_input(text: str) -> None:
    with suppress(BadInputError):
        assert 0 < parse_weight(text, Length.from_mm(1400)) <= 5000
    for percent in (parse_percent, parse_loss, parse_recovery):
        with suppress(BadInputError):
            assert 0 <= percent(text) <= 1000
    with suppress(BadInputError):
        assert parse_money(text, "EUR") >= 0


@pytest.mark.parametrize(
    ("typed", "per_metre"),
    [
        ("12.50", "12.50"),
        ("12,50 EUR/m", "12.50"),
        ("12.50 per metre", "12.50"),
        # 1 yd = 0.9144 m exactly (1959 agreement): 10 a yard is 10.9361 a metre.
        ("10 per yard", "10.94"),
        ("€10/yd", "10.94"),
        ("9.144 a yard", None),
        ("10 per piece", None),
        ("per yard", None),
    ],
)
def test_a_price_per_yard_is_one_per_metre(typed: str, per_metre: str | None) -> None:
    if per_metre is None:
        with pytest.raises(BadInputError):
            parse_price(typed, "EUR")
    else:
        assert parse_price(typed, "EUR") == Decimal(per_metre)
