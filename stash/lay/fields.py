"""How much a piece would overlap all others at every place of a grid, kept up as they move.

Every move asks this of one piece; the others have mostly stayed where they were since it was
last asked. So only what has changed is taken off and added. All numbers are multiples of a
small power of two, so sums of them are exact whatever the order, and nothing builds up.

The rows of a field are longer than there are places across, and depths are kept in rows as
long: so they are added in one run, whatever row they begin in, and what sticks out beyond a
selvedge falls where no places are. The turns of a piece in which it is as long and as wide have
their fields together. Both only save time.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from stash.geometry.ring import across
from stash.lay.depths import STEP, Depths, depths

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from stash.lay.forms import Form
    from stash.lay.table import Strip

BEYOND = 0.3
"""Share of a step pieces may stand beyond the edges of the cloth: they can be pushed back."""


class Cell(NamedTuple):
    """A form with its lower left on the grid, in steps."""

    form: Form
    x: int
    y: int


def _steps(room: int) -> int:
    """How many places there are in so much room."""
    return int(room / STEP + BEYOND) + 1 if room >= 0 else 0


class _Runs(NamedTuple):
    """Depths of several forms in one outline: of each a run of rows as long as their field's."""

    deep: NDArray[np.float32]
    along: int
    across: int
    left: int
    low: int


class _Field(NamedTuple):
    """The sums at every place, and what was counted: where every piece lay, and its weight."""

    runs: NDArray[np.float32]
    """Of every form its rows, with an idle one before and after."""
    row: int
    """Their length."""
    sums: NDArray[np.float32]
    """What of the runs is places: form, along, across."""
    counted: list[tuple[Cell | None, float]]

    def add(self, depths: _Runs, cell: Cell, weight: float) -> None:
        """Add depths so often, for a piece that lies in that cell."""
        deep, along, across, left, low = depths
        row, (_, length, width) = self.row, self.sums.shape
        x, y = cell.x + left, cell.y + low
        first, last = max(0, x), min(length, x + along)
        if first >= last or y >= width or y + across <= 0:
            return
        there = self.runs[:, (first + 1) * row + y : (last + 1) * row + y]
        seen = deep[:, (first - x) * row : (last - x) * row]
        if weight == 1:  # a product takes as long as the sum
            there += seen
        elif weight == -1:
            there -= seen
        else:
            there += weight * seen


class Fields:
    """The fields of pieces on one strip, in any of these forms."""

    def __init__(self, strip: Strip, forms: list[Form]) -> None:
        self._strip = strip
        self._widest = max((form.across for form in forms), default=0)
        self._beyond = max((across(form.ring) - form.across for form in forms), default=0)
        self._depths: dict[tuple[Form, Form], Depths] = {}
        self._runs: dict[tuple[Form, tuple[Form, ...]], _Runs] = {}
        self._clear: dict[Form, NDArray[np.float32]] = {}
        self._fields: dict[tuple[int, tuple[Form, ...]], _Field] = {}
        self._length = self._longest = 0

    def shorten(self, length: int) -> None:
        """The pieces are to lie within this length from now on; a longer one forgets all fields."""
        if length > self._longest:
            self._longest, self._clear, self._fields = length, {}, {}
        self._length = length

    def places(self, form: Form) -> tuple[int, int]:
        """How many there are along and across; none along a cloth that is too short."""
        return self._places_within(self._length, form)

    def overlaps(self, cell: Cell, cells: list[Cell]) -> list[float]:
        """How deep it lies in each of the others; the last is what is to be kept clear."""
        form, x, y = cell
        between = self._between
        deep = [between(other, form).at(x - ox, y - oy) for other, ox, oy in cells]
        deep.append(float(self._clear_of(form)[x, y]) if self._strip.blocked else 0.0)
        return deep

    def field(
        self, number: int, forms: tuple[Form, ...], cells: list[Cell], weights: list[float]
    ) -> NDArray[np.float32]:
        """The sums of weighted overlaps for the piece of that number: form, along, across.

        All `forms` of it are as long and as wide. `weights`: one for every piece, and one for
        what is to be kept clear.
        """
        field = self._fields.get((number, forms))
        if field is None:
            field = self._new_field(forms, len(weights))
            self._fields[number, forms] = field
        counted = field.counted
        for other, cell in enumerate(cells):
            weight = weights[other]
            before, much = counted[other]
            if other == number or (before == cell and much == weight):
                continue
            if before == cell:
                field.add(self._runs_of(cell.form, forms), cell, weight - much)
            else:
                if before is not None:
                    field.add(self._runs_of(before.form, forms), before, -much)
                field.add(self._runs_of(cell.form, forms), cell, weight)
            counted[other] = (cell, weight)
        _, much = counted[-1]
        if self._strip.blocked and weights[-1] != much:
            for form, sums in zip(forms, field.sums, strict=True):
                sums += (weights[-1] - much) * self._clear_of(form)
            counted[-1] = (None, weights[-1])
        return field.sums[:, : self.places(forms[0])[0]]

    def _new_field(self, forms: tuple[Form, ...], count: int) -> _Field:
        """One of the longest cloth so far with no overlaps, nothing of `count` being counted."""
        (along, across), row = self._most_places(forms[0]), self._row(forms[0])
        runs = np.zeros((len(forms), (along + 2) * row), dtype=np.float32)
        sums = runs.reshape(len(forms), along + 2, row)[:, 1:-1, :across]
        return _Field(runs, row, sums, [(None, 0.0)] * count)

    def _most_places(self, form: Form) -> tuple[int, int]:
        """Along the longest cloth so far, and across."""
        along, across = self._places_within(self._longest, form)
        return max(1, along), across

    def _places_within(self, length: int, form: Form) -> tuple[int, int]:
        return _steps(length - form.length), _steps(self._strip.width - form.across)

    def _row(self, form: Form) -> int:
        """How long the rows of its fields are.

        No piece on the cloth lies so far to the side that its depths reach from the places of
        one row to those of another, and no depths are wider than a row.
        """
        return (max(self._strip.width, form.across + self._widest) + 2 * self._beyond) // STEP + 5

    def _runs_of(self, fixed: Form, moved: tuple[Form, ...]) -> _Runs:
        found = self._runs.get((fixed, moved))
        if found is None:
            every = [self._between(fixed, form) for form in moved]
            left, low = min(one.left for one in every), min(one.low for one in every)
            along = max(one.left + one.deep.shape[0] for one in every) - left
            across = max(one.low + one.deep.shape[1] for one in every) - low
            deep = np.zeros((len(moved), along, self._row(moved[0])), dtype=np.float32)
            for rows, one in zip(deep, every, strict=True):
                one.add_to(rows, -left, -low)
            found = _Runs(deep.reshape(len(moved), -1), along, across, left, low)
            self._runs[fixed, moved] = found
        return found

    def _between(self, fixed: Form, moved: Form) -> Depths:
        found = self._depths.get((fixed, moved))
        if found is None:
            # Always the same one of the two is worked out, so that history changes nothing.
            if fixed.ring > moved.ring:
                found = self._between(moved, fixed).exchanged()
            else:
                found = depths(fixed.ring, moved.ring)
            self._depths[fixed, moved] = found
        return found

    def _clear_of(self, form: Form) -> NDArray[np.float32]:
        clear = self._clear.get(form)
        if clear is None:
            clear = np.zeros(self._most_places(form), dtype=np.float32)
            for ring in self._strip.blocked:
                depths(ring, form.body).add_to(clear, 0, 0)
            self._clear[form] = clear
        return clear
