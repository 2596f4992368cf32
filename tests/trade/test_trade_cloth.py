"""Stretch, weight, hand, first wash, repeats and colour, against published numbers."""

from __future__ import annotations

import pytest
from scipy.constants import g as gravity

from stash.errors import BadInputError
from stash.trade.colour import lab_of, parse_colour, shade_difference
from stash.trade.hand import (
    hand_from_bending,
    hand_from_drape,
    parse_drape,
    rigidity_mg_cm,
)
from stash.trade.repeats import cut_to_repeats, repeats_to_order
from stash.trade.shrinkage import after_wash, before_wash, default_shrinkage
from stash.trade.stretch import growth, stretch_class
from stash.trade.weights import weight_class
from stash.units.length import Length
from stash.units.parse_length import parse_length
from stash.units.percent import parse_percent, parse_recovery


def test_a_pattern_asking_35_per_cent() -> None:
    # An envelope's gauge of 4 to 5.4 in asks 35 %: the trade's definition of stretch.
    asked = parse_percent("4 in to 5.4 in")
    assert parse_percent("10 cm to 13 cm") < asked
    assert parse_percent("10 cm to 13.5 cm") >= asked


def test_stretch_growth_and_recovery_of_one_measurement() -> None:
    # Definitions of ASTM D3107 (from memory): 10 marked, 15 stretched, 10.4 let go.
    stretch, recovery = parse_percent("10 cm to 15 cm"), parse_recovery("10 to 15 to 10.4 cm")
    assert [stretch, recovery] == pytest.approx([50, 92])
    assert growth(stretch, recovery) == pytest.approx(4)


@pytest.mark.parametrize(
    ("percent", "name"),
    # Trade classes after Armstrong (from memory).
    [(0, "stable"), (18, "stable"), (25, "moderate"), (50, "stretchy"), (120, "super stretchy")],
)
def test_stretch_classes(percent: float, name: str) -> None:
    assert stretch_class(percent) == name


@pytest.mark.parametrize(
    ("gsm", "name"),
    # Kadolph, Textiles: light under 4 oz/yd² (136 g/m²), heavy over 6 (203) (from memory).
    [(70, "light"), (135, "light"), (150, "medium"), (203, "medium"), (271, "heavy")],
)
def test_weight_classes(gsm: float, name: str) -> None:
    assert weight_class(gsm) == name


@pytest.mark.parametrize(
    ("gsm", "bending_mm", "mg_cm"),
    # G = W c³ computed from its units; ASTM D1388's cantilever gives c.
    [
        (60, 12, 10.37),
        (100, 15, 33.75),
        (120, 18, 69.98),
        (150, 20, 120.00),
        (200, 25, 312.5),
        (340, 35, 1457.75),
    ],
)
def test_flexural_rigidity(gsm: float, bending_mm: float, mg_cm: float) -> None:
    assert rigidity_mg_cm(gsm, bending_mm) == pytest.approx(mg_cm, abs=0.005)


def test_rigidity_in_si() -> None:
    # ASTM D1388 gives G in µN·m: the weight of 120 mg at standard gravity over 1 cm.
    newton_metres = rigidity_mg_cm(150, 20) * 1e-6 * 1e-2 * gravity
    assert newton_metres * 1e6 == pytest.approx(11.768, abs=0.0005)


@pytest.mark.parametrize(
    ("shadow", "percent"),
    # Cusick's drape test, discs of 18 and 30 cm: computed from their areas.
    [(300, 10.06), (400, 32.17), (452, 43.66), (550, 65.33), (650, 87.43)],
)
def test_drape_coefficient(shadow: float, percent: float) -> None:
    assert parse_drape(f"{shadow} cm²") == pytest.approx(percent, abs=0.006)


@pytest.mark.parametrize("typed", ["120", "250 cm2", "710 cm2", "stiff", "", "cm2"])
def test_what_is_no_drape_coefficient_is_refused(typed: str) -> None:
    # The shadow lies between the support disc, 254.5 cm², and the specimen, 706.9 cm².
    with pytest.raises(BadInputError):
        parse_drape(typed)


@pytest.mark.parametrize(
    ("percent", "hands"),
    # Usual drape coefficients (from memory): georgette 15-35, lawn 40-60, denim 75-95.
    [(20, {1}), (50, {2, 3}), (85, {5})],
)
def test_drape_as_hand(percent: float, hands: set[int]) -> None:
    assert hand_from_drape(percent) in hands


def test_hand_rises_with_stiffness() -> None:
    assert [hand_from_bending(c) for c in (10, 16, 20, 26, 40)] == [1, 2, 3, 4, 5]
    assert [hand_from_drape(d) for d in (20, 40, 50, 70, 90)] == [1, 2, 3, 4, 5]


@pytest.mark.parametrize(
    ("net", "percent", "metres"),
    # net / (1 - s): arithmetic; net x (1 + s) would fall short.
    [("2.00 m", 5, 2.1053), ("1.50 m", 10, 1.6667), ("3.20 m", 8, 3.4783), ("150 cm", 4, 1.5625)],
)
def test_before_the_wash(net: str, percent: float, metres: float) -> None:
    before = before_wash(parse_length(net), percent)
    assert before.mm / 1000 == pytest.approx(metres, abs=0.00005)
    assert after_wash(before, percent) >= parse_length(net)


def test_two_metres_after_five_per_cent_is_bought_as_two_metres_twenty() -> None:
    before = before_wash(parse_length("2 m"), 5)
    assert before.ceil_to(parse_length("10 cm")) == parse_length("2.2 m")


@pytest.mark.parametrize(
    ("structure", "fibres", "low", "high"),
    # Planning ranges in use (from memory), length and width; the default must lie inside.
    [
        ("woven", [("cotton", 100.0)], (3, 1), (5, 3)),
        ("knit", [("cotton", 100.0)], (5, 3), (8, 6)),
        ("woven", [("linen", 100.0)], (4, 3), (8, 5)),
        ("woven", [("viscose", 100.0)], (5, 3), (10, 6)),
        ("knit", [("viscose", 95.0), ("elastane", 5.0)], (6, 4), (10, 8)),
        ("woven", [("wool", 100.0)], (2, 1), (5, 3)),
        ("woven", [("silk", 100.0)], (3, 1), (8, 3)),
        ("knit", [("polyester", 100.0)], (0, 0), (2, 1)),
        ("woven", [("cotton", 97.0), ("elastane", 3.0)], (3, 4), (5, 8)),
    ],
)
def test_usual_first_wash(
    structure: str,
    fibres: list[tuple[str, float]],
    low: tuple[float, float],
    high: tuple[float, float],
) -> None:
    for lost, least, most in zip(default_shrinkage(structure, fibres), low, high, strict=True):
        assert least <= lost <= most


def test_an_unknown_content_is_not_taken_as_stable() -> None:
    # ASTM F1506 (2018): at most 5 % where no limit is specified, as quoted.
    assert default_shrinkage("woven", []) == (5, 5)
    assert default_shrinkage("knit", []) >= default_shrinkage("woven", [])


def test_a_blend_lies_between_its_fibres() -> None:
    blend = default_shrinkage("woven", [("polyester", 65.0), ("cotton", 35.0)])
    cotton = default_shrinkage("woven", [("cotton", 100.0)])
    polyester = default_shrinkage("woven", [("polyester", 100.0)])
    assert polyester < blend < cotton


@pytest.mark.parametrize(
    ("length", "repeat", "cut"),
    # Furnishing calculators' worked examples: whole repeats, rounded up.
    [
        ("96 in", "27 in", "108 in"),
        ("114 in", "4.5 in", "117 in"),
        ("116 in", "25 in", "125 in"),
        ("118 in", "13 in", "130 in"),
        ("105 cm", "32 cm", "128 cm"),
        ("105 cm", "0 cm", "105 cm"),
    ],
)
def test_lengths_are_cut_to_whole_repeats(length: str, repeat: str, cut: str) -> None:
    assert cut_to_repeats(parse_length(length), parse_length(repeat)) == parse_length(cut)


def test_one_repeat_more_is_ordered() -> None:
    # The bolt may start anywhere in the repeat: 3 x 128 + 32.
    ordered = repeats_to_order(Length.from_mm(1050), Length.from_mm(320), 3)
    assert ordered == Length.from_mm(4160)


@pytest.mark.parametrize(
    ("colour", "lab"),
    # Computed from IEC 61966-2-1 and CIE 15 with the four-digit matrix, D65, 2 degrees.
    [
        ("#ff0000", (53.233, 80.109, 67.220)),
        ("#00ff00", (87.737, -86.185, 83.181)),
        ("#0000ff", (32.303, 79.197, -107.864)),
        ("#808080", (53.585, 0.003, -0.006)),
        ("#0a0a0a", (2.742, 0.000, -0.001)),
        ("#1f2948", (17.203, 6.129, -20.719)),
        ("#c81e3c", (43.557, 64.070, 28.466)),
    ],
)
def test_srgb_to_lab(colour: str, lab: tuple[float, float, float]) -> None:
    assert lab_of(colour) == pytest.approx(lab, abs=0.05)


def test_colours_are_six_digits() -> None:
    assert parse_colour(" 1F2948 ") == "#1f2948"
    with pytest.raises(BadInputError):
        parse_colour("navy")


SHARMA = """
50,2.6772,-79.7751,50,0,-82.7485,2.0425
50,3.1571,-77.2803,50,0,-82.7485,2.8615
50,2.8361,-74.0200,50,0,-82.7485,3.4412
50,-1.3802,-84.2814,50,0,-82.7485,1.0000
50,-1.1848,-84.8006,50,0,-82.7485,1.0000
50,-0.9009,-85.5211,50,0,-82.7485,1.0000
50,0,0,50,-1,2,2.3669
50,-1,2,50,0,0,2.3669
50,2.4900,-0.0010,50,-2.4900,0.0009,7.1792
50,2.4900,-0.0010,50,-2.4900,0.0010,7.1792
50,2.4900,-0.0010,50,-2.4900,0.0011,7.2195
50,2.4900,-0.0010,50,-2.4900,0.0012,7.2195
50,-0.0010,2.4900,50,0.0009,-2.4900,4.8045
50,-0.0010,2.4900,50,0.0010,-2.4900,4.8045
50,-0.0010,2.4900,50,0.0011,-2.4900,4.7461
50,2.5,0,50,0,-2.5,4.3065
50,2.5,0,73,25,-18,27.1492
50,2.5,0,61,-5,29,22.8977
50,2.5,0,56,-27,-3,31.9030
50,2.5,0,58,24,15,19.4535
50,2.5,0,50,3.1736,0.5854,1.0000
50,2.5,0,50,3.2972,0,1.0000
50,2.5,0,50,1.8634,0.5757,1.0000
50,2.5,0,50,3.2592,0.3350,1.0000
60.2574,-34.0099,36.2677,60.4626,-34.1751,39.4387,1.2644
63.0109,-31.0961,-5.8663,62.8187,-29.7946,-4.0864,1.2630
61.2901,3.7196,-5.3901,61.4292,2.2480,-4.9620,1.8731
35.0831,-44.1164,3.7933,35.0232,-40.0716,1.5901,1.8645
22.7233,20.0904,-46.6940,23.0331,14.9730,-42.5619,2.0373
36.4612,47.8580,18.3852,36.2715,50.5065,21.2231,1.4146
90.8027,-2.0831,1.4410,91.1528,-1.6435,0.0447,1.4441
90.9257,-0.5406,-0.9208,88.6381,-0.8985,-0.7239,1.5381
6.7747,-0.2908,-2.4247,5.8714,-0.0985,-2.2286,0.6377
2.0776,0.0795,-1.1350,0.9033,-0.0636,-0.5514,0.9082
"""
"""L1 a1 b1 L2 a2 b2 and CIEDE2000: all 34 pairs of Sharma, Wu and Dalal, Color Research &
Application 30(1), 2005, table 1."""


@pytest.mark.parametrize("row", SHARMA.split())
def test_ciede2000(row: str) -> None:
    l1, a1, b1, l2, a2, b2, expected = map(float, row.split(","))
    assert shade_difference((l1, a1, b1), (l2, a2, b2)) == pytest.approx(expected, abs=0.0001)
    assert shade_difference((l2, a2, b2), (l1, a1, b1)) == pytest.approx(expected, abs=0.0001)
