"""The test square of a sheet: how large it says it is, how large it is, what follows."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.geometry.affine import scaled
from stash.intake.drawn_words import is_square, side_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.intake.drawn import Drawing, Ring, Writing
    from stash.intake.drawn_rings import Joined

TRUE_PART = 0.005
"""A square this near to its size is true: half a millimetre in ten centimetres."""
_NEAR_PART = 0.6
"""Words this part of its side around a square speak of it."""


@dataclass(frozen=True, slots=True)
class Square:
    """The square that checks the scale."""

    stroke_at: int
    """Which of the closed lines it is."""
    measured: float
    """Its side as it is drawn, in mm."""
    said: float | None
    """Its side as it says or as somebody typed, in mm."""

    @property
    def factor(self) -> float:
        """By what everything has to be stretched to be true."""
        if self.said is None or abs(self.measured / self.said - 1) <= TRUE_PART:
            return 1.0
        return self.said / self.measured


def find_square(
    joined: Sequence[Joined], writings: Sequence[Writing], typed: float | None
) -> Square | None:
    """The one square with the words for it as its title or beside it; None: there is none.

    Raises:
        BadInputError: Two of them disagree about the scale.
    """
    found = [
        square
        for at, one in enumerate(joined)
        if one.stroke.closed and (side := square_side(one.stroke.points)) is not None
        for square in [_square(at, side, one, writings, typed)]
        if square is not None
    ]
    told = [square for square in found if square.said is not None] or found
    factors = [square.factor for square in told]
    if factors and max(factors) / min(factors) > 1 + 2 * TRUE_PART:
        raise BadInputError(
            "The test squares of this file disagree about its scale.",
            "Take the wrong one out, or print the file on paper and measure it.",
        )
    return told[0] if told else None


def square_side(ring: Ring) -> float | None:
    """The side of a square drawn straight or askew; None: it is none."""
    corners = [p for i, p in enumerate(ring) if math.dist(p, ring[i - 1]) > 1e-6]
    corners = [
        p
        for i, p in enumerate(corners)
        if abs(_turn(corners[i - 1], p, corners[(i + 1) % len(corners)])) > 1e-3
    ]
    if len(corners) != 4:
        return None
    sides = [math.dist(p, corners[i - 1]) for i, p in enumerate(corners)]
    ways = [math.dist(corners[0], corners[2]), math.dist(corners[1], corners[3])]
    mean = sum(sides) / 4
    true = all(abs(side - mean) <= 0.01 * mean for side in sides)
    return mean if true and abs(ways[0] - ways[1]) <= 0.02 * mean else None


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    """The sine of the turn at b."""
    cross = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
    return cross / (math.dist(a, b) * math.dist(b, c))


def _square(
    at: int, side: float, one: Joined, writings: Sequence[Writing], typed: float | None
) -> Square | None:
    words = [one.stroke.label, *one.stroke.layers[-1:]]
    xs, ys = zip(*one.stroke.points, strict=True)
    wide = _NEAR_PART * side
    near = [
        writing.text
        for writing in writings
        if min(xs) - wide <= writing.at[0] <= max(xs) + wide
        and min(ys) - wide <= writing.at[1] <= max(ys) + wide
    ]
    if not any(is_square(text) for text in (*words, *near)):
        return None
    said = typed
    for text in (*(t for t in (*words, *near) if is_square(t)), *near):
        said = said if said is not None else side_of(text)
    return Square(at, side, said)


def stretch(drawing: Drawing, factor: float) -> None:
    """Make everything that is drawn larger or smaller."""
    by = scaled(factor, factor)
    drawing.strokes = [replace(s, points=tuple(map(by, s.points))) for s in drawing.strokes]
    drawing.writings = [replace(w, at=by(w.at)) for w in drawing.writings]
