"""From the amounts of a chart to the need at another width, with the range it lies in.

The block of the kind is thought longer or shorter, wider or narrower than drafted. How likely a
scale is, is told by how well its lays agree with every charted amount, rounded up as amounts
are, and by how far it lies from the draft. All likely scales together give the need at the
asked width: its median, and the range that holds nine in ten. Where charted widths disagree
with every scale, the range grows by as much; far from any charted width it grows too.

The method is that of any fit with errors in it (Bayes' rule on a grid). The sizes of the errors
are ours; `tests/pairing/estimate_trials.py` shows how often the range holds the truth.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    Curve = Callable[[float], float | None]
    """Need of the block as drafted, mm, at a width in mm; None where it does not go."""

SCALES = tuple(1.025**step for step in range(-5, 6))
"""Widths of a garment as shares of its block's: up to an eighth either way."""
WIDER = 0.06
"""Spread of that share: silhouettes from close to loose differ by some 6 cm per metre round
(pattern-catalogue silhouette table, from memory)."""
UNLIKE = 0.03
"""Spread of needs of two garments of one kind that agree in length and width: other curves,
pockets and facings, and a search that is not perfect."""
LONE = 0.06
"""The same where one amount is all there is: nothing shows how well the block agrees."""
FARTHER = 0.15
"""More spread for each e-fold of width away from the nearest charted width."""
MOST_DISAGREEMENT = 0.15
"""Beyond it the chart speaks of something else than the block."""
LENGTHS = 25
"""Lengths tried at each width of the garment."""
TAIL = 0.05
"""Left out at either end of the range."""
NORMAL = (-1.645, -1.036, -0.674, -0.385, -0.126, 0.126, 0.385, 0.674, 1.036, 1.645)
"""Middles of ten equal parts of the normal distribution."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One amount of a chart, mm: what it is at least, rounding taken off, and at most."""

    width: float
    """Usable."""
    least: float
    most: float
    nap: bool


@dataclass(frozen=True, slots=True)
class Guess:
    """A need in mm with its range, and what the block is scaled by for the likely one."""

    low: float
    likely: float
    high: float
    disagreement: float
    """How far the charted amounts are from the nearest scale of the block, as a share."""
    along: float
    across: float


@dataclass(frozen=True, slots=True)
class _Scale:
    """One width of the garment: what the block so scaled needs, in logarithms of mm."""

    across: float
    charted: tuple[float, ...]
    there: float


def guess(
    cells: Sequence[Cell], fitted: Callable[[Cell], Curve], asked: Curve, width: float
) -> Guess | None:
    """The need at a usable `width`, mm; None where no scale of the block will do.

    Args:
        cells: The charted amounts.
        fitted: The block's curve on cloth as a charted amount is for.
        asked: The block's curve on the cloth asked for.
        width: Usable width of that cloth.
    """
    scales = []
    for across in SCALES:
        charted = [fitted(cell)(cell.width / across) for cell in cells]
        there = asked(width / across)
        known = tuple(math.log(need) for need in charted if need is not None)
        if there is not None and len(known) == len(cells):
            scales.append(_Scale(math.log(across), known, math.log(there)))
    if not scales or len(scales) * 2 < len(SCALES):
        return None
    asked_of = tuple(cells)
    disagreement = min(off for scale in scales for _, off in _fits(asked_of, scale.charted, 0.0))
    if disagreement > MOST_DISAGREEMENT:
        return None
    return _spread(asked_of, scales, disagreement, width)


def _spread(
    cells: tuple[Cell, ...], scales: Sequence[_Scale], disagreement: float, width: float
) -> Guess:
    error = math.hypot(UNLIKE if len(cells) > 1 else LONE, disagreement)
    apart = min(abs(math.log(width / cell.width)) for cell in cells)
    scatter = math.hypot(error, FARTHER * apart)
    points: list[tuple[float, float]] = []
    total = mean_along = mean_across = 0.0
    for scale in scales:
        fits = _fits(cells, scale.charted, 2 * error)
        step = fits[1][0] - fits[0][0]
        for along, misfit in fits:
            off = misfit / error
            weight = step * math.exp(-len(cells) * off**2 / 2 - (scale.across / WIDER) ** 2 / 2)
            middle = along + scale.there
            points += [(middle + scatter * z, weight) for z in NORMAL]
            total += weight
            mean_along += weight * along
            mean_across += weight * scale.across
    low, likely, high = _quantiles(points, (TAIL, 0.5, 1 - TAIL))
    return Guess(
        low,
        likely,
        high,
        disagreement,
        along=math.exp(mean_along / total),
        across=math.exp(mean_across / total),
    )


@lru_cache(maxsize=4096)  # the same of a chart for every cloth
def _fits(
    cells: tuple[Cell, ...], charted: tuple[float, ...], beyond: float
) -> tuple[tuple[float, float], ...]:
    """Lengths worth trying, from below every cell to above, each with how ill it fits.

    Lengths are logarithms of shares of the block's. The misfit is how far the block so long lies
    outside what the cells allow: root mean square share.
    """
    ends = [
        (math.log(cell.least) - need, math.log(cell.most) - need)
        for cell, need in zip(cells, charted, strict=True)
    ]
    low = min(least for least, _ in ends) - beyond
    high = max(most for _, most in ends) + beyond
    found = []
    for step in range(LENGTHS):
        along = low + (high - low) * step / (LENGTHS - 1)
        total = sum(max(0.0, along - most, least - along) ** 2 for least, most in ends)
        found.append((along, math.sqrt(total / len(cells))))
    return tuple(found)


def _quantiles(points: list[tuple[float, float]], shares: Sequence[float]) -> list[float]:
    points.sort()
    sums = list(accumulate(weight for _, weight in points))
    return [math.exp(points[bisect_left(sums, share * sums[-1])][0]) for share in shares]
