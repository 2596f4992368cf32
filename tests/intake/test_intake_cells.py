"""Cells as people fill them: what they say, what they may not be taken for."""

from __future__ import annotations

from contextlib import suppress
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import BadInputError
from stash.intake.cell_dates import column_order, read_date
from stash.intake.cells import DAYS, FLAGS, FREE, LENGTHS, PERCENTS, Hints, read_cell
from stash.report.sheet_out import safe_cell
from stash.trade.fibre_words import label_in_english, unshared_fibres
from stash.trade.fibres import parse_fibres
from stash.units.length import Length
from stash.units.money import parse_money
from stash.units.parse_length import parse_length, parse_width
from stash.units.weight import parse_weight

TODAY = date(2026, 10, 1)
HINTS = Hints("m", None, TODAY)
KEYS: tuple[str, ...] = (
    *(*LENGTHS, *PERCENTS, *FLAGS, *DAYS, *FREE),
    *("width", "weight", "price", "fibres", "loved", "structure", "state", "kind", "hand"),
    *("role", "colour", "pattern"),
)


@pytest.mark.parametrize(
    ("cell", "inches"),
    [
        # 36 in to the yard, 12 to the foot; 0.0254 m to the inch (exact since 1959).
        ("2 5/8 yds", 94.5),
        ("2½ yd", 90),
        ("approx 2 yd", 72),
        ("2 yd approx.", 72),
        ("~ 2yd", 72),
        ("ca. 2 yd", 72),
        ("ungefähr 2 yd", 72),
        ("at least 2 yd", 72),
        ("2 yd left", 72),
        ("2 yd + scraps", 72),
        ("2 yd (one end cut crooked)", 72),
        ("2 yd, faded at the fold", 72),
        ("2-ish yd", None),
        ("1,27 m", 50),
        ("127", 5000),
        ("127 Zentimeter", 50),
        ("25 pouces", 25),
        ("3 Zoll", 3),
    ],
)
def test_lengths_say_what_they_say(cell: str, inches: float | None) -> None:
    if inches is None:
        with pytest.raises(BadInputError):
            parse_length(read_cell("length", cell, HINTS).text)
    else:
        assert parse_length(read_cell("length", cell, HINTS).text) == Length.from_inches(inches)


@pytest.mark.parametrize("cell", ["approx 2 yd", "2 yd + scraps", "at least 2 yd", "2 yd (hole)"])
def test_what_a_length_says_beside_itself_is_kept(cell: str) -> None:
    assert read_cell("length", cell, HINTS).remark == cell


@pytest.mark.parametrize(
    ("cell", "part"),
    [
        ("2 x 1.5 m", "more than one piece"),
        ("2m x 1.4m", "more than one piece"),
        ("just under 2m", "may be less"),
        ("<2 m", "may be less"),
        ("knapp 2 m", "may be less"),
        ("2m and 50cm", "more than one length"),
        ("2m (and 50 cm)", "more than one length"),
        ("2024-08-05", "is a date"),
    ],
)
def test_a_length_that_cannot_be_cut_by_is_refused(cell: str, part: str) -> None:
    with pytest.raises(BadInputError, match=part) as caught:
        parse_length(read_cell("length", cell, HINTS).text)
    assert caught.value.hint


def test_a_bare_number_needs_a_unit_from_somewhere() -> None:
    with pytest.raises(BadInputError, match="no unit"):
        read_cell("length", "1.5", Hints())
    assert read_cell("length", "0", Hints()).text == "0"


@pytest.mark.parametrize(
    ("cell", "unit", "cm"),
    [('58/60"', "", 147.32), ("58/60", "in", 147.32), ("150", "cm", 150), ("145-150", "cm", 145)],
)
def test_of_two_widths_the_narrower(cell: str, unit: str, cm: float) -> None:
    assert parse_width(read_cell("width", cell, Hints(unit)).text) == Length.from_mm(cm * 10)


@pytest.mark.parametrize(
    ("cell", "shares"),
    [
        # Annex I names of Regulation (EU) No 1007/2011 in other languages; ISO 2076 codes.
        ("CO 97 EL 3", {"cotton": 97, "elastane": 3}),
        ("wool/silk 60/40", {"wool": 60, "silk": 40}),
        ("95 % Baumwolle, 5 % Elasthan", {"cotton": 95, "elastane": 5}),
        ("70% lin 30% soie", {"linen": 70, "silk": 30}),
        ("60% algodón y 40% poliéster", {"cotton": 60, "polyester": 40}),
        ("80% lana 20% cachemire", {"wool": 80, "cashmere": 20}),
        ("100% katoen", {"cotton": 100}),
        ("100% cotton (organic)", {"cotton": 100}),
    ],
)
def test_contents_in_any_language(cell: str, shares: dict[str, float]) -> None:
    assert dict(parse_fibres(read_cell("fibres", cell, HINTS).text)) == shares


def test_a_mixture_without_shares_is_not_guessed() -> None:
    assert unshared_fibres(label_in_english("cotton lycra")) == ("cotton", "elastane")
    assert unshared_fibres("cotton") == ()
    with pytest.raises(BadInputError, match="not how much of each"):
        read_cell("fibres", "cotton lycra", HINTS)


@pytest.mark.parametrize("cell", ["yes", "x", "✓", "ja", "Oui", "TRUE", "sí", "yes (twice)"])
def test_yes(cell: str) -> None:
    assert read_cell("washed", cell, HINTS).text == "yes"


@pytest.mark.parametrize("cell", ["no", "nein", "Non", "✗", "0", "not yet"])
def test_no(cell: str) -> None:
    assert read_cell("washed", cell, HINTS).text == "no"


@pytest.mark.parametrize("key", ["length", "width", "fibres", "weight", "got", "price", "washed"])
@pytest.mark.parametrize("cell", ["?", "unknown", "n/a", "–", "unbekannt"])
def test_nobody_knows(key: str, cell: str) -> None:
    assert read_cell(key, cell, HINTS).text == ""


@pytest.mark.parametrize(
    ("cell", "day"),
    [
        ("2019-03-12", date(2019, 3, 12)),
        ("2019-03-12 00:00:00", date(2019, 3, 12)),
        ("12.3.2019", date(2019, 3, 12)),
        ("12.03.19", date(2019, 3, 12)),
        ("12 March 2019", date(2019, 3, 12)),
        ("12th Mar 2019", date(2019, 3, 12)),
        ("March 12, 2019", date(2019, 3, 12)),
        ("12. März 2019", date(2019, 3, 12)),
        ("12 de marzo de 2019", date(2019, 3, 12)),
        ("12/05/98", None),
        ("25/12/98", date(1998, 12, 25)),
        ("12/25/1998", date(1998, 12, 25)),
        ("3/3/2020", date(2020, 3, 3)),
        ("3/4/2020", None),
        ("31.02.2020", None),
        ("99/99/2020", None),
        ("soon", None),
    ],
)
def test_days(cell: str, day: date | None) -> None:
    if day is None:
        with pytest.raises(BadInputError):
            read_date(cell, None, TODAY)
    else:
        assert read_date(cell, None, TODAY) == (day, True)


def test_a_column_decides_which_comes_first() -> None:
    assert column_order(["3/4/2020", "25/4/2020"]) is True
    assert column_order(["3/4/2020", "4/25/2020"]) is False
    assert column_order(["25/4/2020", "4/25/2020"]) is None
    assert read_date("3/4/2020", True, TODAY)[0] == date(2020, 4, 3)
    assert read_date("3/4/2020", False, TODAY)[0] == date(2020, 3, 4)


@pytest.mark.parametrize(
    ("cell", "unit", "euros"),
    [
        ("€12.50/m", "", "12.50"),
        ("12,50 €", "", "12.50"),
        ("12.50 EUR per metre", "", "12.50"),
        ("12,-", "", "12"),
        # 9.144 for a yard of 0.9144 m is 10 for a metre.
        ("€9,144 per yd", "", None),
        ("9.14/yd", "", "10.00"),
        ("18.29", "yd", "20.00"),
    ],
)
def test_prices_are_for_a_metre(cell: str, unit: str, euros: str | None) -> None:
    if euros is None:
        with pytest.raises(BadInputError):
            read_cell("price", cell, Hints(unit))
    else:
        assert str(parse_money(read_cell("price", cell, Hints(unit)).text, "EUR")) in (
            euros,
            f"{euros}.00",
        )


@pytest.mark.parametrize("cell", ["€25 for 2 m", "12.50 per piece", "cheap", "1.234,50 €"])
def test_the_price_of_something_else_is_refused(cell: str) -> None:
    with pytest.raises(BadInputError):
        parse_money(read_cell("price", cell, Hints()).text, "EUR")


@pytest.mark.parametrize(
    ("cell", "gsm"), [("240gsm", 240), ("240 g/qm", 240), ("ca. 240 g/m²", 240)]
)
def test_weights(cell: str, gsm: float) -> None:
    assert parse_weight(read_cell("weight", cell, Hints()).text) == gsm


@given(key=st.sampled_from(KEYS), cell=st.text(max_size=80), unit=st.sampled_from(("", "m", "yd")))
def test_any_cell_is_read_or_refused_in_words(key: str, cell: str, unit: str) -> None:
    with suppress(BadInputError):
        read_cell(key, cell, Hints(unit, None, TODAY))


AMOUNTISH = st.text("0123456789 .,/-+½¼xX*()\"'mMyYdDsincft~<>€£$%", max_size=40)


@given(key=st.sampled_from(KEYS), cell=AMOUNTISH)
def test_what_looks_like_an_amount_is_read_or_refused_in_words(key: str, cell: str) -> None:
    with suppress(BadInputError):
        read_cell(key, cell, HINTS)


@given(st.text())
def test_a_cell_that_goes_out_is_no_formula_and_comes_back(text: str) -> None:
    cell = safe_cell(text)
    assert not cell.startswith(("=", "+", "-", "@", "\t", "\r"))
    plain = text.replace("\r\n", "\n").replace("\r", "\n")
    if plain.isprintable():
        assert read_cell("name", cell, HINTS).text == plain
