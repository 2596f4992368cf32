"""What a lay is asked: pieces, a cloth's usable width, and the rules between them.

Millimetres throughout; x runs along the lengthwise grain, y across the width. No word of
garments here: a piece is an outline with a count.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

Point = tuple[float, float]
Ring = tuple[Point, ...]


class LayKind(StrEnum):
    """How the cloth lies on the table."""

    OPEN = "open"
    """A single layer."""
    FOLDED = "folded"
    """Selvedge to selvedge: two layers, one lengthwise fold."""
    GATE = "gate"
    """Both selvedges folded in to meet: two layers, a lengthwise fold on either side."""
    CROSSWAYS = "crossways"
    """End to end: two layers, one fold across the cloth."""


@dataclass(frozen=True, slots=True)
class Shape:
    """One piece to lay.

    `outline` is a closed ring, last point not repeated, x along the grain. With `on_fold`
    it is the half whose fold edge lies on y = 0 and whose other points have y > 0. `turns`
    are the angles in degrees the piece may be turned by without nap; with nap only those
    below 180 remain.
    """

    name: str
    outline: Ring
    copies: int = 1
    on_fold: bool = False
    mirrored: bool = True
    turns: tuple[int, ...] = (0, 180)


@dataclass(frozen=True, slots=True)
class Spot:
    """A round place to keep clear: centre and radius, on the opened-out cloth."""

    x: float
    y: float
    radius: float


@dataclass(frozen=True, slots=True)
class Problem:
    """Shapes against one width. `width` is the usable width of the opened-out cloth."""

    shapes: tuple[Shape, ...]
    width: float
    nap: bool = False
    kind: LayKind = LayKind.OPEN
    spots: tuple[Spot, ...] = ()
    outline: Ring = ()
    """The shape of a remnant; empty: as long as needed."""
    gap: float = 0.0
    """mm to keep between any two pieces; the edges of the cloth may still be touched."""
