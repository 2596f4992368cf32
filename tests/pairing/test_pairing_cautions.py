"""Cautions: who is warned of what. None of them clears anything."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from pairing_kit import cloth, cm, fibres, pattern

from stash.cloth.record import Flaw, Structure
from stash.garment.make import Person
from stash.garment.pattern import Kind, Notion, Role, Size
from stash.pairing.cautions import cautions

if TYPE_CHECKING:
    from stash.cloth.record import Cloth
    from stash.garment.pattern import Pattern


def said(
    one: Cloth, of: Pattern, age: int | None = None, role: Role = Role.MAIN, size: str = "M"
) -> str:
    person = None if age is None else Person(name="Tove", child_age=age)
    return " ".join(cautions(one, of, role, size=size, view="", person=person, free=one.left))


FLANNEL = cloth(weight=150.0, raised=True)


@pytest.mark.parametrize(
    ("one", "warned"),
    [
        (FLANNEL, True),
        (cloth(weight=280.0, raised=True, fibres=fibres("polyester 100")), False),
        (cloth(weight=70.0), True),
        (cloth(weight=120.0), False),
        (cloth(weight=280.0, raised=True, fibres=fibres("cotton 60 polyester 40")), True),
    ],
)
def test_fire_screen(one: Cloth, warned: bool) -> None:
    """16 CFR 1610.1(d): cotton flannel, polyester fleece, 70 g lawn, 120 g poplin, mixed fleece."""
    assert ("flame" in said(one, pattern())) is warned


def test_interfacing_and_bags_are_not_worn_surfaces() -> None:
    assert said(FLANNEL, pattern(), role=Role.INTERFACING) == ""
    assert said(FLANNEL, pattern(Kind.BAG)) == ""


def test_childrens_nightwear() -> None:
    pyjamas = pattern(Kind.PYJAMAS, child=True)
    assert "nightwear has fire rules" in said(cloth(), pyjamas)
    assert "nightwear has fire rules" in said(cloth(), replace(pyjamas, child=False), age=6)
    assert "nightwear has fire rules" not in said(cloth(), replace(pyjamas, child=False))


@pytest.mark.parametrize(("chest", "loose"), [(56.0, False), (56.1, True)])
def test_tight_nightwear_of_size_4(chest: float, loose: bool) -> None:
    """16 CFR 1615.1(o)(1): chest of size 4 at most 56.0 cm."""
    sized = pattern(
        Kind.PYJAMAS, child=True, sizes=(Size(label="4", finished=(("chest", cm(chest)),)),)
    )
    assert ("At the chest" in said(cloth(), sized, age=4, size="4")) is loose


def test_a_cord_in_a_childs_hood() -> None:
    """EN 14682:2014 allows none up to 7 years, 16 CFR 1120.3 none in sizes 2T to 12."""
    coat = pattern(Kind.COAT, notions=(Notion(name="cord for the hood"),))
    assert "EN 14682 allows no cords" in said(cloth(), coat, age=5)
    assert "US rules" in said(cloth(), coat, age=5)
    assert said(cloth(), coat) == ""
    elastic = replace(coat, notions=(Notion(name="cordless elastic"),))
    assert said(cloth(), elastic, age=5) == ""


def test_small_parts_under_three() -> None:
    """16 CFR 1501.4: every ordinary button fits the test cylinder."""
    shirt = pattern(notions=(Notion(name="buttons", amount=6),))
    assert "small parts" in said(cloth(), shirt, age=2)
    assert "small parts" not in said(cloth(), shirt, age=3)


def test_a_flaw_on_a_cloth_partly_promised() -> None:
    flawed = cloth(flaws=(Flaw(100, 100, 10),))
    sentences = cautions(flawed, pattern(), Role.MAIN, size="M", view="", free=cm(100))
    assert any("lay both makes out" in sentence for sentence in sentences)


def test_a_remnant_partly_promised() -> None:
    remnant = cloth(outline=((0, 0), (1000, 0), (1000, 700), (0, 1400)))
    sentences = cautions(remnant, pattern(), Role.MAIN, size="M", view="", free=cm(50))
    assert any("a remnant with an outline: lay both" in sentence for sentence in sentences)
    whole = cautions(remnant, pattern(), Role.MAIN, size="M", view="", free=remnant.left)
    assert not any("lay both" in sentence for sentence in whole)


def test_nothing_is_ever_called_safe() -> None:
    every = [FLANNEL, cloth(weight=50.0, sheer=True), cloth(structure=Structure.KNIT, raised=True)]
    child = pattern(
        Kind.PYJAMAS, child=True, notions=(Notion(name="drawstring"), Notion(name="buttons"))
    )
    for one in every:
        for sentence in cautions(one, child, Role.MAIN, size="4", view=""):
            assert "safe" not in sentence.lower()
            assert "compl" not in sentence.lower()
            assert "where you live" in sentence
