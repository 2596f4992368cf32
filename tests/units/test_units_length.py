"""Lengths: the exact parser, the safe formatter, and the pint behind rare words."""

from __future__ import annotations

from contextlib import suppress
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.config import System
from stash.errors import BadInputError
from stash.units.format_length import CENTIMETRE, EIGHTH_YARD, Measure, show_length
from stash.units.length import NM_PER_INCH, NM_PER_MM, Length
from stash.units.number import read_number
from stash.units.parse_length import parse_length, parse_width

YARD = Length.from_inches(36)


@pytest.mark.parametrize(
    ("typed", "inches"),
    [
        # A general unit library silently reads these as 1 yd, 0.25 in, 2 yd, an area, an
        # area, a bare 60 and 15 m: measured with pint 0.25.
        ("2 1/2 yd", 90),
        ("1 1/4 in", Fraction(5, 4)),
        ("2½ yd", 90),
        ("5 feet 3 inch", 63),
        ("3 yd 12 in", 120),
        ('60"', 60),
        ("1,5 m", Fraction(15000, 254)),
    ],
)
def test_what_people_type_means_what_they_mean(typed: str, inches: Fraction) -> None:
    assert parse_length(typed) == Length.from_inches(inches)


@pytest.mark.parametrize(
    ("typed", "mm"),
    [
        # 1 in = 25.4 mm and 1 yd = 0.9144 m exactly: International Yard and Pound, 1959.
        ("140cm", 1400),
        ("1.4 m", 1400),
        ("15 mm", 15),
        ("2 yd 12 in", Fraction("2133.6")),
        ("5 ft 3 in", Fraction("1600.2")),
        ("5'3\"", Fraction("1600.2")),
        ("5′3″", Fraction("1600.2")),
        ("2-1/2 yds", 2286),
        ("⅝ in", Fraction("15.875")),
        ("5/8 in.", Fraction("15.875")),
        ("1⁄8 yd", Fraction("114.3")),
        (".5 m", 500),
        ("0 cm", 0),
        ("2 Metres", 2000),
        ("  3   YD ", Fraction("2743.2")),
        # Rare words: a decimetre is SI; a hand is 4 inches and a furlong 220 survey yards.
        ("2 dm", 200),
        ("1 hand", Fraction("101.6")),
    ],
)
def test_a_length_is_exact(typed: str, mm: Fraction) -> None:
    assert parse_length(typed) == Length.from_mm(mm)


@pytest.mark.parametrize(
    ("eighths", "metres"),
    # Yard fractions in metres, from 1 yd = 0.9144 m exactly, to the tenth of a millimetre.
    [
        (1, "0.1143"),
        (2, "0.2286"),
        (3, "0.3429"),
        (4, "0.4572"),
        (5, "0.5715"),
        (6, "0.6858"),
        (7, "0.8001"),
        (8, "0.9144"),
        (9, "1.0287"),
        (10, "1.1430"),
        (11, "1.2573"),
        (12, "1.3716"),
        (13, "1.4859"),
        (14, "1.6002"),
        (15, "1.7145"),
        (16, "1.8288"),
        (20, "2.2860"),
        (24, "2.7432"),
        (32, "3.6576"),
        (40, "4.5720"),
    ],
)
def test_eighths_of_a_yard_in_metres(eighths: int, metres: str) -> None:
    shown = show_length(EIGHTH_YARD.times(eighths), System.IMPERIAL)
    assert parse_length(shown) == parse_length(f"{metres} m")


@pytest.mark.parametrize(
    "typed",
    [
        "",
        "   ",
        "two yards",
        "140",
        "2 yd 12",
        "5'3",
        "-3 m",
        "−3 m",
        "2 yd -3 in",
        "1/0 m",
        "1,500 m",
        "1,234.5 mm",
        "2½½ yd",
        "1½/2 yd",
        "2.5 1/2 yd",
        "3 l",
        "4 kg",
        "1 pin",
        "1 cin",
        "1 bohr",
        "1 parsec",
        "20 km",
        "2 yd*in",
        "9" * 5000,
        "2² m",
        "1e3 mm",
        "nan m",
    ],
)
def test_what_is_no_length_is_refused_in_one_sentence(typed: str) -> None:
    with pytest.raises(BadInputError) as caught:
        parse_length(typed)
    assert caught.value.message.endswith(".")
    assert "\n" not in caught.value.message
    assert caught.value.hint


def test_a_bare_number_names_what_is_missing_unless_a_unit_is_usual() -> None:
    with pytest.raises(BadInputError, match="140 has no unit"):
        parse_length("140")
    assert parse_length("140", "cm") == Length.from_mm(1400)
    assert parse_length("2 1/2", "yd") == Length.from_inches(90)
    assert parse_length("2 1/2 in", "yd") == Length.from_inches(Fraction(5, 2))


def test_a_thousands_mark_is_asked_about_not_guessed() -> None:
    with pytest.raises(BadInputError, match=r"may mean 1\.500 or 1500"):
        parse_length("1,500 mm")
    assert parse_length("0,125 m") == Length.from_mm(125)


@pytest.mark.parametrize(
    ("typed", "mm"),
    [
        # Labels print a range of widths; the cloth may be as narrow as its lower end.
        ('58/60"', Fraction("1473.2")),
        ('58-60"', Fraction("1473.2")),
        ('58"/60"', Fraction("1473.2")),
        ("147-152 cm", 1470),
        ("147–152 cm", 1470),
        ("1.4/1.5 m", 1400),
        ("60 to 58 in", Fraction("1473.2")),
        ("112 cm / 44 in", Fraction("1117.6")),
        ("44-45 1/2 in", Fraction("1117.6")),
        ("35-1/2 in", Fraction("901.7")),
        ("7/8 yd", Fraction("800.1")),
        ("140 cm", 1400),
    ],
)
def test_the_narrower_end_of_a_width_counts(typed: str, mm: Fraction) -> None:
    assert parse_width(typed) == Length.from_mm(mm)


def test_a_width_range_may_leave_the_usual_unit_out() -> None:
    assert parse_width("58/60", "in") == Length.from_inches(58)
    with pytest.raises(BadInputError):
        parse_width("58/60")


@pytest.mark.parametrize("typed", ["0 cm", "-140 cm", "wide", "140", "1,400/1,500 mm"])
def test_what_is_no_width_is_refused(typed: str) -> None:
    with pytest.raises(BadInputError):
        parse_width(typed)


@pytest.mark.parametrize(
    ("mm", "system", "kind", "shown"),
    [
        # 1 1/4 yd is 1.143 m: in the shop that is 1.2 m, though envelopes print 1.1.
        ("1143", System.METRIC, Measure.BUY, "1.20 m"),
        ("1143", System.METRIC, Measure.AMOUNT, "1.14 m"),
        ("1143", System.METRIC, Measure.NEED, "1.15 m"),
        ("1143", System.METRIC, Measure.SPARE, "1.14 m"),
        ("1143", System.IMPERIAL, Measure.NEED, "1 1/4 yd"),
        ("1144", System.IMPERIAL, Measure.NEED, "1 3/8 yd"),
        ("1144", System.IMPERIAL, Measure.BUY, "1 3/8 yd"),
        ("1250", System.IMPERIAL, Measure.LEAST, "1 1/4 yd"),
        ("-101", System.METRIC, Measure.SPARE, "-0.11 m"),
        ("-101", System.IMPERIAL, Measure.SPARE, "-4 in"),
        ("2150", System.METRIC, Measure.AMOUNT, "2.15 m"),
        ("2400.3", System.IMPERIAL, Measure.AMOUNT, "2 5/8 yd"),
        ("0", System.IMPERIAL, Measure.AMOUNT, "0 yd"),
        ("0", System.METRIC, Measure.AMOUNT, "0.00 m"),
        ("1473.2", System.IMPERIAL, Measure.WIDTH, "58 in"),
        ("1473.2", System.METRIC, Measure.WIDTH, "147 cm"),
        ("15.875", System.IMPERIAL, Measure.SMALL, "5/8 in"),
        ("15", System.METRIC, Measure.SMALL, "15 mm"),
        ("1473.2", System.METRIC, Measure.EXACT, "147.32 cm"),
        ("2150", System.METRIC, Measure.EXACT, "2.15 m"),
        ("1485.9", System.IMPERIAL, Measure.EXACT, "1 5/8 yd"),
        ("15.875", System.IMPERIAL, Measure.EXACT, "5/8 in"),
        ("15", System.IMPERIAL, Measure.EXACT, "1.5 cm"),
    ],
)
def test_lengths_round_the_safe_way(mm: str, system: System, kind: Measure, shown: str) -> None:
    assert show_length(Length.from_mm(Fraction(mm)), system, kind) == shown


def test_the_shop_may_cut_by_another_step() -> None:
    half_metre = Length.from_mm(500)
    shown = show_length(Length.from_mm(1143), System.METRIC, Measure.BUY, half_metre)
    assert shown == "1.50 m"


STEPS = {
    (System.METRIC, Measure.AMOUNT): CENTIMETRE,
    (System.METRIC, Measure.BUY): Length.from_mm(100),
    (System.METRIC, Measure.NEED): CENTIMETRE,
    (System.METRIC, Measure.SPARE): CENTIMETRE,
    (System.METRIC, Measure.WIDTH): CENTIMETRE,
    (System.METRIC, Measure.SMALL): Length(NM_PER_MM),
    (System.METRIC, Measure.EXACT): Length(1),
    (System.IMPERIAL, Measure.AMOUNT): EIGHTH_YARD,
    (System.IMPERIAL, Measure.BUY): EIGHTH_YARD,
    (System.IMPERIAL, Measure.NEED): EIGHTH_YARD,
    (System.IMPERIAL, Measure.SPARE): EIGHTH_YARD,
    (System.IMPERIAL, Measure.WIDTH): Length(NM_PER_INCH // 8),
    (System.IMPERIAL, Measure.SMALL): Length(NM_PER_INCH // 16),
    (System.IMPERIAL, Measure.EXACT): Length(1),
}


@given(st.sampled_from(sorted(STEPS)), st.integers(0, 50_000))
def test_what_is_shown_reads_back_the_same(way: tuple[System, Measure], steps: int) -> None:
    length = STEPS[way].times(steps)
    assert parse_length(show_length(length, *way)) == length


@given(st.sampled_from(System), st.integers(0, 10**13))
def test_the_exact_form_loses_nothing(system: System, nm: int) -> None:
    assert parse_length(show_length(Length(nm), system, Measure.EXACT)).nm == nm


@given(st.sampled_from(System), st.integers(0, 10**11))
def test_needs_never_look_smaller_nor_spares_larger(system: System, nm: int) -> None:
    for kind in (Measure.NEED, Measure.BUY):
        assert parse_length(show_length(Length(nm), system, kind)).nm >= nm
    assert parse_length(show_length(Length(nm), system, Measure.SPARE)).nm <= nm


@given(st.text(max_size=80))
def test_any_text_is_a_length_or_bad_input(text: str) -> None:
    with suppress(BadInputError):
        assert parse_length(text).nm >= 0


AMOUNTS = st.text("0123456789 ./,-½⅜\"'→mcinydftoz%²€", max_size=20)


@given(AMOUNTS)
def test_nearly_right_text_is_a_length_or_bad_input(text: str) -> None:
    for read in (parse_length, parse_width):
        with suppress(BadInputError):
            assert read(text).nm >= 0


@given(AMOUNTS | st.text(max_size=80))
def test_any_text_is_a_number_or_bad_input(text: str) -> None:
    with suppress(BadInputError):
        assert read_number(text) >= 0


@given(st.integers(0, 10**6), st.integers(1, 64))
def test_a_mixed_number_reads_back_the_same(over: int, under: int) -> None:
    whole, rest = divmod(over, under)
    assert read_number(f"{whole} {rest}/{under}") == Fraction(over, under)


@pytest.mark.parametrize(
    ("typed", "value"),
    [("2½", "5/2"), ("½", "1/2"), ("⅝", "5/8"), ("2 ¾", "11/4"), ("1,5", "3/2"), ("007", "7")],
)
def test_numbers_as_written_by_hand(typed: str, value: str) -> None:
    assert read_number(typed) == Fraction(value)


@pytest.mark.parametrize("typed", ["-1", "+1", "1 2", "1/2/3", "½½", "x", "", "٣", "1/0", "1."])
def test_what_is_no_number_is_refused(typed: str) -> None:
    with pytest.raises(BadInputError):
        read_number(typed)


@given(st.integers(0, 20 * 10**9), st.sampled_from(System))
def test_what_there_is_is_shown_down_and_what_is_taken_up(nm: int, system: System) -> None:
    length = Length(nm)
    step = Length.from_inches(1 / 8) if system is System.IMPERIAL else Length.from_mm(10)
    for least, most in (
        (Measure.SPARE, Measure.TAKEN),
        (Measure.USABLE, Measure.EXTENT),
    ):
        low, high = (parse_length(show_length(length, system, kind)) for kind in (least, most))
        assert low <= length <= high + Length(10_000)
        assert high.nm - low.nm <= step.nm


def test_cloth_that_is_there_is_told_to_the_eighth_of_an_inch() -> None:
    # 1 in = 25.4 mm exactly: 1.65 m are 64.96 in, and an eighth of a yard is 4 1/2 in.
    there = Length.from_mm(1650)
    assert show_length(there, System.IMPERIAL, Measure.SPARE) == "64 7/8 in"
    assert show_length(there, System.IMPERIAL, Measure.TAKEN) == "65 in"
    assert show_length(Length.from_inches(63), System.IMPERIAL, Measure.SPARE) == "1 3/4 yd"
    assert show_length(Length.from_mm(50), System.IMPERIAL, Measure.SPARE) == "1 7/8 in"
