"""Two makes on one cloth, cloths that go together, days that are near, and a budget."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from pairing_kit import SETTINGS, TODAY, cloth, cm, given, make, pattern, plan_for, strip

from stash.cloth.record import Flaw
from stash.garment.make import Promise, State
from stash.garment.pattern import Kind, Piece, Role

if TYPE_CHECKING:
    from stash.cloth.record import Cloth

PLAIN = pattern(tested=True, pieces=(strip("front", 100, 100),))


def test_makes_share_a_flawed_cloth_in_one_lay_only() -> None:
    """A flaw's place is known for the first cut only; one lay of both keeps clear of it once."""
    makes = [make("one", id=1), make("two", id=2)]
    flawed = cloth(left=cm(600), flaws=(Flaw(5500, 100, 10),))
    plan = plan_for(makes, [PLAIN], [flawed])
    assert given(plan) == {1: 1, 2: 1}
    assert [r.with_ for r in plan.roles] == [(2, Role.MAIN), (1, Role.MAIN)]
    assert "Cut both" in plan.roles[0].why
    short = cloth(left=cm(190), flaws=(Flaw(1050, 100, 10),))
    assert sorted(given(plan_for(makes, [PLAIN], [short])).values(), key=str) == [1, None]


def test_two_makes_that_fit_only_laid_together() -> None:
    """Triangles of 100 by 100 cm, worked out by hand: turned, two fill one square of 100 cm.

    One after the other they need 2 m of a cloth 102 cm wide; there are 1.1 m.
    """
    half = Piece(name="half", outline=((0, 0), (1000, 0), (0, 1000)))
    halves = pattern(tested=True, pieces=(half,))
    makes = [make("one", id=1), make("two", id=2)]
    plan = plan_for(makes, [halves], [cloth(width=cm(104), left=cm(110))])
    assert given(plan) == {1: 1, 2: 1}
    cut = [
        r.pairing.cut_from_shelf.mm for r in plan.roles if r.pairing and r.pairing.cut_from_shelf
    ]
    assert 1000 <= sum(cut) <= 1100
    assert "Laid together with two" in plan.roles[0].why
    assert plan.shortfalls == ()


def test_a_muslin_is_not_laid_beside_its_make() -> None:
    half = Piece(name="half", outline=((0, 0), (1000, 0), (0, 1000)))
    halves = pattern(tested=True, pieces=(half,))
    makes = [make("real", id=1), make("test", id=2, muslin=True, muslin_for=1)]
    plan = plan_for(makes, [halves], [cloth(width=cm(104), left=cm(110))])
    assert sorted(given(plan).values(), key=str) == [1, None]


SHIRT = pattern(Kind.SHIRT, (strip("front", 100, 100),), tested=True)
SKIRT = replace(pattern(Kind.SKIRT_FLARED, (strip("skirt", 100, 100),), tested=True), id=2)


def coloured(name: str, colour: str, number: int, **more: Any) -> Cloth:
    return cloth(name, id=number, colour=colour, colour_name=name, left=cm(150), **more)


def test_what_is_worn_together_is_cut_from_colours_that_go_together() -> None:
    """Navy and cream, against vivid green beside vivid violet: no colour wheel pairs those."""
    makes = [make("shirt", id=1), make("skirt", id=2, pattern_id=2)]
    navy, green, violet = "#1f2a4d", "#00a550", "#8a2be2"
    cut = Promise(id=1, make_id=2, role=Role.MAIN, cloth_id=1, length=cm(100))
    shelf = [coloured("violet", violet, 1), coloured("green", green, 2), coloured("navy", navy, 3)]
    plan = plan_for(makes, [SHIRT, SKIRT], shelf, [cut])
    assert given(plan)[1] == 3
    assert "it goes less well with what you have" in plan.roles[0].why
    others = [make("shirt", id=1, person_id=1), make("skirt", id=2, pattern_id=2, person_id=2)]
    assert given(plan_for(others, [SHIRT, SKIRT], shelf, [cut]))[1] == 2, "worn by two people"


def test_two_makes_of_the_queue_are_matched_with_each_other() -> None:
    makes = [make("shirt", id=1), make("skirt", id=2, pattern_id=2)]
    shelf = [
        coloured("violet", "#8a2be2", 1),
        coloured("green", "#00a550", 2),
        coloured("pale violet", "#d9c8f5", 3),
    ]
    plan = plan_for(makes, [SHIRT, SKIRT], shelf)
    assert sorted(c for c in given(plan).values() if c) == [1, 3]
    assert any("a light and a dark shade of one hue" in role.why for role in plan.roles)


def test_of_two_makes_as_much_wanted_the_one_due_soon_gets_the_cloth() -> None:
    soon = TODAY + timedelta(days=7)
    makes = [make("some day", id=1), make("soon", id=2, due=soon)]
    assert given(plan_for(makes, [PLAIN], [cloth(left=cm(150))])) == {1: None, 2: 1}
    late = [make("some day", id=1, due=date(2026, 9, 1)), make("soon", id=2, due=soon)]
    assert given(plan_for(late, [PLAIN], [cloth(left=cm(150))])) == {1: None, 2: 1}


def test_what_the_budget_does_not_reach_waits() -> None:
    """Cloth usually cost 10 a square metre; 1 m² of pieces at 75 % is 13.34 for each make."""
    makes = [make("dear", id=1, priority=2), make("dearer", id=2, priority=5)]
    paid = cloth(left=cm(50), width=cm(100), price=Decimal(10))
    rich = replace(SETTINGS, budget=Decimal(27))
    plan = plan_for(makes, [PLAIN], [paid], settings=rich)
    assert [role.waits for role in plan.roles] == [False, False]
    poor = replace(SETTINGS, budget=Decimal(20))
    plan = plan_for(makes, [PLAIN], [paid], settings=poor)
    assert [role.waits for role in plan.roles] == [True, False]
    assert [short.make_id for short in plan.shortfalls] == [2]
    assert "the budget of 20 EUR" in plan.roles[0].why


def test_what_is_cut_or_worn_never_moves() -> None:
    makes = [make("worn", id=1, state=State.WORN), make("new", id=2, priority=5)]
    held = Promise(id=1, make_id=1, role=Role.MAIN, cloth_id=1, length=cm(100), cut=True)
    plan = plan_for(makes, [PLAIN], [cloth(left=cm(150))], [held])
    assert [role.make_id for role in plan.roles] == [2]
