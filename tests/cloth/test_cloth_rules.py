"""A cloth before and after washing, its hand, and its state."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.cloth.hand import hand_of
from stash.cloth.record import Cloth, FibreShare, Hand, Structure
from stash.cloth.state import ClothState, state_of
from stash.cloth.washing import shelf_length, shrinkage, washed_length, washed_usable_width
from stash.units.length import ZERO, Length
from stash.units.parse_length import parse_length

POPLIN = Cloth(
    name="Harbour poplin",
    structure=Structure.WOVEN,
    fibres=(FibreShare("cotton", 100),),
    width=Length.from_mm(1500),
    selvedge=Length.from_mm(10),
    bought=Length.from_mm(3000),
    left=Length.from_mm(3000),
    shrink_length=5,
    shrink_width=4,
)


def test_usable_width_after_the_wash() -> None:
    # (150 - 2) x 0.96 = 142.08 cm: arithmetic.
    assert washed_usable_width(POPLIN) == parse_length("142.08 cm")
    assert washed_usable_width(replace(POPLIN, washed=True)) == parse_length("148 cm")
    assert washed_usable_width(replace(POPLIN, width=Length.from_mm(15))) == ZERO


def test_length_to_cut_from_the_shelf() -> None:
    # 2.00 m net at 5 % is 2.1053 m, not 2.10: arithmetic.
    net = parse_length("2 m")
    assert shelf_length(net, POPLIN).mm == pytest.approx(2105.263, abs=0.001)
    assert shelf_length(net, replace(POPLIN, washed=True)) == net
    assert washed_length(parse_length("2 m"), POPLIN) == parse_length("1.9 m")


def test_decimals_of_shrinkage_are_exact() -> None:
    # 1000 mm less 4.1 % is 959 mm exactly, which binary fractions miss.
    assert washed_length(parse_length("1 m"), replace(POPLIN, shrink_length=4.1)) == parse_length(
        "959 mm"
    )


def test_an_untested_cloth_shrinks_as_its_kind_does() -> None:
    untested = replace(POPLIN, shrink_length=None, shrink_width=None)
    # Cotton woven 3-5 and 1-3 % (from memory).
    length, width = shrinkage(untested)
    assert 3 <= length <= 5
    assert 1 <= width <= 3
    assert shrinkage(replace(untested, washed=True)) == (0, 0)
    assert shrinkage(replace(untested, shrink_length=0.0))[0] == 0


@given(st.integers(0, 10**11), st.integers(0, 300))
def test_what_is_cut_is_enough_once_washed(nm: int, tenths: int) -> None:
    cloth = replace(POPLIN, shrink_length=tenths / 10)
    net = Length(nm)
    cut = shelf_length(net, cloth)
    assert washed_length(cut, cloth) >= net
    if cut > ZERO:
        assert washed_length(cut - Length(2), cloth) < net


@pytest.mark.parametrize(
    ("cloth", "hand", "how"),
    [
        (POPLIN, None, "not known"),
        (replace(POPLIN, hand=Hand.FIRM), Hand.FIRM, "judged by hand"),
        # What was measured counts before what was judged.
        (replace(POPLIN, hand=Hand.FIRM, bending_length=12), Hand.FLUID, "bending length 12 mm"),
        (replace(POPLIN, bending_length=12, drape=80), Hand.CRISP, "drape coefficient 80 %"),
    ],
)
def test_hand_says_where_it_comes_from(cloth: Cloth, hand: Hand | None, how: str) -> None:
    assert hand_of(cloth) == (hand, how)


@pytest.mark.parametrize(
    ("left", "washed", "promised", "state"),
    [
        ("3 m", False, "0 m", ClothState.FREE),
        ("3 m", False, "1 m", ClothState.PROMISED),
        ("2 m", False, "0 m", ClothState.CUT_INTO),
        ("2 m", False, "1 m", ClothState.PROMISED),
        ("0 m", False, "0 m", ClothState.GONE),
        # 3 m less 5 % is 2.85 m: only shorter than that was it cut.
        ("2.85 m", True, "0 m", ClothState.FREE),
        ("2.84 m", True, "0 m", ClothState.CUT_INTO),
    ],
)
def test_the_state_follows_from_the_lengths(
    left: str, washed: bool, promised: str, state: ClothState
) -> None:
    cloth = replace(POPLIN, left=parse_length(left), washed=washed)
    assert state_of(cloth, parse_length(promised)) is state
