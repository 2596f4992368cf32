"""All pieces at once within a given length: they overlap at first, and are moved till none does.

Where pieces are put down one after the other, the last find what the first have left. Here a
length a little shorter than the best so far is given, all pieces lie on it, and one that
overlaps others moves to wherever on the cloth it overlaps least, in any of its turns. Overlaps
that stay weigh more from round to round, until they are worth a move elsewhere: guided local
search (Egeblad, Nielsen & Odgaard, Fast neighborhood search for two- and three-dimensional
nesting problems, EJOR 183(3), 2007; Umetani et al., Int. Trans. Operational Research 16(6),
2009; both cited from memory). Places are those of a grid; what it leaves is pushed apart.
"""

from __future__ import annotations

from random import Random
from typing import TYPE_CHECKING

import numpy as np

from stash.lay.compact import pushed_apart
from stash.lay.depths import PARTS, STEP
from stash.lay.effort import Effort, Found
from stash.lay.fields import Cell, Fields
from stash.lay.table import Placed, length_of, order_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from stash.lay.forms import Form
    from stash.lay.table import Item, Strip

SHORTER = 0.005
"""Share of the best length by which the length given is shorter."""
ROUNDS = 100
"""Another beginning is made after so many rounds in which all overlaps together grew no less."""
AFRESH = 0.3
"""How often that is any place for every piece; else two pieces of the start change places."""
SIDEWAYS = 0.8
"""How often a piece moves to a place that is no better."""
MOST_FORMS = 50
"""With more forms, what is known of every pair of them would take a hundred megabytes."""


def can_separate(strip: Strip, items: tuple[Item, ...]) -> bool:
    """Nothing has to match, and not all pieces differ where there are many."""
    forms = {form for item in items for form in item.forms}
    return strip.lattice is None and len(forms) <= MOST_FORMS


def separated(strip: Strip, items: tuple[Item, ...], start: Found, effort: Effort) -> Found:
    """The shortest row found by `effort.comparisons` from `start`, in order along the cloth."""
    best, left = start.row, effort.comparisons * effort.tries * len(items)
    separation = Separation(strip, items, effort.seed)
    while best is not None and left > 0 and length_of(best) > effort.enough:
        looked = Effort(tries=left, enough=effort.enough)
        row, tries = separation.look(best, length_of(best), looked)
        best, left = row or best, left - tries
    if best is None or best == start.row:
        return start
    best = tuple(sorted(best, key=lambda placed: (placed.x, placed.y)))
    return Found(best, order_of(best, items), start.tries)


class Separation:
    """The search: what it knows of the pieces, and where they lie just now."""

    def __init__(self, strip: Strip, items: tuple[Item, ...], seed: int) -> None:
        self._strip, self._items, self._dice = strip, items, Random(seed)
        self._forms = [[f for f in item.forms if f.across <= strip.width] for item in items]
        self._alike = [_as_long_and_wide(forms) for forms in self._forms]
        self._fields = Fields(strip, [form for forms in self._forms for form in forms])
        self._start: tuple[Placed, ...] | None = None
        self._length, self._rounds, self._least = 0, 0, 0.0
        self._cells: list[Cell] = []
        # Whatever is to be kept clear counts as one piece more, the last.
        sides = (len(items) + 1, len(items) + 1)
        self._overlaps, self._weights = np.zeros(sides), np.ones(sides)

    @property
    def is_between(self) -> bool:
        """One beginning has come to its end, and the next is not made."""
        return self._rounds == 0

    def look(
        self, start: tuple[Placed, ...] | None, length: int, effort: Effort
    ) -> tuple[tuple[Placed, ...] | None, int]:
        """A row shorter than `length`, if this beginning leads to one while there is effort.

        And the tries: a try is every time all places are compared for a piece in one of its
        forms. `start` is a row from which to begin, in any order and of any length; None: from
        anywhere. The next look goes on from here, or makes another beginning.
        """
        tries = 0
        if self.is_between or start != self._start:
            self._begin(start, max(effort.enough, int(length * (1 - SHORTER))))
        while effort.left(tries):
            tries += max(1, self._round())
            if not self._overlaps.any():
                self._rounds = 0
                row = pushed_apart(self._strip, self._row())
                return (row if row is not None and length_of(row) < length else None), tries
            self._wait_for_less()
            if self.is_between:
                break
        return None, tries

    def _begin(self, start: tuple[Placed, ...] | None, length: int) -> None:
        """The start as it lies, if it is a new one; two of it exchanged; or all anywhere."""
        self._length = length
        self._fields.shorten(length)
        known = start == self._start
        if start is None or (known and self._dice.random() < AFRESH):
            cells = [self._anywhere(forms) for forms in self._forms]
        else:
            cells = self._as_in(start)
            if known and len(cells) > 1:
                self._exchange(cells)
        self._start, self._cells = start, [self._inside(cell) for cell in cells]
        self._weights[:] = 1
        for number in range(len(cells)):
            self._compare(number)
        self._rounds, self._least = ROUNDS, float(self._overlaps.sum())

    def _as_in(self, row: tuple[Placed, ...]) -> list[Cell]:
        """The row on the grid, in the order of the items."""
        alike = {item.forms: [p for p in row if p.form in item.forms] for item in self._items}
        placed = [alike[item.forms].pop() for item in self._items]
        return [Cell(p.form, round(p.x / STEP), round(p.y / STEP)) for p in placed]

    def _exchange(self, cells: list[Cell]) -> None:
        one, two = self._dice.sample(range(len(cells)), 2)
        (form, x, y), (other, other_x, other_y) = cells[one], cells[two]
        cells[one], cells[two] = Cell(form, other_x, other_y), Cell(other, x, y)

    def _anywhere(self, forms: list[Form]) -> Cell:
        form = self._dice.choice(forms)
        along, across = self._fields.places(form)
        return Cell(form, self._dice.randrange(max(1, along)), self._dice.randrange(across))

    def _inside(self, cell: Cell) -> Cell:
        along, across = self._fields.places(cell.form)
        return cell._replace(x=max(0, min(cell.x, along - 1)), y=min(cell.y, across - 1))

    def _compare(self, number: int) -> None:
        """How far the piece lies in the others, and in what is to be kept clear."""
        deep = self._fields.overlaps(self._cells[number], self._cells)
        deep[number] = 0.0
        self._overlaps[number, :] = self._overlaps[:, number] = deep

    def _wait_for_less(self) -> None:
        """Another round is left, or as many as at first where all overlaps are the least so far."""
        together = float(self._overlaps.sum())
        self._rounds = ROUNDS if together < self._least else self._rounds - 1
        self._least = min(self._least, together)

    def _round(self) -> int:
        """Every piece that overlaps moves if that is better; what stays weighs more."""
        tries = 0
        numbers = np.flatnonzero(self._overlaps[:-1].sum(axis=1)).tolist()
        self._dice.shuffle(numbers)
        for number in numbers:
            if self._overlaps[number].any():
                tries += self._move(number)
        deepest = self._overlaps.max()
        if deepest > 0:
            self._weights += np.ceil(self._overlaps / deepest * PARTS) / PARTS
        return tries

    def _move(self, number: int) -> int:
        """Put the piece where it overlaps least, if that is less than here; the tries."""
        now = float(self._weights[number] @ self._overlaps[number])
        weights = self._weights[number].tolist()
        found: dict[Form, tuple[float, NDArray[np.float32]]] = {}
        for forms in self._alike[number]:
            fields = self._fields.field(number, forms, self._cells, weights)
            if fields.size:
                leasts = fields.min(axis=(1, 2)).tolist()
                found.update(zip(forms, zip(leasts, fields, strict=True), strict=True))
        if not found:
            return 0
        # Of several that overlap as little the first of its forms, whatever its group.
        form = min((f for f in self._forms[number] if f in found), key=lambda f: found[f][0])
        least, field = found[form]
        if least < now or self._dice.random() < SIDEWAYS:
            places = np.flatnonzero(field == least)
            x, y = divmod(int(places[self._dice.randrange(len(places))]), field.shape[1])
            self._cells[number] = Cell(form, x, y)
            self._compare(number)
        return len(found)

    def _row(self) -> tuple[Placed, ...]:
        """The pieces where they lie, none beyond the selvedge."""
        top = self._strip.width
        return tuple(
            Placed(form, x * STEP, min(y * STEP, top - form.across)) for form, x, y in self._cells
        )


def _as_long_and_wide(forms: list[Form]) -> list[tuple[Form, ...]]:
    """The forms in groups of those with the same length and width."""
    groups: dict[tuple[int, int], list[Form]] = {}
    for form in forms:
        groups.setdefault((form.length, form.across), []).append(form)
    return [tuple(group) for group in groups.values()]
