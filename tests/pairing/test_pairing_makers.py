"""Thirty cloths and garments any experienced maker would judge alike (common practice).

`yes`: it is a usual cloth for this. `no`: it fails a hard ask, or nobody would cut it. Else the
complaint a maker would make of a cloth that works: the factor that has to speak up.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from pairing_kit import asking, cloth, fibres, pattern

from stash.cloth.record import Cloth, Hand, Structure
from stash.config import System
from stash.garment.pattern import Kind, Role
from stash.pairing.case import case_for
from stash.pairing.gates import failed
from stash.pairing.suit import reasons_for, suit_of

if TYPE_CHECKING:
    from stash.garment.pattern import Asks
    from stash.pairing.judgement import Reason

WOVEN, KNIT, FELTED = Structure.WOVEN, Structure.KNIT, Structure.FELTED
YES_FROM, NO_BELOW = 0.75, 0.5


def of(structure: Structure, content: str, weight: float, hand: Hand, **more: Any) -> Cloth:
    return cloth(
        "it", structure=structure, fibres=fibres(content), weight=weight, hand=hand, **more
    )


FLUID, SOFT, MEDIUM, FIRM, CRISP = Hand
CLOTHS = {
    "stiff denim": of(WOVEN, "cotton 100", 440, CRISP),
    "denim": of(WOVEN, "cotton 100", 330, FIRM),
    "voile": of(WOVEN, "cotton 100", 65, SOFT, sheer=True),
    "silk chiffon": of(WOVEN, "silk 100", 35, FLUID, sheer=True),
    "georgette": of(WOVEN, "polyester 100", 70, FLUID, sheer=True),
    "canvas": of(WOVEN, "cotton 100", 400, CRISP),
    "poplin": of(WOVEN, "cotton 100", 120, MEDIUM),
    "lawn": of(WOVEN, "cotton 100", 75, SOFT),
    "quilting cotton": of(WOVEN, "cotton 100", 145, MEDIUM),
    "taffeta": of(WOVEN, "polyester 100", 90, CRISP),
    "viscose challis": of(WOVEN, "viscose 100", 120, FLUID),
    "crepe de chine": of(WOVEN, "silk 100", 65, FLUID),
    "linen": of(WOVEN, "linen 100", 190, MEDIUM),
    "linen twill": of(WOVEN, "linen 100", 230, MEDIUM),
    "wool flannel": of(WOVEN, "wool 100", 280, MEDIUM),
    "brushed cotton": of(WOVEN, "cotton 100", 160, SOFT, raised=True, nap=True),
    "needlecord": of(WOVEN, "cotton 100", 230, MEDIUM, raised=True, nap=True),
    "jumbo cord": of(WOVEN, "cotton 100", 380, FIRM, raised=True, nap=True),
    "lining satin": of(WOVEN, "acetate 100", 80, FLUID),
    "melton": of(FELTED, "wool 100", 550, FIRM, raised=True, nap=True),
    "cotton jersey": of(KNIT, "cotton 95 elastane 5", 190, SOFT, stretch_across=60.0),
    "rib": of(KNIT, "cotton 95 elastane 5", 230, SOFT, stretch_across=100.0, recovery=92.0),
    "ponte": of(
        *(KNIT, "viscose 65 polyamide 30 elastane 5", 310, MEDIUM),
        stretch_across=28.0,
        recovery=90.0,
    ),
    "french terry": of(KNIT, "cotton 100", 280, SOFT, stretch_across=25.0),
    "fleece-back knit": of(KNIT, "cotton 100", 310, MEDIUM, stretch_across=30.0, raised=True),
    "sweater knit": of(KNIT, "acrylic 70 wool 30", 280, SOFT, stretch_across=60.0, recovery=70.0),
}

JUDGED = [
    ("stiff denim", Kind.BLOUSE, "no"),
    ("voile", Kind.COAT, "no"),
    ("silk chiffon", Kind.TROUSERS_TAILORED, "no"),
    ("canvas", Kind.SKIRT_FLARED, "no"),
    ("cotton jersey", Kind.TROUSERS_TAILORED, "no"),
    ("poplin", Kind.TSHIRT, "no"),
    ("melton", Kind.SHIRT, "no"),
    ("rib", Kind.JACKET, "no"),
    ("quilting cotton", Kind.TURTLENECK, "no"),
    ("lining satin", Kind.BAG, "no"),
    ("jumbo cord", Kind.BLOUSE, "no"),
    ("georgette", Kind.SKIRT_STRAIGHT, "no"),
    ("ponte", Kind.TROUSERS_ELASTIC, "yes"),
    ("poplin", Kind.SHIRT, "yes"),
    ("lawn", Kind.BLOUSE, "yes"),
    ("viscose challis", Kind.SKIRT_FLARED, "yes"),
    ("wool flannel", Kind.TROUSERS_TAILORED, "yes"),
    ("melton", Kind.COAT, "yes"),
    ("stiff denim", Kind.BAG, "yes"),
    ("cotton jersey", Kind.TSHIRT, "yes"),
    ("rib", Kind.TURTLENECK, "yes"),
    ("french terry", Kind.SWEATSHIRT, "yes"),
    ("brushed cotton", Kind.PYJAMAS, "yes"),
    ("needlecord", Kind.PINAFORE, "yes"),
    ("linen twill", Kind.SHORTS, "yes"),
    ("fleece-back knit", Kind.TURTLENECK, "bulk"),
    ("denim", Kind.TROUSERS_ELASTIC, "bulk"),
    ("quilting cotton", Kind.TROUSERS_TAILORED, "weight"),
    ("sweater knit", Kind.TURTLENECK, "recovery"),
    ("taffeta", Kind.BLOUSE, "hand"),
]
"""Written down before they were tried; never changed to fit."""

MISSES = {
    ("fleece-back knit", Kind.TURTLENECK): "A turtleneck whose pattern says nothing is taken as a "
    "close one, whose collar has to stretch by half to pass over the head. A maker thinks of a "
    "loose one here; a pattern that says it asks for less gets the maker's answer.",
}
"""Where the code judges otherwise, and why."""


def judge(name: str, kind: Kind, asks: tuple[Asks, ...] = ()) -> tuple[float, tuple[Reason, ...]]:
    case = case_for(CLOTHS[name], pattern(kind, asks=asks), Role.MAIN, System.METRIC)
    reasons = reasons_for(case)
    return suit_of(reasons), reasons


def agrees(name: str, kind: Kind, judged: str, asks: tuple[Asks, ...] = ()) -> bool:
    suit, reasons = judge(name, kind, asks)
    if judged == "no":
        return bool(failed(reasons)) or suit < NO_BELOW
    if judged == "yes":
        return suit >= YES_FROM
    complaints = {r.factor for r in reasons if r.mark is not None and r.mark < 1}
    return suit >= NO_BELOW and judged in complaints


def test_at_least_28_of_30_as_makers_judge() -> None:
    assert len(JUDGED) == len({(name, kind) for name, kind, _ in JUDGED}) == 30
    wrong = {(name, kind) for name, kind, judged in JUDGED if not agrees(name, kind, judged)}
    assert wrong == set(MISSES)
    assert len(wrong) <= 2


def test_a_loose_turtleneck_of_fleece_is_workable_and_bulky() -> None:
    loose = asking(structures=(KNIT,), stretch_across=25.0, weight_low=120.0, weight_high=260.0)
    assert agrees("fleece-back knit", Kind.TURTLENECK, "bulk", loose)


@pytest.mark.parametrize(
    ("better", "worse", "kind"),
    [
        ("denim", "quilting cotton", Kind.TROUSERS_TAILORED),
        ("cotton jersey", "sweater knit", Kind.TSHIRT),
        ("ponte", "cotton jersey", Kind.SKIRT_STRAIGHT),
        ("viscose challis", "taffeta", Kind.BLOUSE),
    ],
)
def test_makers_prefer(better: str, worse: str, kind: Kind) -> None:
    assert judge(better, kind)[0] > judge(worse, kind)[0]
