"""Blocks of a published size against published amounts of cloth.

Amounts: "Estimating Fabric Yardage Needs for Common Misses Garments", a trade chart quoted on
several pages; yards. Size: the middle one of ASTM D5585-95(2001), misses (from memory): bust 36,
waist 28, hip 38.5 in; lengths from the block's own tables.

As drafted every block takes less than is printed, by two steps of 1/8 yd and more: one printed
figure serves all misses sizes and styles nobody describes, presumably the largest. So what
is judged is the fall of the amounts from width to width, after scaling. Bermuda shorts miss it:
at 35-36 in the chart prints just twice its 58-60 in (2 1/2 and 1 1/4 yd), and half again as much
at 50 in; no scale of the block that was tried falls like that within a step.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.garment.blocks import legs, skirts, tops
from stash.garment.blocks.body import body_of
from stash.garment.pattern import Role, Size
from stash.pairing.block_curve import BlockCurve
from stash.pairing.estimate import SCALES, Cell, Guess, guess
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from stash.garment.blocks.body import Body
    from stash.garment.pattern import Piece
    from stash.lay.problem import Problem
    from stash.pairing.block_curve import Laid

SIZE = {"bust girth": 36.0, "waist girth": 28.0, "hip girth": 38.5}
STEP = 914.4 / 8
SELVEDGES = 20.0


def published_body() -> Body:
    """The body of the size."""
    body = tuple((name, Length.from_inches(inches)) for name, inches in SIZE.items())
    return body_of(Size(label="10", body=body))


@dataclass(frozen=True)
class Garment:
    """A row of the chart: inches of width and yards of cloth."""

    name: str
    block: Callable[[Body], Sequence[Piece]]
    amounts: dict[int, float]


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
    Garment("blouse with tie", lambda b: tops.blouse(b, tie=1500), {35: 3.75, 58: 2.25}),
    Garment("blouse, capped sleeves", lambda b: tops.blouse(b, sleeve=0.2), {35: 2.0, 58: 1.25}),
)


@dataclass(frozen=True)
class Reproduced:
    """One garment: steps of 1/8 yd by which lays lie off the published cells, width by width."""

    garment: Garment
    drafted: tuple[float, ...]
    """The block as drafted."""
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


def curve_of(garment: Garment) -> BlockCurve:
    """Needs of the main cloth of its block."""
    pieces = tuple(p for p in garment.block(published_body()) if p.role is Role.MAIN)
    return BlockCurve(pieces, nap=False, kind=None, gap=0.0)


def reproduced(garment: Garment, laid: Laid) -> Reproduced:
    """How the garment's cells come out."""
    curve, cells = curve_of(garment), cells_of(garment)

    def need(width: float) -> float | None:
        return curve.need(width, laid)

    def told(known: Sequence[Cell], cell: Cell) -> Guess | None:
        return guess(known, lambda _: need, need, cell.width)

    drafted = [need(cell.width) for cell in cells]
    fitted = [told(cells, cell) for cell in cells]
    others = [told([c for c in cells if c is not cell], cell) for cell in cells]
    return Reproduced(
        garment,
        tuple(_steps(length, cell) for length, cell in zip(drafted, cells, strict=True)),
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
            f'{inches}": {yards:g} yd, drafted {drafted:+.1f}, scaled {scaled:+.1f}'
            f"{'' if foretold else ', not foretold by the others'}"
            for (inches, yards), drafted, scaled, foretold in zip(
                one.garment.amounts.items(), one.drafted, one.scaled, one.foretold, strict=True
            )
        )
        yield f"{one.garment.name:<24} {'ok  ' if one.good else 'MISS'} {cells}"
    good = sum(one.good for one in found)
    foretold = [each for one in found for each in one.foretold]
    yield f"steps of 1/8 yd; {good} of {len(found)} garments within one step once scaled"
    yield f"{sum(foretold)} of {len(foretold)} cells in the range foretold from the other cells"
