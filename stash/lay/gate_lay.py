"""Gate lays: both selvedges folded in until they meet, a fold on either side.

The table is half the usable width. The lower layer is whole, the upper one is parted where
the selvedges meet, so no doubled piece crosses that line: the cloth is two folded strips
side by side, each with its fold at y = 0 and the meeting line at its top. Where the
selvedges meet is for us to choose.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations_with_replacement
from typing import TYPE_CHECKING, NamedTuple

from stash.lay.dealing import Dealt, Lot, Rows, deal, fitting, orders_of
from stash.lay.doubled import Folded, Layers, SingleEnd, shortest, spaced
from stash.lay.errors import LayError
from stash.lay.folded_lay import half_width, narrowed, opened_out, sort_out
from stash.lay.forms import FINE, GRID, check_widths, half_gap
from stash.lay.obstacles import folded_strip_of
from stash.lay.problem import LayKind
from stash.lay.search import on_grain, search, upright
from stash.lay.table import Item, Strip, length_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.lay.effort import Effort
    from stash.lay.problem import Problem

MOST_SPLITS = 12
"""Places for the meeting line that are tried."""
BEST_SPLITS = 3
"""So many of them are tried with every order."""


class Split(NamedTuple):
    """A place for the meeting line, and the pieces dealt out to the two strips beside it."""

    first: int
    """Width of the first strip, solver units."""
    dealt: Dealt


def lay_gate(problem: Problem, effort: Effort, single_end: SingleEnd) -> Folded:
    """The shortest gate arrangement found.

    Raises:
        TooNarrowError: a piece is wider than the cloth, or than its half where it must lie
            doubled.
        LayError: no place for the meeting line leaves room for every piece.
    """

    def layers(items: tuple[Item, ...]) -> Layers:
        if not items:
            return _layers(problem, half_width(problem) // 2 // GRID * GRID, ((), ()))
        return _lay(problem, tuple(_ready(problem, items)), effort)

    return shortest(
        problem, LayKind.GATE, sort_out(problem, half_gap(problem)), layers, single_end, effort.beat
    )


def _ready(problem: Problem, items: tuple[Item, ...]) -> list[Item]:
    gap = half_gap(problem)
    return spaced(items, below=gap, above=gap)


def _lay(problem: Problem, items: tuple[Item, ...], effort: Effort) -> Layers:
    """Choose the meeting line with upright pieces, then search each strip further.

    So freedom to turn never chooses a worse line than the same pieces without it.
    """
    check_widths(problem, [item.forms for item in items], half_width(problem), doubled=True)
    first, dealt = _best_split(problem, tuple(on_grain(upright(item)) for item in items))
    rows = []
    for strip, hand, row in zip(_strips(problem, first), dealt.hands, dealt.rows, strict=True):
        mine = narrowed(tuple(items[k] for k in hand), strip.width)
        found = search(strip, mine, _half(effort)) if mine else None
        better = found is not None and found.row is not None and found.length < length_of(row)
        rows.append(found.row if found and found.row and better else row)
    return _layers(problem, first, (rows[0], rows[1]))


def _half(effort: Effort) -> Effort:
    """Half the tries for each of the two strips."""
    return replace(effort, tries=(effort.tries + 1) // 2)


def _layers(problem: Problem, first: int, rows: Rows) -> Layers:
    """Both strips opened out: their folds lie half the usable width apart."""
    folds = (first, first + half_width(problem))
    placements = opened_out(problem, rows[0], folds[0]) + opened_out(problem, rows[1], folds[1])
    end = max(map(length_of, rows))
    return Layers(end, end, placements, (folds[0] / FINE, folds[1] / FINE), None)


def _strips(problem: Problem, first: int) -> tuple[Strip, Strip]:
    half = half_width(problem)
    return (
        folded_strip_of(problem, first, first),
        folded_strip_of(problem, first + half, half - first),
    )


def _best_split(problem: Problem, items: tuple[Item, ...]) -> Split:
    """The best line for one order, then for the best lines the other orders too."""
    orders = orders_of(items)
    splits = tuple(_splits(problem, items))
    found = [split for first in splits if (split := _split(problem, first, items, orders[0]))]
    found.sort(key=lambda split: split.dealt.length)
    near = [split.first for split in found[:BEST_SPLITS]] or splits
    for first in near:
        more = [_split(problem, first, items, order) for order in orders[1:]]
        found += [split for split in more if split]
    if not found:
        raise LayError(
            "Wherever the selvedges meet, some piece finds no room beside that line.",
            "Lay this cloth folded or open.",
        )
    return min(found, key=lambda split: split.dealt.length)


def _split(
    problem: Problem, first: int, items: tuple[Item, ...], order: tuple[int, ...]
) -> Split | None:
    """The pieces dealt out to strips that meet there; None if one finds no room in either."""
    strips = _strips(problem, first)
    lots = [Lot(*(fitting((item,), strip.width) for strip in strips)) for item in items]
    dealt = deal(strips, lots, order)
    return Split(first, dealt) if dealt else None


def _splits(problem: Problem, items: tuple[Item, ...]) -> Iterator[int]:
    """Widths of the first strip worth trying, a bounded number.

    Either strip just as wide as a piece on the fold, the middle, or as two pieces beside
    each other, or as any one piece. The cloth looks the same from both sides unless it has
    flaws, so otherwise only the narrower strip is put first.
    """
    half = half_width(problem)
    on_fold = sorted({f.across for item in items if item.at_fold for f in item.forms})
    others = sorted({f.across for item in items if not item.at_fold for f in item.forms})
    pairs = [a + b for a in on_fold for b in others]
    pairs += [a + b for a, b in combinations_with_replacement(others, 2)]
    least = min(on_fold + others)
    widest = max(min(f.across for f in item.forms) for item in items)
    seen: set[int] = set()
    for wanted in (*on_fold, half // 2, *pairs, *others):
        width = -(-wanted // GRID) * GRID
        narrow = min(width, half - width)
        if narrow < least or half - narrow < widest:
            continue
        for first in (narrow, half - narrow) if problem.has_flaws else (narrow,):
            if first not in seen and len(seen) < MOST_SPLITS:
                seen.add(first)
                yield first
    if not seen and widest < half:  # one strip takes everything
        yield half + -widest // GRID * GRID
