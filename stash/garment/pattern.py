"""Patterns: what can be made, from which pieces, and what it asks of a cloth."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from stash.garment.size_pieces import lacking, of_size
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from stash.cloth.record import Hand, Structure


HALF_TENTH = Length.from_mm(50)
"""By how much metres rounded to 0.1 m may lie below what is needed: 1 1/4 yd (1.143 m) is
printed as 1.1 m (a tissue pattern's envelope)."""


class Kind(StrEnum):
    """Garment kinds; each has defaults in `trade.asks` and `trade.notions`."""

    TROUSERS_ELASTIC = "elastic trousers"
    TROUSERS_TAILORED = "tailored trousers"
    SHORTS = "shorts"
    LEGGINGS = "leggings"
    SKIRT_STRAIGHT = "straight skirt"
    SKIRT_FLARED = "flared skirt"
    TSHIRT = "t-shirt"
    SWEATSHIRT = "sweatshirt"
    TURTLENECK = "turtleneck"
    SHIRT = "shirt"
    BLOUSE = "blouse"
    DRESS = "dress"
    PINAFORE = "pinafore"
    JACKET = "jacket"
    COAT = "coat"
    PYJAMAS = "pyjamas"
    BAG = "bag"


class Form(StrEnum):
    """What a pattern comes as."""

    PAPER = "paper"
    FILE = "file"
    BOOK = "book"


class Role(StrEnum):
    """Each role of a make wants its own cloth."""

    MAIN = "main"
    CONTRAST = "contrast"
    LINING = "lining"
    INTERFACING = "interfacing"
    RIB = "rib"


class Grain(StrEnum):
    """How a piece must lie to the lengthwise grain."""

    LENGTHWISE = "lengthwise"
    CROSSWISE = "crosswise"
    EITHER = "either"
    BIAS = "bias"


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One pattern piece of one size.

    `outline` is a closed ring in millimetres without a repeated last point, seam and hem
    allowances included; x runs along the piece's own grain line, y across it. A piece on
    the fold is drawn as its half with the fold edge on y = 0 and everything else at y > 0.
    """

    name: str
    outline: tuple[tuple[float, float], ...]
    copies: int = 1
    on_fold: bool = False
    mirrored: bool = True
    """Copies come in pairs, one the mirror image of the other."""
    grain: Grain = Grain.LENGTHWISE
    role: Role = Role.MAIN
    size: str = ""
    """Empty: the same in every size."""
    views: tuple[str, ...] = ()
    """Empty: in every view."""
    tolerance: int = 0
    """Whole degrees it may lie off grain."""
    match: tuple[float, float] | None = None
    """The point on the stitching line, in the outline's millimetres, that has to meet the
    print's repeat; None: it need not match."""
    seam: float | None = None
    """Millimetres of seam allowance in the outline; None: not known."""
    notches: tuple[tuple[float, float], ...] = ()
    """Where its edge is marked so that it meets another piece, in the outline's millimetres: on
    the outline or near it. A lay never asks for them."""
    family: str = ""
    """The family of shapes it was drafted from; empty: it was drawn."""
    typed: tuple[str, ...] = ()
    """The measures of the draft as they were typed: `hip=100 cm`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartRow:
    """One cell of the envelope's table: how much of a cloth this wide."""

    role: Role = Role.MAIN
    view: str = ""
    size: str
    width: Length
    amount: Length
    with_nap: bool = False
    """The amount is enough for cloth with nap; not so unless the chart says it."""
    rounded: bool = False
    """Metres rounded to the nearest 0.1 m, as envelopes print beside yards."""

    @property
    def enough(self) -> Length:
        """What surely is enough: a rounded amount may be half a step too little."""
        return self.amount + HALF_TENTH if self.rounded else self.amount


@dataclass(frozen=True, slots=True, kw_only=True)
class Asks:
    """What a role of the pattern asks of its cloth. Per cent, g/m², hand 1-5; None: anything."""

    role: Role = Role.MAIN
    structures: tuple[Structure, ...] = ()
    """Empty: any structure."""
    stretch_across: float | None = None
    stretch_along: float | None = None
    recovery: float | None = None
    weight_low: float | None = None
    weight_high: float | None = None
    hand_low: Hand | None = None
    hand_high: Hand | None = None
    nap_allowed: bool = True
    fibres: tuple[str, ...] = ()
    """Fibres the pattern recommends, by their plain names; empty: any."""
    avoid: tuple[str, ...] = ()
    """What it advises against, each in a word or two: velvet, stripes."""

    @property
    def reversed_ranges(self) -> tuple[str, ...]:
        """Which of its ranges end below where they begin, so that no cloth is within them."""
        ranges = {
            "weight": (self.weight_low, self.weight_high),
            "hand": (self.hand_low, self.hand_high),
        }
        return tuple(
            name
            for name, (low, high) in ranges.items()
            if low is not None and high is not None and low > high
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Notion:
    """Something small to have ready. `amount` counts things; `length` is per thing."""

    name: str
    view: str = ""
    size: str = ""
    amount: int = 1
    length: Length = ZERO
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """A row of the size table: body measures by ISO 8559-1 names where one is known."""

    label: str
    body: tuple[tuple[str, Length], ...] = ()
    finished: tuple[tuple[str, Length], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """A design one can make. `id` is 0 until it is kept."""

    id: int = 0
    name: str
    kind: Kind
    form: str = Form.PAPER.value
    """One of `Form`."""
    kept_in: str = ""
    """Binder, drawer, or path of a file."""
    picture: str = ""
    """Path of a photo or line drawing."""
    views: tuple[str, ...] = ()
    sizes: tuple[Size, ...] = ()
    traced: tuple[str, ...] = ()
    """Labels of the sizes whose pieces are traced, printed or cut out already."""
    pieces: tuple[Piece, ...] = ()
    charts: tuple[ChartRow, ...] = ()
    asks: tuple[Asks, ...] = ()
    notions: tuple[Notion, ...] = ()
    fullness: float = 1.0
    """Gathering at the fullest seam: cloth width over finished width."""
    child: bool = False
    tested: bool = False
    """Sewn before, and it fitted."""
    liked: int = 3
    notes: str = ""
    version: int = 1

    def roles(self, view: str = "", size: str = "") -> tuple[Role, ...]:
        """The roles this view and size are cut from, in the order of `Role`.

        One whose pieces are drawn in other sizes only is among them: it is not left out, but
        nobody can cut it.
        """
        wanted = {p.role for p in (*self.drawn_for(view, size), *self.lacking(view, size))}
        wanted |= {c.role for c in self.charts_for(view, size)}
        return tuple(role for role in Role if role in wanted)

    def pieces_for(self, view: str, size: str, role: Role | None = None) -> tuple[Piece, ...]:
        """The pieces of this view and size, of one role if given: all of them, or none.

        None where one of them is drawn in other sizes only.
        """
        return () if self.lacking(view, size, role) else self.drawn_for(view, size, role)

    def drawn_for(self, view: str, size: str, role: Role | None = None) -> tuple[Piece, ...]:
        """The pieces there are of this view and size, whatever it lacks."""
        return of_size(self._of_view(view, role), size)

    def lacking(self, view: str, size: str, role: Role | None = None) -> tuple[Piece, ...]:
        """The pieces of this view that are drawn in other sizes, but not in this one."""
        roles = Role if role is None else (role,)
        return tuple(p for one in roles for p in lacking(self._of_view(view, one), size))

    def can_cut(self, view: str, size: str, role: Role) -> bool:
        """This role has all its pieces, or a chart."""
        return bool(self.pieces_for(view, size, role) or self.charts_for(view, size, role))

    def _of_view(self, view: str, role: Role | None) -> list[Piece]:
        return [
            p for p in self.pieces if (not p.views or view in p.views) and role in (None, p.role)
        ]

    def charts_for(self, view: str, size: str, role: Role | None = None) -> tuple[ChartRow, ...]:
        """The chart rows of this view and size, of one role if given."""
        return tuple(
            c
            for c in self.charts
            if c.view in ("", view) and c.size in ("", size) and role in (None, c.role)
        )
