"""What a lay is asked: pieces, a cloth's usable width, and the rules between them.

Millimetres throughout; x runs along the lengthwise grain, y across the width. No word of
garments here: a piece is an outline with a count.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

FINEST_MM, COARSEST_MM = 1, 12_000
"""Of the repeat of a print."""

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
    below 180 remain. It may lie `tolerance` whole degrees off any of them.

    `match` is the point that has to lie on the print's repeat, in the outline's coordinates.
    Of a piece on the fold only its x counts: crosswise the print is centred on the fold.
    """

    name: str
    outline: Ring
    copies: int = 1
    on_fold: bool = False
    mirrored: bool = True
    turns: tuple[int, ...] = (0, 180)
    tolerance: int = 0
    match: Point | None = None


@dataclass(frozen=True, slots=True)
class Spot:
    """A round place to keep clear: centre and radius, on the opened-out cloth."""

    x: float
    y: float
    radius: float


@dataclass(frozen=True, slots=True)
class Repeat:
    """The repeat of a print, mm: match points lie on one lattice of it.

    Crosswise the print is centred on the usable width: a column of the lattice lies in the
    middle. In a half-drop print every second column is shifted by half of `along`.
    """

    along: float
    across: float = 0.0
    """0: the print is the same all across."""
    half_drop: bool = False
    at: float | None = None
    """x of a line of the lattice's middle column; None: for the solver to choose."""


@dataclass(frozen=True, slots=True)
class Problem:
    """Shapes against one width. `width` is the usable width of the opened-out cloth."""

    shapes: tuple[Shape, ...]
    width: float
    nap: bool = False
    kind: LayKind = LayKind.OPEN
    spots: tuple[Spot, ...] = ()
    patches: tuple[Ring, ...] = ()
    """Places with corners to keep clear, mm on the opened-out cloth."""
    outline: Ring = ()
    """The shape of a remnant; empty: as long as needed."""
    gap: float = 0.0
    """mm to keep between any two pieces; the edges of the cloth may still be touched."""
    repeat: Repeat | None = None

    @property
    def has_flaws(self) -> bool:
        """Some place of the cloth has to be kept clear."""
        return bool(self.spots or self.patches)

    @property
    def matches(self) -> bool:
        """Some piece has to meet the repeat of the print."""
        return self.repeat is not None and any(s.match is not None for s in self.shapes)
