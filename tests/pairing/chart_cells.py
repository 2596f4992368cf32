"""Blocks of a published size against published amounts of cloth.

Amounts: "Estimating Fabric Yardage Needs for Common Misses Garments", a trade chart quoted on
several pages; yards. Sizes: the middle and the largest one of ASTM D5585-95(2001), misses (from
memory): 10 with bust 36, waist 28, hip 38.5 in, and 20 with 44.5, 36.5 and 47 in; lengths from
the block's own tables.

Scaled to the amounts, eight of the nine garments come out within one step of 1/8 yd. Bermuda
shorts miss it: at 35-36 in the chart prints just twice its 58-60 in (2 1/2 and 1 1/4 yd), and
half again as much at 50 in; no scale of the block that was tried falls like that.

As drafted, unscaled, blocks do NOT reproduce the chart: none of the nine in the middle size, on an
open lay without nap, and four in the largest, folded and with nap, which is the most of all ways
to read it that were tried (sizes 10, 16, 18, 20; open, folded; with and without nap). The chart
says neither size, nor nap, nor lay. One figure has to do for every size, so the largest is the
usual reading; home layouts lie on folded cloth, most of them fit for nap (common practice). Steps
by which size 20 then lies off, by width, rounded up as shops do within one step or not:

- within: pants -1.0, -1.5; A-line skirt 0.4, 0.7; blouses with long sleeves -0.3, 0.0 and capped
  sleeves 0.5, 0.1.
- blouse, short sleeves 1.5, 0.1: too long at 35-36 in; without nap it is 0.1, -1.1 and within.
- capri -0.1, -1.0, 1.9: at 58-60 in the chart counts on four legs side by side, for which those of
  a hip of 47 in are too wide; in size 16 they lie so, and 35-36 in is then short by 4.
- Bermuda shorts -2.1, -3.1, 1.8: as above.
- straight skirt -3.6, 0.3, -2.9: two lengths to the knee with their hem are 1.6 yd, the chart has
  2: a longer skirt than the draft's. A waistband along the cloth (many are cut so) brings 58-60 in
  to -1.1 and 35-36 in not at all.
- blouse with tie -3.8, -5.1: the chart gives 1 1/4 and 5/8 yd more than to the long-sleeved
  blouse, more than a tie of 1.5 m takes, on the straight or on the bias (-6.4, -4.0): a fuller
  style that nobody describes.

No ease and no measure was bent to any of this. Estimates do not rest on it: every chart is of
some style nobody describes, which is why blocks are scaled to it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.garment.blocks import legs, skirts, tops
from stash.garment.blocks.body import body_of
from stash.garment.blocks.parts import cut
from stash.garment.pattern import Role, Size
from stash.lay.problem import LayKind, Problem
from stash.pairing.block_curve import BlockCurve
from stash.pairing.estimate import SCALES, Cell, Guess, guess
from stash.pairing.shapes import shapes_of
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from stash.garment.blocks.body import Body
    from stash.garment.pattern import Piece
    from stash.pairing.block_curve import Laid

SIZES = {
    "10": {"bust girth": 36.0, "waist girth": 28.0, "hip girth": 38.5},
    "20": {"bust girth": 44.5, "waist girth": 36.5, "hip girth": 47.0},
}
MIDDLE = "10"
STEP = 914.4 / 8
SELVEDGES = 20.0


def published_body(size: str) -> Body:
    """The body of the size."""
    body = tuple((name, Length.from_inches(inches)) for name, inches in SIZES[size].items())
    return body_of(Size(label=size, body=body))


@dataclass(frozen=True)
class Garment:
    """A row of the chart: inches of width and yards of cloth."""

    name: str
    block: Callable[[Body], Sequence[Piece]]
    amounts: dict[int, float]


def _with_tie(body: Body) -> Sequence[Piece]:
    """A tie of 1.5 m, two halves 15 cm wide, in place of the collar."""
    plain = (piece for piece in tops.blouse(body) if piece.name != "collar")
    return (*plain, cut("rectangle", "tie", {"length": 765, "width": 150}, copies=2))


GARMENTS = (
    Garment("pants, full length", legs.tailored_trousers, {35: 3.25, 50: 2.625}),
    Garment(
        "pants, capri length",  # ends at mid-calf: some 78 % of the side length
        lambda b: legs.tailored_trousers(b, length=0.78 * b.waist_to_floor, hem_round=0.4 * b.hip),
        {35: 2.75, 50: 2.125, 58: 1.5},
    ),
    Garment(
        "shorts, Bermuda length",  # ends at the knee
        lambda b: legs.tailored_trousers(
            b, length=b.waist_to_knee, hem_round=legs.SHORTS_HEM * b.hip
        ),
        {35: 2.5, 50: 1.875, 58: 1.25},
    ),
    Garment("skirt, straight", skirts.straight_skirt, {35: 2.0, 50: 1.5, 58: 1.25}),
    Garment("skirt, A-line", skirts.flared_skirt, {35: 2.25, 58: 1.375}),
    Garment("blouse, short sleeves", lambda b: tops.blouse(b, sleeve=0.38), {35: 2.0, 58: 1.25}),
    Garment("blouse, long sleeves", tops.blouse, {35: 2.5, 58: 1.625}),
    Garment("blouse with tie", _with_tie, {35: 3.75, 58: 2.25}),
    Garment("blouse, capped sleeves", lambda b: tops.blouse(b, sleeve=0.2), {35: 2.0, 58: 1.25}),
)


@dataclass(frozen=True)
class Reproduced:
    """One garment: steps of 1/8 yd by which lays lie off the published cells, width by width."""

    garment: Garment
    scaled: tuple[float, ...]
    """The block scaled to the cells."""
    foretold: tuple[bool, ...]
    """Whether the cell lies in the range foretold from the others."""

    @property
    def good(self) -> bool:
        """Every cell within one cutting step once scaled."""
        return all(abs(steps) <= 1 for steps in self.scaled)


def cells_of(garment: Garment) -> tuple[Cell, ...]:
    """The published amounts; nothing says that they are for cloth with nap."""
    return tuple(
        Cell(25.4 * inches - SELVEDGES, 914.4 * yards - STEP, 914.4 * yards, nap=False)
        for inches, yards in garment.amounts.items()
    )


def main_pieces(garment: Garment, size: str) -> tuple[Piece, ...]:
    """What its block cuts from the main cloth."""
    return tuple(p for p in garment.block(published_body(size)) if p.role is Role.MAIN)


def curve_of(garment: Garment) -> BlockCurve:
    """Needs of the main cloth of its block."""
    return BlockCurve(main_pieces(garment, MIDDLE), nap=False, kind=None, gap=0.0)


def reproduced(garment: Garment, laid: Laid) -> Reproduced:
    """How the garment's cells come out."""
    curve, cells = curve_of(garment), cells_of(garment)

    def need(width: float) -> float | None:
        return curve.need(width, laid)

    def told(known: Sequence[Cell], cell: Cell) -> Guess | None:
        return guess(known, lambda _: need, need, cell.width)

    fitted = [told(cells, cell) for cell in cells]
    others = [told([c for c in cells if c is not cell], cell) for cell in cells]
    return Reproduced(
        garment,
        tuple(_steps(g.likely if g else None, c) for g, c in zip(fitted, cells, strict=True)),
        tuple(
            g is not None and g.low <= cell.most and cell.least <= g.high
            for g, cell in zip(others, cells, strict=True)
        ),
    )


def _steps(length: float | None, cell: Cell) -> float:
    return math.inf if length is None else (length - cell.most) / STEP


def wanted(garment: Garment) -> Iterator[Problem]:
    """The lays it takes."""
    widths = [cell.width for cell in cells_of(garment)]
    scaled = [width / scale for width in widths for scale in SCALES]
    return curve_of(garment).problems([*widths, *scaled])


def lines(found: Sequence[Reproduced]) -> Iterator[str]:
    """The findings for reading."""
    for one in found:
        cells = ", ".join(
            f'{inches}": {yards:g} yd, {scaled:+.1f}'
            f"{'' if foretold else ', not foretold by the others'}"
            for (inches, yards), scaled, foretold in zip(
                one.garment.amounts.items(), one.scaled, one.foretold, strict=True
            )
        )
        yield f"{one.garment.name:<24} {'ok  ' if one.good else 'MISS'} {cells}"
    good = sum(one.good for one in found)
    foretold = [each for one in found for each in one.foretold]
    yield f"steps of 1/8 yd; {good} of {len(found)} garments within one step once scaled"
    yield f"{sum(foretold)} of {len(foretold)} cells in the range foretold from the other cells"


@dataclass(frozen=True)
class Convention:
    """What the chart may be read to mean, since it does not say it."""

    size: str
    nap: bool
    kind: LayKind

    def problem(self, garment: Garment, inches: int) -> Problem:
        """Its block as drafted, on cloth of this width."""
        shapes = shapes_of(main_pieces(garment, self.size), meets_print=False)
        width = float(math.floor(25.4 * inches - SELVEDGES))
        return Problem(shapes, width, self.nap, self.kind)

    def off(self, garment: Garment, laid: Laid) -> tuple[float, ...]:
        """Steps by which it lies off, width by width."""
        return tuple(
            _steps(laid(self.problem(garment, inches), self.kind), cell)
            for inches, cell in zip(garment.amounts, cells_of(garment), strict=True)
        )

    def lines(self, laid: Laid) -> Iterator[str]:
        """Steps by which blocks as drafted lie off, and how many come within one."""
        nap = "with nap" if self.nap else "without nap"
        yield f"as drafted, size {self.size}, {self.kind.value}, {nap}:"
        good = 0
        for garment in GARMENTS:
            off = self.off(garment, laid)
            # A need is rounded up to the step before it is printed.
            good += (met := all(abs(math.ceil(steps)) <= 1 for steps in off))
            told = ", ".join(f"{steps:+.1f}" for steps in off)
            yield f"  {garment.name:<24} {'ok  ' if met else 'MISS'} {told}"
        yield f"  {good} of {len(GARMENTS)} garments within one step"


CONVENTIONS = (
    Convention(MIDDLE, nap=False, kind=LayKind.OPEN),
    Convention("20", nap=False, kind=LayKind.OPEN),
    Convention("20", nap=False, kind=LayKind.FOLDED),
    Convention("20", nap=True, kind=LayKind.FOLDED),
)
