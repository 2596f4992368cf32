"""How colours go together, against what every colour wheel teaches (common practice)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.trade.colour import lab_of
from stash.trade.colour_match import colour_match, hue_turn

NAVY, CREAM, BLACK, WHITE = "#1f2a4d", "#f5efdc", "#101010", "#fafafa"
RED, GREEN, BLUE, YELLOW = "#d01c1f", "#0f8a3c", "#1f4fbf", "#f2d21f"
COLOURS = st.integers(0, 0xFFFFFF).map(lambda number: f"#{number:06x}")


def mark(one: str, other: str) -> float:
    return colour_match(lab_of(one), lab_of(other)).mark


@pytest.mark.parametrize(
    ("one", "other", "words"),
    [
        (NAVY, CREAM, "neutral"),
        (BLACK, WHITE, "neutrals, one lighter"),
        (RED, RED, "the same shade"),
        (NAVY, "#24305a", "failed match"),
        ("#9db4e6", BLUE, "light and a dark shade of one hue"),
        (RED, "#e07b1f", "neighbouring hues"),
        (YELLOW, BLUE, "opposite"),
        (RED, BLUE, "neither neighbours nor opposites"),
    ],
)
def test_relations_of_the_colour_wheel(one: str, other: str, words: str) -> None:
    assert words in colour_match(lab_of(one), lab_of(other)).words


def test_what_clashes_is_marked_below_what_goes_together() -> None:
    assert mark(NAVY, CREAM) > mark(GREEN, "#8a2be2")
    assert mark(NAVY, "#24305a") < mark(NAVY, NAVY), "a near miss looks like a mistake"


@given(COLOURS, COLOURS)
def test_order_does_not_matter_and_marks_stay_in_range(one: str, other: str) -> None:
    first, second = lab_of(one), lab_of(other)
    assert colour_match(first, second) == colour_match(second, first)
    assert 0 <= colour_match(first, second).mark <= 1
    assert 0 <= hue_turn(first, second) <= 180
