"""How two colours go together, by hue, chroma and lightness, in plain words.

The relations are those every colour wheel teaches (common practice): shades of one hue,
neighbours, opposites, and neutrals that go with everything. Where one ends and the next
begins, and the marks, are house choices.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, degrees, hypot
from typing import TYPE_CHECKING

from stash.trade.colour import shade_difference

if TYPE_CHECKING:
    from stash.trade.colour import Lab

NEUTRAL_BELOW = 14.0
"""Chroma: greys, blacks, creams, and the darkest navy."""
VIVID_FROM = 45.0
"""Chroma from which two colours compete."""
SAME_BELOW, MISMATCH_BELOW = 2.0, 7.0
"""CIEDE2000: the same shade; nearly the same, which looks like a failed match."""
LIGHTER_BY = 18.0
"""Lightness by which one is plainly the lighter."""
ONE_HUE, NEIGHBOURS, OPPOSITE_FROM = 18.0, 60.0, 145.0
"""Degrees between the hues."""


@dataclass(frozen=True, slots=True)
class ColourMatch:
    """How well two colours go together, 0-1, and why, in words that follow `they are`."""

    mark: float
    words: str


def colour_match(first: Lab, second: Lab) -> ColourMatch:
    """The relation of two colours; the same whichever comes first."""
    apart = shade_difference(first, second)
    if apart < SAME_BELOW:
        return ColourMatch(0.6, "the same shade")
    if apart < MISMATCH_BELOW:
        return ColourMatch(0.2, "nearly the same shade, which looks like a failed match")
    step = abs(first[0] - second[0]) >= LIGHTER_BY
    chromas = sorted(hypot(a, b) for _, a, b in (first, second))
    if chromas[1] < NEUTRAL_BELOW:
        return ColourMatch(*((0.8, "neutrals, one lighter") if step else (0.55, "two neutrals")))
    if chromas[0] < NEUTRAL_BELOW:
        return ColourMatch(0.9 if step else 0.75, "a colour with a neutral")
    return _of_hues(hue_turn(first, second), step=step, vivid=chromas[0] >= VIVID_FROM)


def hue_turn(first: Lab, second: Lab) -> float:
    """Degrees between two hues, 0-180."""
    turn = abs(_hue(first) - _hue(second)) % 360
    return min(turn, 360 - turn)


def _hue(colour: Lab) -> float:
    return degrees(atan2(colour[2], colour[1]))


def _of_hues(turn: float, *, step: bool, vivid: bool) -> ColourMatch:
    if turn <= ONE_HUE:
        if step:
            return ColourMatch(0.9, "a light and a dark shade of one hue")
        return ColourMatch(0.5, "two like shades of one hue")
    if turn <= NEIGHBOURS:
        return ColourMatch(0.8 if step else 0.65, "neighbouring hues")
    if turn >= OPPOSITE_FROM:
        if vivid:
            return ColourMatch(0.45, "opposite hues, both vivid")
        return ColourMatch(0.8, "opposite hues, one of them quiet")
    if vivid:
        return ColourMatch(0.25, "vivid hues that are neither neighbours nor opposites")
    return ColourMatch(0.5, "hues some way apart, one of them quiet")
