"""Which cloth to risk on a test of the fit."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING, Any

import pytest
from pairing_kit import SETTINGS, TODAY, Book, asking, cloth, cm, make, pattern, strip

from stash.cloth.record import Hand, Structure
from stash.garment.make import Promise, State
from stash.garment.pattern import Kind, Role
from stash.pairing.filling import Shelf
from stash.pairing.likeness import differences, likeness, missed
from stash.pairing.moves import Move
from stash.pairing.muslin import intended_cloth, muslin_candidates, muslin_first, priced
from stash.pairing.needs import Needs
from stash.pairing.price import Price, market
from stash.pairing.wearing import Garment, wardrobe, worn

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.cloth.record import Cloth
    from stash.pairing.judgement import MuslinCandidate

OF = pattern(pieces=(strip("front", 100, 60),), asks=asking(structures=(Structure.WOVEN,)))


def rank(
    *shelf: Cloth,
    intended: Cloth | None = None,
    has: Sequence[Garment] = (),
) -> tuple[MuslinCandidate, ...]:
    return muslin_candidates(
        make(),
        OF,
        shelf,
        {c.id: c.left for c in shelf},
        Needs(Book()),
        SETTINGS,
        today=TODAY,
        intended=intended,
        has=has,
    )


def ids(found: Sequence[MuslinCandidate]) -> list[int]:
    return [each.pairing.cloth_id for each in found]


GOOD_WOOL = cloth("good wool", id=9, weight=280.0, hand=Hand.MEDIUM, loved=5)


def test_a_cloth_is_most_like_itself() -> None:
    assert likeness(GOOD_WOOL, GOOD_WOOL) == 1
    near, far = cloth(weight=260.0), cloth(weight=80.0, hand=Hand.FLUID)
    alike, unlike = likeness(near, GOOD_WOOL), likeness(far, GOOD_WOOL)
    assert alike is not None
    assert unlike is not None
    assert alike > 0.9 > 0.4 > unlike
    assert likeness(GOOD_WOOL, near) == alike


def test_half_as_heavy_again_and_a_step_of_hand_are_felt() -> None:
    assert differences(cloth(weight=300.0, hand=Hand.FIRM), cloth(weight=150.0)) == (
        "weight",
        "hand",
    )
    assert differences(cloth(weight=140.0), cloth(weight=150.0)) == ()


def test_nothing_known_is_no_likeness() -> None:
    assert likeness(cloth(weight=None, hand=None), GOOD_WOOL) is None
    knit = likeness(cloth(weight=None, hand=None, structure=Structure.KNIT), GOOD_WOOL)
    assert knit == 0.5, "a knit is half as like at most, whatever else is not known"


def test_nothing_known_comes_after_what_is_known_to_be_like() -> None:
    like, unknown = cloth(id=2, weight=280.0), cloth(id=1, weight=None, hand=None)
    assert ids(rank(unknown, like, intended=GOOD_WOOL)) == [2, 1]


@pytest.mark.parametrize(
    ("more", "less"),
    [
        ({"loved": 5}, {"loved": 1}),
        ({"price": Decimal(40)}, {"price": Decimal(4)}),
        ({"again": False}, {"again": True}),
        ({"got": date(2025, 8, 1)}, {"got": date(2015, 8, 1)}),
    ],
)
def test_what_makes_a_cloth_missed(more: dict[str, Any], less: dict[str, Any]) -> None:
    high = missed(cloth(**more), TODAY)
    low = missed(cloth(**less), TODAY)
    assert 0 <= low < high <= 1


def test_hard_asks_hold_for_a_test_too() -> None:
    knit = cloth(id=1, structure=Structure.KNIT)
    assert rank(knit) == ()


def test_the_like_and_little_loved_cloth_comes_first() -> None:
    like = cloth("blanket", id=1, weight=270.0, loved=1)
    thin = cloth("voile", id=2, weight=60.0, hand=Hand.FLUID, loved=1)
    dear = cloth("best tweed", id=3, weight=285.0, loved=5, price=Decimal(60))
    assert ids(rank(thin, dear, like, intended=GOOD_WOOL))[0] == 1


def test_the_intended_cloth_is_never_risked() -> None:
    assert ids(rank(GOOD_WOOL, cloth(id=1), intended=GOOD_WOOL)) == [1]


def test_letting_out_takes_five_centimetres_more() -> None:
    assert ids(rank(cloth(id=1, left=cm(104)), cloth(id=2, left=cm(105)))) == [2]


def test_what_the_plan_misses_comes_later() -> None:
    one, two = cloth("one", id=1), cloth("two", id=2)
    found = rank(one, two)
    assert ids(found) == [1, 2]
    other = make("blue dress", id=7)
    move = Move(make_id=7, role=Role.MAIN, before=1, after=None, why="")
    later = priced(found, {1: Price(1.5, (move,)), 2: Price(0.0)}, {7: other}, {1: one, 2: two})
    assert ids(later) == [2, 1]
    assert "No other make loses by it." in later[0].why
    assert any("blue dress, main, would have to be bought for" in why for why in later[1].why)


def test_the_price_is_what_the_plan_loses() -> None:
    """Without the first cloth its make takes the second, or has to be bought for."""
    of = pattern(pieces=(strip("front", 100, 60),), asks=asking(weight_high=150.0))
    good = cloth("good", id=1, left=cm(120))
    heavy = cloth("heavy", id=2, left=cm(120), weight=200.0)
    idle = cloth("idle", id=3, left=cm(120), weight=400.0)
    shelf = Shelf((make(),), {1: of}, {c.id: c for c in (good, heavy, idle)}, (), {})
    against = market(shelf, Needs(Book()), SETTINGS, TODAY)
    assert against.price(3, cm(110)) == Price(0.0)
    assert against.price(1, cm(10)).worth == pytest.approx(0)
    lost = against.price(1, cm(110))
    assert [(m.before, m.after) for m in lost.moves] == [(1, 2)]
    # 200 g/m2 where 150 at most are asked: mark (150/200 - 1/2) / (1/2) = 0.5. Weight counts
    # 2, care 1 (cotton washes as a shirt does), width 0.5. Priority 3 times what the suit falls.
    (best,) = (r.pairing for r in against.plan.roles)
    assert best is not None
    width = next(r.mark for r in best.reasons if r.factor == "width")
    assert width is not None
    fall = width ** (1 / 7) - (0.5**2 * width**0.5) ** (1 / 3.5)
    assert lost.worth == pytest.approx(3 * fall, abs=1e-6)
    nothing = market(
        Shelf((make(),), {1: of}, {1: good}, (), {}), Needs(Book()), SETTINGS, TODAY
    ).price(1, cm(110))
    assert nothing.worth > lost.worth
    assert [(m.before, m.after) for m in nothing.moves] == [(1, None)]


def test_what_would_be_worn_comes_first() -> None:
    """A second pair of the same shade is worn less than one that fills a bare spot."""
    grey = {"colour": "#808080", "colour_name": "grey"}
    red = {"colour": "#a02020", "colour_name": "red"}
    mine = [Garment(Kind.SHIRT, "the grey one", cloth("old", id=5, **grey))]
    again, new = worn(cloth(**grey), Kind.SHIRT, mine), worn(cloth(**red), Kind.SHIRT, mine)
    assert again.mark < new.mark
    assert again.why == ("It would be much like the grey one.",)
    bare = worn(cloth(**grey), Kind.COAT, mine)
    assert "It fills a bare spot: no coat yet." in bare.why
    same, other = cloth(id=1, **grey), cloth(id=2, **red)
    assert ids(rank(same, other)) == [1, 2]
    assert ids(rank(same, other, has=mine)) == [2, 1]


def test_the_wardrobe_is_what_was_cut_for_her_and_kept() -> None:
    makes = [
        make("hers", id=1, person_id=4, state=State.WORN),
        make("his", id=2, person_id=5, state=State.WORN),
        make("gone", id=3, person_id=4, state=State.LET_GO),
        make("promised only", id=6, person_id=4),
    ]
    held = [
        Promise(make_id=m.id, role=Role.MAIN, cloth_id=1, length=cm(90), cut=m.id != 6)
        for m in makes
    ]
    found = wardrobe(4, makes, {1: OF}, {1: cloth()}, held)
    assert [garment.name for garment in found] == ["hers"]


def test_a_loved_cloth_is_not_the_first_to_be_cut_from_a_new_pattern() -> None:
    found = rank(cloth("one", id=1), cloth("two", id=2), intended=GOOD_WOOL)
    advice = muslin_first(make(), OF, GOOD_WOOL, found, tested=False)
    assert advice is not None
    assert advice.cloth_ids == tuple(ids(found))
    assert "good wool is too well loved" in advice.why
    assert muslin_first(make(), OF, GOOD_WOOL, found, tested=True) is None
    assert muslin_first(make(muslin=True), OF, GOOD_WOOL, found, tested=False) is None
    assert muslin_first(make(), OF, replace(GOOD_WOOL, loved=3), found, tested=False) is None


def test_the_promised_cloth_is_the_intended_one() -> None:
    cloths = {1: cloth(id=1), 9: GOOD_WOOL}
    pairings = [each.pairing for each in rank(cloths[1])]
    assert intended_cloth(pairings, cloths) == cloths[1]
    assert intended_cloth(pairings, cloths, promised=9) == GOOD_WOOL
    assert intended_cloth([], cloths) is None
