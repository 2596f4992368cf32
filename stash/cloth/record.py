"""A cloth: one physical piece of fabric on the shelf, as its owner knows it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import IntEnum, StrEnum
from typing import TYPE_CHECKING

from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from datetime import date
    from decimal import Decimal


USUAL_SELVEDGE = Length.from_mm(10)
"""1-1.5 cm a side is usual for wovens (from memory); say more for a curled knit edge."""


class Structure(StrEnum):
    """How the cloth is made."""

    WOVEN = "woven"
    KNIT = "knit"
    FELTED = "felted"
    LACE = "lace"
    COATED = "coated"


class Hand(IntEnum):
    """How the cloth behaves in the fingers: the honest guess when nothing was measured."""

    FLUID = 1
    SOFT = 2
    MEDIUM = 3
    FIRM = 4
    CRISP = 5


@dataclass(frozen=True, slots=True)
class FibreShare:
    """One fibre of a cloth, by its generic name (see `trade.fibres`), and its share in per cent."""

    fibre: str
    percent: float


@dataclass(frozen=True, slots=True)
class Flaw:
    """A place to keep clear: hole, stain or fade. Millimetres on the opened-out cloth.

    `x` runs along the cloth from its cut end, `y` across it from the left edge of the
    usable width. A flaw is round, or has the corners `points`; then `x`, `y` is the middle
    of their bounds and `radius` the farthest corner from it.
    """

    x: float
    y: float
    radius: float
    what: str = "flaw"
    points: tuple[tuple[float, float], ...] = ()
    """Its corners in order, last one not repeated; empty: a round spot."""

    @classmethod
    def cornered(cls, points: tuple[tuple[float, float], ...], what: str = "flaw") -> Flaw:
        """A flaw with these corners, three or more."""
        xs, ys = [x for x, _ in points], [y for _, y in points]
        x, y = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
        return cls(x, y, max(math.dist((x, y), corner) for corner in points), what, points)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cloth:
    """One piece on the shelf, measured as it lies there now.

    Percentages are 0-100. `None` means nobody has measured it: that lowers how sure an
    answer is, never the cloth's marks. `id` is 0 until the cloth is kept.
    """

    id: int = 0
    name: str
    structure: Structure
    fibres: tuple[FibreShare, ...] = ()
    width: Length
    """Edge to edge, selvedges included, as it lies on the shelf."""
    selvedge: Length = USUAL_SELVEDGE
    """Lost at each side: selvedge, glued or curled edge."""
    bought: Length
    """Length when it came, for the sums."""
    left: Length
    """Length on the shelf now."""
    washed: bool = False
    shrink_length: float | None = None
    """Per cent lost in length at the first wash; None: the trade's default for its kind."""
    shrink_width: float | None = None
    weight: float | None = None
    """Grams per square metre."""
    stretch_across: float | None = None
    stretch_along: float | None = None
    recovery: float | None = None
    hand: Hand | None = None
    bending_length: float | None = None
    """Millimetres, ASTM D1388 cantilever."""
    drape: float | None = None
    """Drape coefficient, per cent (Cusick, ISO 9073-9); higher is stiffer."""
    nap: bool = False
    raised: bool = False
    """Has a raised fibre surface (flannel, brushed, velvet, terry)."""
    sheer: bool = False
    repeat_length: Length = ZERO
    repeat_width: Length = ZERO
    half_drop: bool = False
    """Neighbouring columns of the print are shifted by half the repeat along."""
    colour: str = "#808080"
    """sRGB as #rrggbb, for swatches and matching."""
    colour_name: str = ""
    print: str = ""
    """Plain, stripe, check, floral …; empty: plain."""
    flaws: tuple[Flaw, ...] = ()
    outline: tuple[tuple[float, float], ...] = ()
    """Shape of a remnant in mm (x along, y across the usable width); empty: a plain length."""
    loved: int = 3
    """1 (would not miss it) to 5 (the best on the shelf)."""
    price: Decimal | None = None
    """Paid per metre, in the currency of the settings."""
    again: bool = False
    """The same cloth can still be bought."""
    care: str = ""
    place: str = ""
    got: date | None = None
    notes: str = ""
    version: int = 1
