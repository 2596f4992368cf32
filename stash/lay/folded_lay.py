"""Folded lays: selvedge to selvedge, two layers; a pair is one placement.

The half width is a strip with its fold at y = 0. A gate lay is two such strips side by
side, so what places and opens out one strip serves both.
"""

from __future__ import annotations

from dataclasses import replace
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
from stash.lay.effort import ORDERS
from stash.lay.errors import LayError
from stash.lay.forms import (
    FINE,
    GRID,
    Form,
    check_widths,
    flatten_fold,
    forms_in,
    forms_of,
    half_gap,
    match_of,
    sheet_width,
    turns_allowed,
    whole_outline,
)
from stash.lay.obstacles import folded_strip_of
from stash.lay.open_lay import polygon_mm
from stash.lay.problem import LayKind
from stash.lay.search import search
from stash.lay.table import Item, Placed, length_of

if TYPE_CHECKING:
    from stash.lay.effort import Effort
    from stash.lay.problem import Problem, Shape
    from stash.lay.result import Placement


def half_width(problem: Problem) -> int:
    """The folded width, solver units, on the placing grid."""
    return sheet_width(problem) // (2 * GRID) * GRID


def lay_folded(problem: Problem, effort: Effort, single_end: SingleEnd) -> Folded:
    """The shortest folded arrangement found.

    Raises:
        TooNarrowError: a piece is wider than the cloth, or than half of it where it must
            lie doubled.
    """

    def layers(items: tuple[Item, ...]) -> Layers:
        half = half_width(problem)
        fold = half / FINE
        if not items:
            return Layers(0, 0, (), (fold,), None)
        ready = tuple(spaced(items, below=half_gap(problem)))
        check_widths(problem, [item.forms for item in ready], half, doubled=True)
        harder = replace(effort, orders=ORDERS)
        found = search(folded_strip_of(problem, half, half), narrowed(ready, half), harder)
        if found.row is None:
            raise no_room()
        end = length_of(found.row)
        return Layers(end, end, opened_out(problem, found.row, half), (fold,), None)

    return shortest(problem, LayKind.FOLDED, sort_out(problem), layers, single_end, effort.beat)


def no_room() -> LayError:
    """The pieces do not fit between the flaws of a folded cloth."""
    return LayError("The pieces find no room on the folded cloth.", "Lay this cloth open.")


def narrowed(items: tuple[Item, ...], width: int) -> tuple[Item, ...]:
    """The items with only the forms that fit into `width`, solver units."""
    return tuple(
        item._replace(forms=tuple(f for f in item.forms if f.across <= width)) for item in items
    )


def sort_out(problem: Problem, above: int = 0) -> Sorted:
    """What lies doubled about a lengthwise fold, and what is cut from a single layer.

    A half whose grain runs across its fold edge, or on the bias, cannot lie at such a fold, nor
    one that is only narrow enough when turned: it is opened out and cut single. `above`: room
    kept above what lies at the fold.
    """
    doubled: list[Item] = []
    singles: list[Item] = []
    can_waste = True
    for index, shape in enumerate(problem.shapes):
        turns = turns_allowed(shape, problem.nap)
        if shape.on_fold:
            at_fold = _at_fold(problem, index, turns)
            if any(form.across + above <= half_width(problem) for form in at_fold):
                doubled += [Item(at_fold, at_fold=True)] * shape.copies
                continue
            whole = forms_in(problem, index, whole_outline(shape), turns, (False,))
            singles += [Item(whole)] * shape.copies
            can_waste = False
            continue
        pairs = shape.copies // 2 if pairs_up(shape) else 0
        both = forms_in(problem, index, shape.outline, turns, (False, True))
        doubled += [Item(both)] * pairs
        for copy in range(2 * pairs, shape.copies):
            flags = (shape.mirrored and copy % 2 == 1,)
            singles.append(Item(forms_in(problem, index, shape.outline, turns, flags)))
    return Sorted(tuple(doubled), tuple(singles), can_waste)


def pairs_up(shape: Shape) -> bool:
    """Two layers give a piece and its mirror image: right for pairs, or if both look alike."""
    if shape.mirrored or shape.on_fold:
        return True
    return len(forms_of(shape.outline, 0, (0,), (False, True), match=match_of(shape))) == 1


def _at_fold(problem: Problem, index: int, turns: tuple[int, ...]) -> tuple[Form, ...]:
    """A half with its fold edge on y = 0: it may be mirrored end to end where turning is free.

    Turned by 180 the fold edge would face the selvedge; the half turned *and* mirrored
    keeps it on the fold and is, opened out, the whole piece turned by 180. None lie there that
    only lie across or on the bias.
    """
    outline = flatten_fold(problem.shapes[index].outline)
    forms: tuple[Form, ...] = ()
    if any(t % 360 == 0 for t in turns):
        forms += forms_in(problem, index, outline, (0,), (False,))
    if any(t % 360 == 180 for t in turns):
        forms += forms_in(problem, index, outline, (180,), (True,))
    return tuple(form for form in forms if not form.off)


def opened_out(problem: Problem, row: tuple[Placed, ...], fold: int) -> tuple[Placement, ...]:
    """Both layers of a strip whose fold lies at y = `fold` (solver units) on the cloth."""
    placements: list[Placement] = []
    for placed in row:
        if problem.shapes[placed.form.shape].on_fold:
            placements.append(_opened(problem, placed, fold / FINE))
        else:
            placements += _both_layers(problem, placed, fold / FINE)
    return tuple(placements)


def _both_layers(problem: Problem, placed: Placed, fold: float) -> list[Placement]:
    """The copy beyond the fold line, and its mirror image before it."""
    ring = polygon_mm(placed)
    beyond = tuple((x, fold + y) for x, y in ring)
    before = tuple((x, fold - y) for x, y in reversed(ring))
    flag = placed.form.mirrored
    # Mirrored in the fold, a turn by t reads as a turn by -t of the mirrored piece.
    return [
        placement_of(problem, placed, beyond, placed.form.turn, flag),
        placement_of(problem, placed, before, -placed.form.turn, not flag),
    ]


def _opened(problem: Problem, placed: Placed, fold: float) -> Placement:
    """A half at the fold, opened out about the fold line."""
    shape = problem.shapes[placed.form.shape]
    [form] = forms_of(whole_outline(shape), placed.form.shape, (placed.form.turn,), (False,))
    whole = Placed(form, placed.x, 0)
    polygon = tuple((x, y - form.across / FINE / 2 + fold) for x, y in polygon_mm(whole))
    return placement_of(problem, whole, polygon, form.turn, False)
