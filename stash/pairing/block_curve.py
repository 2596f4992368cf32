"""How much a block needs at any width, from lays on one fixed row of widths.

A lay of outlines scaled along and across the cloth is the same lay scaled, so the need of a block
made `across` times as wide and `along` times as long is `along` times the block's own need on
cloth `across` times narrower. That is why one row of widths answers for every scale and every
cloth, and why few lays do.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from stash.garment.pattern import Grain
from stash.lay.problem import LayKind, Problem
from stash.pairing.shapes import shapes_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from stash.garment.pattern import Piece

    Laid = Callable[[Problem, LayKind | None], float | None]

STEP = 1.04
"""From one width of the row to the next; needs between two of them are read off the line
between, in logarithms."""
FROM = 1000.0
"""mm, one of the widths."""


def width_at(place: int) -> float:
    """A width of the row, whole mm."""
    return float(math.floor(FROM * STEP**place))


def _place(width: float) -> float:
    return math.log(width / FROM) / math.log(STEP)


@dataclass(frozen=True, slots=True)
class BlockCurve:
    """The need of a block, as drafted, at any width of cloth of one sort. All in mm."""

    pieces: tuple[Piece, ...]
    nap: bool
    kind: LayKind | None
    gap: float

    def problems(self, widths: Iterable[float]) -> Iterator[Problem]:
        """The lays wanted to tell the need at these widths."""
        places = {math.floor(_place(width)) + more for width in widths for more in (0, 1)}
        for place in sorted(places):
            if width_at(place) >= widest(self.pieces):
                yield _problem(self.pieces, self.nap, self.gap, self.kind, place)

    def need(self, width: float, laid: Laid) -> float | None:
        """The need at `width`; None where a piece is wider than the cloth."""
        place = _place(width)
        low = math.floor(place)
        needs = []
        for at in (low, low + 1):
            if width_at(at) < widest(self.pieces):
                return None
            need = laid(_problem(self.pieces, self.nap, self.gap, self.kind, at), self.kind)
            if need is None:
                return None
            needs.append(math.log(need))
        share = place - low
        return math.exp((1 - share) * needs[0] + share * needs[1])


@lru_cache(maxsize=1024)
def _problem(
    pieces: tuple[Piece, ...], nap: bool, gap: float, kind: LayKind | None, place: int
) -> Problem:
    shapes = shapes_of(pieces, meets_print=False)
    return Problem(shapes, width_at(place), nap, kind or LayKind.OPEN, gap=gap)


@lru_cache(maxsize=256)
def widest(pieces: tuple[Piece, ...]) -> float:
    """mm of cloth below which some piece does not go across it."""
    return max(map(_across, pieces))


def _across(piece: Piece) -> float:
    xs, ys = [x for x, _ in piece.outline], [y for _, y in piece.outline]
    along = max(xs) - min(xs)
    across = (max(ys) - min(ys)) * (2 if piece.on_fold else 1)
    if piece.grain is Grain.LENGTHWISE:
        return across
    return along if piece.grain is Grain.CROSSWISE else min(along, across)
