"""Suit: what any experienced maker would say of these cloths (common practice throughout)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from pairing_kit import asking, cloth, cm, fibres, pattern, strip

from stash.cloth.record import Cloth, Hand, Structure
from stash.config import SUIT_WEIGHTS, System
from stash.garment.pattern import Kind, Role
from stash.pairing.bulk import rigidity
from stash.pairing.case import case_for
from stash.pairing.gates import failed
from stash.pairing.sources import SOURCES
from stash.pairing.suit import known_of, reasons_for, suit_of

if TYPE_CHECKING:
    from stash.pairing.judgement import Reason

WOVEN, KNIT, FELTED = Structure.WOVEN, Structure.KNIT, Structure.FELTED


def kind_of(
    name: str, structure: Structure, content: str, weight: float, hand: Hand, **more: Any
) -> Cloth:
    return cloth(
        name, structure=structure, fibres=fibres(content), weight=weight, hand=hand, **more
    )


CLOTHS = {
    each.name: each
    for each in (
        kind_of("poplin", WOVEN, "cotton 100", 120, Hand.MEDIUM),
        kind_of("lawn", WOVEN, "cotton 100", 75, Hand.SOFT),
        kind_of("chambray", WOVEN, "cotton 100", 140, Hand.MEDIUM),
        kind_of("heavy denim", WOVEN, "cotton 100", 440, Hand.CRISP),
        kind_of("canvas", WOVEN, "cotton 100", 400, Hand.CRISP),
        kind_of("needlecord", WOVEN, "cotton 100", 230, Hand.MEDIUM, nap=True, raised=True),
        kind_of("jumbo cord", WOVEN, "cotton 100", 380, Hand.FIRM, nap=True, raised=True),
        kind_of("wool flannel", WOVEN, "wool 100", 280, Hand.MEDIUM),
        kind_of("melton", FELTED, "wool 100", 550, Hand.FIRM, nap=True),
        kind_of("chiffon", WOVEN, "silk 100", 35, Hand.FLUID, sheer=True),
        kind_of("viscose challis", WOVEN, "viscose 100", 120, Hand.FLUID),
        kind_of("crepe de chine", WOVEN, "silk 100", 65, Hand.FLUID),
        kind_of("brushed cotton", WOVEN, "cotton 100", 160, Hand.SOFT, raised=True, nap=True),
        kind_of("lining satin", WOVEN, "acetate 100", 80, Hand.FLUID),
        kind_of("jersey", KNIT, "cotton 95 elastane 5", 190, Hand.SOFT, stretch_across=60.0),
        kind_of(
            "rib",
            KNIT,
            "cotton 95 elastane 5",
            230,
            Hand.SOFT,
            stretch_across=100.0,
            recovery=92.0,
        ),
        kind_of("sweatshirt fleece", KNIT, "cotton 100", 300, Hand.MEDIUM, stretch_across=22.0),
        kind_of(
            "ponte",
            KNIT,
            "viscose 70 polyamide 25 elastane 5",
            320,
            Hand.MEDIUM,
            stretch_across=30.0,
        ),
        kind_of("fusible interfacing", WOVEN, "cotton 100", 90, Hand.CRISP),
    )
}

GOOD = [
    ("poplin", Kind.SHIRT),
    ("chambray", Kind.SHIRT),
    ("lawn", Kind.BLOUSE),
    ("crepe de chine", Kind.BLOUSE),
    ("viscose challis", Kind.SKIRT_FLARED),
    ("wool flannel", Kind.TROUSERS_TAILORED),
    ("needlecord", Kind.PINAFORE),
    ("heavy denim", Kind.BAG),
    ("canvas", Kind.BAG),
    ("melton", Kind.COAT),
    ("brushed cotton", Kind.PYJAMAS),
    ("jersey", Kind.TSHIRT),
    ("rib", Kind.TURTLENECK),
    ("sweatshirt fleece", Kind.SWEATSHIRT),
]
POOR = [
    ("heavy denim", Kind.BLOUSE),
    ("chiffon", Kind.TROUSERS_TAILORED),
    ("chiffon", Kind.PINAFORE),
    ("canvas", Kind.SKIRT_FLARED),
    ("heavy denim", Kind.PYJAMAS),
    ("lawn", Kind.COAT),
    ("fusible interfacing", Kind.SHIRT),
]
UNSUITED = [
    ("poplin", Kind.TSHIRT),
    ("poplin", Kind.TURTLENECK),
    ("sweatshirt fleece", Kind.TURTLENECK),
    ("jersey", Kind.SHIRT),
    ("jersey", Kind.TROUSERS_TAILORED),
    ("jersey", Kind.COAT),
    ("melton", Kind.SHIRT),
]


def judged(name: str, kind: Kind, role: Role = Role.MAIN) -> tuple[Reason, ...]:
    return reasons_for(case_for(CLOTHS[name], pattern(kind), role, System.METRIC))


@pytest.mark.parametrize(("name", "kind"), GOOD)
def test_right_for_it(name: str, kind: Kind) -> None:
    assert suit_of(judged(name, kind)) >= 0.75


@pytest.mark.parametrize(("name", "kind"), POOR)
def test_can_be_cut_but_nobody_would(name: str, kind: Kind) -> None:
    reasons = judged(name, kind)
    assert not failed(reasons)
    assert 0 < suit_of(reasons) < 0.5


@pytest.mark.parametrize(("name", "kind"), UNSUITED)
def test_fails_a_hard_ask(name: str, kind: Kind) -> None:
    reasons = judged(name, kind)
    assert failed(reasons)
    assert suit_of(reasons) == 0


@pytest.mark.parametrize(
    ("better", "worse", "kind"),
    [
        ("needlecord", "jumbo cord", Kind.TROUSERS_ELASTIC),
        ("viscose challis", "heavy denim", Kind.TROUSERS_ELASTIC),
        ("lawn", "heavy denim", Kind.SHIRT),
        ("brushed cotton", "chiffon", Kind.PYJAMAS),
        ("wool flannel", "poplin", Kind.TROUSERS_TAILORED),
    ],
)
def test_the_better_of_two(better: str, worse: str, kind: Kind) -> None:
    assert suit_of(judged(better, kind)) > suit_of(judged(worse, kind))


def test_a_lining_slides() -> None:
    acetate = suit_of(judged("lining satin", Kind.COAT, Role.LINING))
    flannel = suit_of(judged("brushed cotton", Kind.COAT, Role.LINING))
    assert acetate >= 0.9
    assert flannel < acetate


def test_only_interfacing_is_good_interfacing() -> None:
    right = suit_of(judged("fusible interfacing", Kind.SHIRT, Role.INTERFACING))
    silk = suit_of(judged("crepe de chine", Kind.SHIRT, Role.INTERFACING))
    assert right >= 0.9
    assert silk < 0.4


def test_rigidity_against_the_worked_value() -> None:
    """150 g/m² with a bending length of 2.0 cm: 120 mg·cm (0.1 W c³, BS 3356 from memory)."""
    assert rigidity(cloth(weight=150.0, bending_length=20.0)) == pytest.approx(120.0)


def test_stiff_cloth_is_bulky_in_gathers_and_not_without() -> None:
    """House rule: gathered 1.5 times and above 250 g/m² or 300 mg·cm."""
    stiff = cloth(weight=340.0, bending_length=35.0)
    gathered = pattern(Kind.SKIRT_FLARED, fullness=1.8)
    plain = pattern(Kind.SKIRT_STRAIGHT)
    marks = [
        {r.factor: r.mark for r in reasons_for(case_for(stiff, p, Role.MAIN, System.METRIC))}
        for p in (gathered, plain)
    ]
    assert marks[0]["bulk"] is not None
    assert marks[0]["bulk"] < 0.6
    assert "bulk" not in marks[1]


def test_every_factor_says_something_plain() -> None:
    for name in CLOTHS:
        for kind in Kind:
            for reason in judged(name, kind):
                assert reason.sentence.endswith(".")
                assert reason.sentence[0].isupper()
                assert reason.mark is None or 0 <= reason.mark <= 1


def test_drape_measured_speaks_before_the_guess() -> None:
    """A round shadow of 452 cm² is a drape coefficient of 43.66 % (Cusick): soft, not crisp."""
    guessed = cloth(hand=Hand.CRISP)
    measured = cloth(hand=Hand.CRISP, drape=43.66)
    soft = pattern(asks=asking(hand_low=Hand.FLUID, hand_high=Hand.SOFT))
    marks = [
        suit_of(reasons_for(case_for(each, soft, Role.MAIN, System.METRIC)))
        for each in (guessed, measured)
    ]
    assert marks[0] < 0.5
    assert marks[1] == 1


def factor(reasons: tuple[Reason, ...], name: str) -> Reason | None:
    return next((reason for reason in reasons if reason.factor == name), None)


def test_the_geometric_mean_against_hand_arithmetic() -> None:
    """Derringer & Suich 1980: D = (d1^w1 d2^w2)^(1 / (w1 + w2)).

    70 g/m² where 100 to 150 are asked: (70 - 50) / (100 - 50) = 0.4; one step too soft: 0.6.
    """
    asks = asking(weight_low=100.0, weight_high=150.0, hand_low=Hand.MEDIUM, hand_high=Hand.FIRM)
    of = pattern(Kind.DRESS, asks=asks)
    thin = cloth(weight=70.0, hand=Hand.SOFT)
    for weight, hand in ((2.0, 2.0), (1.0, 3.0), (4.0, 0.0)):
        weights = {"weight": weight, "hand": hand}
        found = reasons_for(case_for(thin, of, Role.MAIN, System.METRIC, weights=weights))
        expected = (0.4**weight * 0.6**hand) ** (1 / (weight + hand))
        assert suit_of(found) == pytest.approx(expected)


def test_what_nobody_measured_lowers_how_sure_and_not_how_well() -> None:
    of = pattern(Kind.SHIRT)
    known, unknown = cloth(), cloth(weight=None)
    marks = [reasons_for(case_for(c, of, Role.MAIN, System.METRIC)) for c in (known, unknown)]
    assert suit_of(marks[0]) == suit_of(marks[1]) == 1
    assert known_of(marks[0]) == 1 > known_of(marks[1]) > 0


@pytest.mark.parametrize(
    ("changes", "kind", "name", "how"),
    [
        # A piece of 1.42 by 3 m is 4.26 m²: at 70 to 190 g/m² it weighs 298 to 809 g.
        ({"weight": None}, Kind.SHIRT, "weight", "298 to 809 g"),
        # ASTM D1388: half the overhang at 41.5 degrees, and tan 41.5 = 0.885.
        ({"hand": None}, Kind.SHIRT, "hand", "44 mm down for every 50 mm out"),
        ({"structure": KNIT}, Kind.TSHIRT, "stretch across", "10 cm must reach 12.5 cm"),
    ],
)
def test_the_unknown_says_how_to_measure_it(
    changes: dict[str, Any], kind: Kind, name: str, how: str
) -> None:
    asks = reasons_for(case_for(cloth(**changes), pattern(kind), Role.MAIN, System.METRIC))
    found = factor(asks, name)
    assert found is not None
    assert found.mark is None
    assert how in found.sentence


def test_a_washable_shell_with_a_dry_clean_lining_is_flagged() -> None:
    """One care for the whole article: 16 CFR 423, ISO 3758 (from memory)."""
    shell, tender = cloth("drill", care="40 wash"), cloth("satin", id=2, care="dry clean only")
    coat = pattern(Kind.COAT)

    def care(mine: Cloth, role: Role, other: Cloth) -> Reason | None:
        beside = {Role.LINING if role is Role.MAIN else Role.MAIN: other}
        case = case_for(mine, coat, role, System.METRIC, beside=beside)
        return factor(reasons_for(case), "care")

    for found in (care(shell, Role.MAIN, tender), care(tender, Role.LINING, shell)):
        assert found is not None
        assert found.mark is not None
        assert found.mark < 0.5
        assert "for the sake of satin the whole garment is not washed" in found.sentence
    alike = care(shell, Role.MAIN, cloth("cupro", id=3, care="machine wash 30"))
    assert alike is not None
    assert alike.mark == 1
    nobody = care(shell, Role.MAIN, cloth("it", id=4, fibres=()))
    assert nobody is not None
    assert nobody.mark is None


@pytest.mark.parametrize(
    ("to", "passes"),
    # An envelope's gauge of 4 to 5.4 in asks 35 %: 10 cm must reach 13.5 cm.
    [(13.0, False), (13.5, True)],
)
def test_the_gauge_of_an_envelope_is_a_hard_ask(to: float, passes: bool) -> None:
    asks = asking(structures=(KNIT,), stretch_across=(5.4 - 4) / 4 * 100)
    knit = cloth(structure=KNIT, stretch_across=(to - 10) / 10 * 100)
    case = case_for(knit, pattern(Kind.TSHIRT, asks=asks), Role.MAIN, System.METRIC)
    assert bool(failed(reasons_for(case))) is not passes


def test_stretch_wovens_that_grow_bag() -> None:
    """ASTM D3107: growth = (let go - marked) / marked. 30 % with 92 % recovery grows 2.4 %,
    with 70 % recovery 9 %."""
    marks = []
    for recovery in (92.0, 70.0, None):
        denim = cloth(stretch_across=30.0, recovery=recovery, weight=330.0)
        case = case_for(denim, pattern(Kind.TROUSERS_TAILORED), Role.MAIN, System.METRIC)
        found = factor(reasons_for(case), "stability")
        assert found is not None
        marks.append(found.mark)
    assert marks[0] == 1
    assert marks[1] is not None
    assert marks[1] < 0.2
    assert marks[2] is None


def test_a_large_print_wants_few_seams() -> None:
    """House rule; common practice behind it."""
    print_cloth = cloth(print="floral", repeat_length=cm(50))
    few, many, small = (
        pattern(Kind.DRESS, pieces=tuple(strip(f"p{n}", 90, wide) for n in range(count)))
        for count, wide in ((2, 60), (10, 60), (2, 30))
    )
    marks = []
    for of in (few, many, small):
        case = case_for(print_cloth, of, Role.MAIN, System.METRIC)
        found = factor(reasons_for(case), "print")
        assert found is not None
        assert found.mark is not None
        marks.append(found.mark)
    assert marks[0] > marks[1]
    assert marks[0] > marks[2]


def test_a_sheer_blouse_is_worn_over_something() -> None:
    marks = []
    for kind in (Kind.BLOUSE, Kind.SKIRT_STRAIGHT):
        case = case_for(cloth(weight=65.0, sheer=True), pattern(kind), Role.MAIN, System.METRIC)
        found = factor(reasons_for(case), "surface")
        assert found is not None
        assert found.mark is not None
        assert "sheer" in found.sentence
        marks.append(found.mark)
    assert 1 > marks[0] > marks[1]


def test_linen_is_cool_and_fleece_warm() -> None:
    sweatshirt, shorts = pattern(Kind.SWEATSHIRT), pattern(Kind.SHORTS)
    linen, fleece = cloth(fibres=fibres("linen 100")), cloth(raised=True)
    out = [
        factor(reasons_for(case_for(c, p, Role.MAIN, System.METRIC)), "season")
        for c, p in ((linen, sweatshirt), (fleece, shorts), (fleece, sweatshirt), (linen, shorts))
    ]
    assert [reason.mark if reason else None for reason in out] == [0.5, 0.5, 1.0, 1.0]


def test_every_factor_has_a_source_and_every_weight_a_factor() -> None:
    told = {reason.factor for name in CLOTHS for kind in Kind for reason in judged(name, kind)}
    assert told <= set(SOURCES)
    assert set(SUIT_WEIGHTS) <= set(SOURCES)
