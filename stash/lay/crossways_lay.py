"""Crossways lays: the cloth folded across its length, two layers, the whole usable width.

One layer lies upside down on the other, so a cloth with nap is never laid like this. The
pair of a piece is its mirror image in the fold line; pieces on the fold are laid opened
out, because their own fold runs lengthwise.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.lay.doubled import (
    Folded,
    Layers,
    SingleEnd,
    Sorted,
    placement_of,
    shortest,
    spaced,
)
from stash.lay.errors import LayError
from stash.lay.folded_lay import narrowed, no_room, pairs_up
from stash.lay.forms import (
    FINE,
    check_widths,
    forms_in,
    half_gap,
    sheet_width,
    turns_allowed,
    whole_outline,
)
from stash.lay.obstacles import flaws_about, past_flaws
from stash.lay.open_lay import polygon_mm
from stash.lay.problem import LayKind
from stash.lay.search import search
from stash.lay.table import Item, Placed, Strip, length_of

if TYPE_CHECKING:
    from stash.lay.effort import Effort
    from stash.lay.problem import Problem, Shape
    from stash.lay.result import Placement

ROUNDS = 3
"""How often the fold is moved outward until the pieces fit between it and the start."""


def lay_crossways(problem: Problem, effort: Effort, single_end: SingleEnd) -> Folded:
    """The shortest crossways arrangement found; the problem must be without nap.

    Raises:
        TooNarrowError: a piece is wider than the cloth.
        LayError: there is a print to match, which runs the other way on the other layer.
    """
    if problem.matches:
        raise LayError(
            "A print that has to match cannot be folded across: one layer would run back to front.",
            "Lay it open or folded.",
        )

    def layers(items: tuple[Item, ...]) -> Layers:
        if not items:
            return Layers(0, 0, (), (), 0.0)
        ready = tuple(spaced(items, before=half_gap(problem)))
        width = sheet_width(problem)
        check_widths(problem, [item.forms for item in ready], width)
        return _lay(problem, narrowed(ready, width), effort)

    return shortest(problem, LayKind.CROSSWAYS, _sort_out(problem), layers, single_end, effort.beat)


def _sort_out(problem: Problem) -> Sorted:
    """Pairs lie doubled; so do two of a piece that looks the same mirrored."""
    doubled: list[Item] = []
    singles: list[Item] = []
    can_waste = True
    for index, shape in enumerate(problem.shapes):
        outline = whole_outline(shape)
        turns = turns_allowed(shape, problem.nap)
        both_ways = _both_ways(shape)
        pairs = shape.copies // 2 if both_ways and pairs_up(shape) else 0
        if pairs:
            doubled += [Item(forms_in(problem, index, outline, both_ways, (False, True)))] * pairs
        for copy in range(2 * pairs, shape.copies):
            flags = (shape.mirrored and not shape.on_fold and copy % 2 == 1,)
            singles.append(Item(forms_in(problem, index, outline, both_ways or turns, flags)))
            can_waste = can_waste and bool(both_ways)
    return Sorted(tuple(doubled), tuple(singles), can_waste)


def _both_ways(shape: Shape) -> tuple[int, ...]:
    """The turns whose opposite is allowed too: the twin lies turned by half a circle."""
    turns = {t % 360 for t in shape.turns}
    return tuple(t for t in shape.turns if (t + 180) % 360 in turns)


def _lay(problem: Problem, items: tuple[Item, ...], effort: Effort) -> Layers:
    """Pieces as near the fold as they go; the fold where they just fit before it.

    Flaws stand at fixed places of the cloth, so where the fold lies decides what they hit:
    it is moved outward until the pieces fit, or beyond all flaws.
    """
    width = sheet_width(problem)
    clear = search(Strip(width), items, effort)
    if clear.row is None:
        raise no_room()
    depth = length_of(clear.row)
    if not problem.has_flaws:
        return _layers(problem, clear.row, depth)
    past = max(past_flaws(problem), 0)
    ways = [(past + 2 * depth, past + depth, clear.row)]
    fold = depth
    for _ in range(ROUNDS):
        found = search(Strip(width, flaws_about(problem, fold)), items, effort)
        if found.row is None:
            break
        if found.length <= fold:
            ways.append((fold + found.length, fold, found.row))
            break
        fold = found.length
    _, fold, row = min(ways, key=lambda way: way[0])
    return _layers(problem, row, fold)


def _layers(problem: Problem, row: tuple[Placed, ...], fold: int) -> Layers:
    placements = [p for placed in row for p in _both(problem, placed, fold)]
    end = fold + length_of(row)
    return Layers(end, 2 * fold, tuple(placements), (), fold / FINE)


def _both(problem: Problem, placed: Placed, fold: int) -> tuple[Placement, Placement]:
    """The copy after the fold and its mirror image before it."""
    after = polygon_mm(placed, fold)
    before = tuple((2 * fold / FINE - x, y) for x, y in reversed(after))
    turn, flag = placed.form.turn, placed.form.mirrored
    # Mirrored end to end, a turn by t reads as a turn by 180 - t of the mirrored piece.
    return (
        placement_of(problem, placed, after, turn, flag),
        placement_of(problem, placed, before, 180 - turn, not flag),
    )
