"""Which cloth to risk on a test of the fit."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING, Any

import pytest
from pairing_kit import SETTINGS, TODAY, Book, asking, cloth, cm, make, pattern, strip

from stash.cloth.record import Hand, Structure
from stash.pairing.likeness import differences, likeness, missed
from stash.pairing.muslin import intended_cloth, muslin_candidates
from stash.pairing.needs import Needs

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from stash.cloth.record import Cloth
    from stash.pairing.judgement import MuslinCandidate

OF = pattern(pieces=(strip("front", 100, 60),), asks=asking(structures=(Structure.WOVEN,)))


def rank(
    *shelf: Cloth,
    intended: Cloth | None = None,
    wanted_by: Mapping[int, Sequence[str]] | None = None,
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
        wanted_by=wanted_by,
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


def test_what_another_make_wants_comes_later() -> None:
    one, two = cloth("one", id=1), cloth("two", id=2)
    assert ids(rank(one, two)) == [1, 2]
    wanted = rank(one, two, wanted_by={1: ["blue dress"]})
    assert ids(wanted) == [2, 1]
    assert "It is also the best cloth for blue dress." in wanted[1].why


def test_the_promised_cloth_is_the_intended_one() -> None:
    cloths = {1: cloth(id=1), 9: GOOD_WOOL}
    pairings = [each.pairing for each in rank(cloths[1])]
    assert intended_cloth(pairings, cloths) == cloths[1]
    assert intended_cloth(pairings, cloths, promised=9) == GOOD_WOOL
    assert intended_cloth([], cloths) is None
