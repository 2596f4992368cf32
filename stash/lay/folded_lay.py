"""Folded lays: selvedge to selvedge, two layers; a pair is one placement.

What is cut once and not on the fold has no second layer to share. Two ways are tried: it
lies in an opened-out stretch after the fold ends, or it is cut double and its twin is
waste. Shorter wins.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.lay.errors import LayError
from stash.lay.forms import (
    FINE,
    GRID,
    Form,
    flatten_fold,
    forms_of,
    sheet_width,
    turns_allowed,
    whole_outline,
)
from stash.lay.obstacles import folded_strip_of, shifted_spots
from stash.lay.open_lay import polygon_mm
from stash.lay.result import Placement
from stash.lay.search import Effort, search
from stash.lay.table import Item, Placed, Strip, length_of
from stash.lay.validate import check_width

if TYPE_CHECKING:
    from stash.lay.problem import Problem, Ring, Shape


@dataclass(frozen=True, slots=True)
class Folded:
    """A folded arrangement: `doubled` on two layers, then `singles` on the opened-out end."""

    doubled: tuple[Placed, ...]
    singles: tuple[Placed, ...]
    wasted: frozenset[int]
    """Shapes whose last doubled placement gives one copy nobody needs."""
    tries: int

    @property
    def folded_to(self) -> int:
        """Where the fold ends, solver units."""
        return length_of(self.doubled)

    @property
    def length(self) -> int:
        """Length of cloth used, solver units."""
        return self.folded_to + length_of(self.singles)


def half_width(problem: Problem) -> int:
    """The folded width, solver units, on the placing grid."""
    return sheet_width(problem) // (2 * GRID) * GRID


def lay_folded(problem: Problem, effort: Effort) -> Folded:
    """The shortest folded arrangement found.

    Raises:
        TooNarrowError: a piece is wider than the cloth, or than half of it where it must
            lie doubled.
    """
    doubled, singles = _sort_out(problem)
    ways = [_with_open_end(problem, doubled, singles, effort)]
    if singles:
        fits = all(min(f.across for f in item.forms) <= half_width(problem) for item in singles)
        if fits:
            everything = doubled + singles
            row = _doubled_row(problem, everything, effort)
            wasted = frozenset(item.forms[0].shape for item in singles)
            ways.append(Folded(row[0], (), wasted, row[1]))
    return min(ways, key=lambda way: way.length)


def _with_open_end(
    problem: Problem, doubled: tuple[Item, ...], singles: tuple[Item, ...], effort: Effort
) -> Folded:
    row, tries = _doubled_row(problem, doubled, effort) if doubled else ((), 0)
    if not singles:
        return Folded(row, (), frozenset(), tries)
    strip = Strip(sheet_width(problem), shifted_spots(problem.spots, length_of(row)))
    end = search(strip, singles, effort)
    if end.row is None:
        raise LayError("The pieces cut once find no room.", "Lay this cloth open.")
    return Folded(row, end.row, frozenset(), tries + end.tries)


def _doubled_row(
    problem: Problem, items: tuple[Item, ...], effort: Effort
) -> tuple[tuple[Placed, ...], int]:
    half = half_width(problem)
    for item in items:
        name = problem.shapes[item.forms[0].shape].name
        check_width(name, min(f.across for f in item.forms), half, FINE)
    usable = tuple(
        item._replace(forms=tuple(f for f in item.forms if f.across <= half)) for item in items
    )
    found = search(folded_strip_of(problem, half), usable, effort)
    if found.row is None:
        raise LayError("The pieces find no room on the folded cloth.", "Lay this cloth open.")
    return found.row, found.tries


def _sort_out(problem: Problem) -> tuple[tuple[Item, ...], tuple[Item, ...]]:
    """What lies doubled, and what is cut from a single layer."""
    doubled: list[Item] = []
    singles: list[Item] = []
    for index, shape in enumerate(problem.shapes):
        turns = turns_allowed(shape, problem.nap)
        if shape.on_fold:
            doubled += [Item(_at_fold(shape, index, turns), at_fold=True)] * shape.copies
            continue
        pairs = shape.copies // 2 if _pairs_up(shape, index) else 0
        both = forms_of(shape.outline, index, turns, (False, True))
        doubled += [Item(both)] * pairs
        for copy in range(2 * pairs, shape.copies):
            flags = (shape.mirrored and copy % 2 == 1,)
            singles.append(Item(forms_of(shape.outline, index, turns, flags)))
    return tuple(doubled), tuple(singles)


def _pairs_up(shape: Shape, index: int) -> bool:
    """Two layers give a piece and its mirror image: right for pairs, or if both look alike."""
    if shape.mirrored:
        return True
    return len(forms_of(shape.outline, index, (0,), (False, True))) == 1


def _at_fold(shape: Shape, index: int, turns: tuple[int, ...]) -> tuple[Form, ...]:
    """A half with its fold edge on y = 0: it may be mirrored end to end where turning is free.

    Turned by 180 the fold edge would face the selvedge; the half turned *and* mirrored
    keeps it on the fold and is, opened out, the whole piece turned by 180.
    """
    outline = flatten_fold(shape.outline)
    forms = forms_of(outline, index, (0,), (False,))
    if any(t % 360 == 180 for t in turns):
        forms += forms_of(outline, index, (180,), (True,))
    return forms


def folded_placements(problem: Problem, folded: Folded) -> tuple[Placement, ...]:
    """Every copy on the opened-out cloth, the fold line at half the usable width."""
    placements: list[Placement] = []
    for placed in folded.doubled:
        shape = problem.shapes[placed.form.shape]
        if shape.on_fold:
            placements.append(_opened(problem, placed))
        else:
            placements += _both_layers(problem, placed)
    for placed in folded.singles:
        polygon = polygon_mm(placed, folded.folded_to)
        form = placed.form
        placements.append(
            _placement(problem, placed, polygon, form.turn, form.mirrored, single=True)
        )
    return _number(placements, folded.wasted, problem)


def _both_layers(problem: Problem, placed: Placed) -> list[Placement]:
    """The upper layer beyond the fold line, and its mirror image before it."""
    middle = half_width(problem) / FINE
    ring = polygon_mm(placed)
    upper = tuple((x, middle + y) for x, y in ring)
    lower = tuple((x, middle - y) for x, y in reversed(ring))
    flag = placed.form.mirrored
    # Mirrored in the fold, a turn by t reads as a turn by -t of the mirrored piece.
    return [
        _placement(problem, placed, upper, placed.form.turn, flag),
        _placement(problem, placed, lower, -placed.form.turn % 360, not flag),
    ]


def _opened(problem: Problem, placed: Placed) -> Placement:
    """A half at the fold, opened out about the fold line."""
    middle = half_width(problem) / FINE
    shape = problem.shapes[placed.form.shape]
    [form] = forms_of(whole_outline(shape), placed.form.shape, (placed.form.turn,), (False,))
    whole = Placed(form, placed.x, 0)
    polygon = tuple((x, y - form.across / FINE / 2 + middle) for x, y in polygon_mm(whole))
    return _placement(problem, whole, polygon, form.turn, False)


def _placement(
    problem: Problem,
    placed: Placed,
    polygon: Ring,
    turn: int,
    mirrored: bool,
    single: bool = False,
) -> Placement:
    shape = problem.shapes[placed.form.shape]
    return Placement(
        shape=placed.form.shape,
        name=shape.name,
        copy=0,
        polygon=polygon,
        turn=turn,
        mirrored=mirrored,
        on_fold=shape.on_fold,
        single=single,
    )


def _number(
    placements: list[Placement], wasted: frozenset[int], problem: Problem
) -> tuple[Placement, ...]:
    """Copies numbered from 1, plain before mirrored; beyond the count wanted they are waste."""
    out = []
    numbers: dict[int, int] = {}
    for p in sorted(placements, key=lambda p: (p.shape, p.mirrored, p.polygon[0])):
        numbers[p.shape] = numbers.get(p.shape, 0) + 1
        spare = p.shape in wasted and numbers[p.shape] > problem.shapes[p.shape].copies
        out.append(replace(p, copy=numbers[p.shape], waste=spare))
    return tuple(out)
