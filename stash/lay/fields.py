"""How much a piece would overlap all others at every place of a grid, kept up as they move.

Every move asks this of one piece; the others have mostly stayed where they were since it was
last asked. So only what has changed is taken off and added. All numbers are multiples of a
small power of two, so sums of them are exact whatever the order, and nothing builds up.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

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


class _Field(NamedTuple):
    """The sums at every place, and what was counted: where every piece lay, and its weight."""

    sums: NDArray[np.float32]
    counted: list[tuple[Cell | None, float]]


class Fields:
    """The fields of all pieces on one strip, in all their forms."""

    def __init__(self, strip: Strip) -> None:
        self._strip = strip
        self._depths: dict[tuple[Form, Form], Depths] = {}
        self._clear: dict[Form, NDArray[np.float32]] = {}
        self._fields: dict[tuple[int, Form], _Field] = {}
        self._length = self._longest = 0

    def shorten(self, length: int) -> None:
        """The pieces are to lie within this length from now on; a longer one forgets all fields."""
        if length > self._longest:
            self._longest, self._clear, self._fields = length, {}, {}
        self._length = length

    def places(self, form: Form) -> tuple[int, int]:
        """How many there are along and across; none along a cloth that is too short."""
        return _steps(self._length - form.length), _steps(self._strip.width - form.across)

    def overlaps(self, cell: Cell, cells: list[Cell]) -> list[float]:
        """How deep it lies in each of the others; the last is what is to be kept clear."""
        form, x, y = cell
        between = self._between
        deep = [between(other, form).at(x - ox, y - oy) for other, ox, oy in cells]
        deep.append(float(self._clear_of(form)[x, y]) if self._strip.blocked else 0.0)
        return deep

    def field(
        self, number: int, form: Form, cells: list[Cell], weights: list[float]
    ) -> NDArray[np.float32]:
        """The sums of weighted overlaps at all places for the piece of that number in that form.

        `weights`: one for every piece, and one for what is to be kept clear.
        """
        field = self._fields.get((number, form))
        if field is None:
            field = _Field(self._nothing(form), [(None, 0.0)] * len(weights))
            self._fields[number, form] = field
        sums, counted = field
        for other, (cell, weight) in enumerate(zip(cells, weights, strict=False)):
            if other == number or counted[other] == (cell, weight):
                continue
            before, much = counted[other]
            if before == cell:
                self._add(sums, form, cell, weight - much)
            else:
                self._add(sums, form, before, -much)
                self._add(sums, form, cell, weight)
            counted[other] = (cell, weight)
        _, much = counted[-1]
        if self._strip.blocked and weights[-1] != much:
            sums += (weights[-1] - much) * self._clear_of(form)
            counted[-1] = (None, weights[-1])
        return sums[: self.places(form)[0]]

    def _add(self, sums: NDArray[np.float32], form: Form, cell: Cell | None, weight: float) -> None:
        """Count the overlaps of the form with the piece in that cell, so often."""
        if cell is not None:
            self._between(cell.form, form).add_to(sums, cell.x, cell.y, weight)

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

    def _nothing(self, form: Form) -> NDArray[np.float32]:
        """A field of the longest cloth so far, with no overlaps."""
        along, across = self._longest - form.length, self._strip.width - form.across
        return np.zeros((max(1, _steps(along)), _steps(across)), dtype=np.float32)

    def _clear_of(self, form: Form) -> NDArray[np.float32]:
        clear = self._clear.get(form)
        if clear is None:
            clear = self._nothing(form)
            for ring in self._strip.blocked:
                depths(ring, form.body).add_to(clear, 0, 0, 1.0)
            self._clear[form] = clear
        return clear
