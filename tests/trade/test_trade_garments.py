"""Usual asks, notions and cautions, against rules and the words of the other rooms."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from stash.cloth.record import Hand, Structure
from stash.garment.pattern import Kind, Role
from stash.trade.asks import MAIN_ASKS, asks_for
from stash.trade.cautions import (
    PLAIN_EXEMPT_GSM,
    eu_cord_caution,
    fire_caution,
    nightwear_caution,
    small_parts_caution,
    us_cord_caution,
)
from stash.trade.nightwear import GIRLS_CM, GREATEST_CM, too_loose
from stash.trade.notions import NOTIONS, Elastic, elastic_cut, thread_needed
from stash.units.length import Length


@pytest.mark.parametrize("kind", list(Kind))
@pytest.mark.parametrize("role", list(Role))
def test_every_kind_and_role_has_asks_in_the_words_of_the_rooms(kind: Kind, role: Role) -> None:
    asks = asks_for(kind, role)
    assert asks.role == role
    assert set(asks.structures) <= set(Structure)
    assert {asks.hand_low, asks.hand_high} <= {None, *Hand}
    assert (asks.weight_low or 0) < (asks.weight_high or 9999)


def test_no_kind_is_listed_that_does_not_exist() -> None:
    assert set(MAIN_ASKS) == set(NOTIONS) == set(Kind)


@pytest.mark.parametrize(
    ("kind", "least"),
    # Trade classes: T-shirts from moderate (25 %), turtlenecks from stretchy (50 %) knits.
    [(Kind.TSHIRT, 25), (Kind.TURTLENECK, 50)],
)
def test_close_knits_ask_for_stretch(kind: Kind, least: float) -> None:
    asks = asks_for(kind, Role.MAIN)
    assert asks.structures == ("knit",)
    assert asks.stretch_across == least


def test_thread_by_stitch_type() -> None:
    # Carr & Latham: 301 takes 2.5 and 504 takes 14 m per metre. 220 cm of 301 are 550 cm;
    # 100 cm of 401 are about 540 measured and 5.5 m by the ratio.
    no_waste = Fraction(0)
    assert thread_needed(Length.from_mm(2200), "301", no_waste) == Length.from_mm(5500)
    assert thread_needed(Length.from_mm(1000), "504", no_waste) == Length.from_mm(14000)
    measured = thread_needed(Length.from_mm(1000), "401", no_waste)
    assert measured.mm == pytest.approx(5400, rel=0.02)
    # A shirt whose seams sum to 63.17 m of thread takes about 76 m with 20 % waste.
    seams = Length.from_mm(round(63170 / 2.5))
    assert thread_needed(seams).mm == pytest.approx(76000, rel=0.005)


def test_waist_elastic() -> None:
    # Sewing guides: waist 32 in, 2 in less, 1 in to join: cut 31 in.
    waist = Length.from_inches(32)
    assert elastic_cut(waist) == Length.from_inches(31)
    assert elastic_cut(waist, Elastic.SOFT) < elastic_cut(waist)
    assert elastic_cut(waist, Elastic.FIRM) == Length.from_inches(31)


@pytest.mark.parametrize(
    ("fibres", "raised", "gsm", "warns"),
    # 16 CFR 1610.1(d): plain cloth from 2.6 oz/yd², and any made entirely of acrylic,
    # modacrylic, nylon, olefin, polyester or wool, needs no test.
    [
        (["cotton"], True, 150, True),
        (["polyester"], True, 280, False),
        (["cotton"], False, 70, True),
        (["cotton"], False, 120, False),
        (["cotton", "polyester"], True, 280, True),
        (["silk"], False, 88.1, True),
        (["silk"], False, 88.2, False),
        ([], True, 280, True),
    ],
)
def test_the_fire_screen(fibres: list[str], raised: bool, gsm: float, warns: bool) -> None:
    assert (fire_caution(fibres, raised=raised, gsm=gsm) is not None) == warns
    assert pytest.approx(88.15, abs=0.005) == PLAIN_EXEMPT_GSM


def test_sheer_cloth_nobody_weighed_is_cautioned() -> None:
    assert fire_caution(["cotton"], raised=False, sheer=True)
    assert fire_caution(["cotton"], raised=False) is None


def test_cords_on_childrens_clothes() -> None:
    # 16 CFR 1120.3(b): the hood rule reaches a coat sized 12-14, not one sized 13-15; the
    # waist rule still does. EN 14682:2014: none at the hood up to 134 cm.
    assert "hazard" in (us_cord_caution(12, at_hood=True) or "")
    assert us_cord_caution(13, at_hood=True) is None
    assert "75 mm" in (us_cord_caution(13, at_hood=False) or "")
    assert us_cord_caution(18, at_hood=False) is None
    assert "allows no cords at" in (eu_cord_caution(at_hood=True, height_cm=134) or "")
    assert "free ends" in (eu_cord_caution(at_hood=True, height_cm=140, age=10) or "")
    assert "allows no cords at" in (eu_cord_caution(at_hood=True, age=7) or "")
    assert eu_cord_caution(at_hood=True, age=15) is None
    assert eu_cord_caution(at_hood=True) is None


def cm(value: float) -> Length:
    return Length.from_mm(round(10 * value))


def test_tight_nightwear() -> None:
    # 16 CFR 1615.1(o)(1), size 4; 16 CFR 1616.2(m)(1), size 8: boys 67.3, girls 71.1 seat.
    assert too_loose("4", {"chest": cm(56.0), "wrist": cm(12.1)}) == ()
    assert too_loose("4", {"chest": cm(56.1)}) == ("chest",)
    assert too_loose("8", {"seat": cm(70)}) == ("seat",)
    assert too_loose("8", {"seat": cm(70)}, for_girls=True) == ()


def test_the_size_4_row_in_inches() -> None:
    # The same rule prints size 4 in inches too: 22, 21, 23, 6 5/8, 13, 4 3/4, 6 1/4.
    inches = (22, 21, 23, 6.625, 13, 4.75, 6.25)
    for printed, centimetres in zip(inches, GREATEST_CM["4"], strict=True):
        assert centimetres == pytest.approx(printed * 2.54, abs=0.16)


def test_larger_sizes_allow_no_less() -> None:
    rows = list(GREATEST_CM.values())[:9], list(GREATEST_CM.values())[9:], list(GIRLS_CM.values())
    for group in rows:
        for smaller, larger in pairwise(group):
            assert all(s <= b for s, b in zip(smaller, larger, strict=True))


def test_small_parts_and_nightwear_by_age() -> None:
    # 16 CFR 1501.4: under 3 years. 16 CFR 1615 and 1616: nightwear up to size 14.
    assert small_parts_caution(2)
    assert small_parts_caution(3) is None
    assert nightwear_caution(6)
    assert nightwear_caution(30) is None


def test_cautions_defer_to_local_rules_and_clear_nothing() -> None:
    said = [
        fire_caution(["cotton"], raised=True),
        fire_caution(["cotton"], raised=False, gsm=50),
        us_cord_caution(6, at_hood=True),
        us_cord_caution(6, at_hood=False),
        eu_cord_caution(at_hood=True, age=5),
        eu_cord_caution(at_hood=True, age=10),
        eu_cord_caution(at_hood=False, age=5),
        small_parts_caution(1),
        nightwear_caution(4),
    ]
    for caution in said:
        assert caution is not None
        assert caution.endswith("Check the rules where you live.")
        assert " safe" not in caution
        assert "compl" not in caution
