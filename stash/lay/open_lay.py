"""Open lays: every copy on a single layer."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

from stash.lay.bounds import bound_of, least_length
from stash.lay.effort import COMPARISONS, ORDERS
from stash.lay.errors import LayError, NoRoomError
from stash.lay.forms import (
    FINE,
    Form,
    check_widths,
    forms_in,
    sheet_width,
    turns_allowed,
    whole_outline,
)
from stash.lay.obstacles import strip_of
from stash.lay.result import Placement
from stash.lay.search import plainest, search
from stash.lay.table import Item, Placed

if TYPE_CHECKING:
    from stash.lay.effort import Effort, Found
    from stash.lay.problem import Problem


def open_copies(problem: Problem) -> tuple[tuple[Form, ...], ...]:
    """For every copy the forms it may take, shape after shape.

    Raises:
        TooNarrowError: a piece is wider than the cloth however it is turned.
    """
    width = sheet_width(problem)
    copies = []
    for index, shape in enumerate(problem.shapes):
        for copy in range(shape.copies):
            flags = (shape.mirrored and copy % 2 == 1,)
            turns = turns_allowed(shape, problem.nap)
            copies.append(forms_in(problem, index, whole_outline(shape), turns, flags))
    check_widths(problem, copies, width)
    return tuple(tuple(f for f in forms if f.across <= width) for forms in copies)


def lay_open(problem: Problem, effort: Effort) -> Found:
    """The shortest open arrangement found.

    Raises:
        TooNarrowError: a piece is wider than the cloth.
        NoRoomError: the pieces do not all fit on a remnant.
        LayError: a piece meets the print nowhere across the cloth.
    """
    items = tuple(Item(forms) for forms in open_copies(problem))
    plain = tuple(plainest(item).forms for item in items)
    likely = least_length(bound_of(plain, sheet_width(problem)))
    harder = replace(effort, orders=ORDERS, comparisons=COMPARISONS, likely=likely)
    found = search(strip_of(problem), items, harder)
    if found.row is None and not problem.outline:
        name = problem.shapes[_placeless(problem, items, effort)].name
        raise LayError(
            f"{name} finds no place across this cloth where it meets the print.",
            "Take the repeat across out, or move the piece's match point.",
        )
    if found.row is None:
        largest = max(items, key=lambda item: item.forms[0].area)
        raise NoRoomError(problem.shapes[largest.forms[0].shape].name)
    return found


def _placeless(problem: Problem, items: tuple[Item, ...], effort: Effort) -> int:
    """The shape that finds no place though it lies alone on an endless strip."""
    strip = strip_of(problem)
    lonely = (item for item in items if search(strip, (item,), effort).row is None)
    return next(lonely, items[0]).forms[0].shape


def open_placements(problem: Problem, row: tuple[Placed, ...]) -> tuple[Placement, ...]:
    """The row as placements in mm, copies numbered from 1 in the order of the shapes."""
    numbers: dict[int, int] = {}
    placements = []
    for placed in sorted(row, key=lambda p: (p.form.shape, p.form.mirrored, p.x, p.y)):
        shape = placed.form.shape
        numbers[shape] = numbers.get(shape, 0) + 1
        placements.append(
            Placement(
                shape=shape,
                name=problem.shapes[shape].name,
                copy=numbers[shape],
                polygon=polygon_mm(placed),
                turn=placed.form.turn,
                mirrored=placed.form.mirrored,
                on_fold=problem.shapes[shape].on_fold,
            )
        )
    return tuple(placements)


def row_of(items: tuple[Item, ...], placements: tuple[Placement, ...]) -> tuple[Placed, ...]:
    """The row of the items that these placements show; empty if they lie in ways they may not."""
    ways = {(f.shape, f.turn, f.mirrored): (f, item.forms) for item in items for f in item.forms}
    left = Counter(item.forms for item in items)
    row = []
    for placement in placements:
        way = ways.get((placement.shape, placement.turn, placement.mirrored))
        if way is None or not left[way[1]]:
            return ()
        form, alike = way
        left[alike] -= 1
        x, y = map(min, zip(*form.outline, strict=True))
        start, low = map(min, zip(*placement.polygon, strict=True))
        row.append(Placed(form, round(start * FINE) - x, round(low * FINE) - y))
    return tuple(row)


def polygon_mm(placed: Placed, dx: int = 0) -> tuple[tuple[float, float], ...]:
    """The true outline where it lies, in mm."""
    return tuple(
        ((x + placed.x + dx) / FINE, (y + placed.y) / FINE) for x, y in placed.form.outline
    )
