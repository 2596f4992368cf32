"""Separation for as long as there is time: one descent after another.

What is separated from the best row ends where pieces exchanged two by two lead no further,
and that is often far from the shortest. So it is left after some beginnings in vain, and the
pieces are separated from anywhere within a little more length, ever shorter, until that leads
no further either; then again from the best, which may have come from elsewhere by then.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from stash.lay.compact import compact
from stash.lay.separate import Separation
from stash.lay.table import length_of

if TYPE_CHECKING:
    from stash.lay.effort import Effort
    from stash.lay.table import Item, Placed, Strip

IN_VAIN = 12
"""So many beginnings in vain end a descent. Measured on open lays of 6 to 14 pieces: in 2 s the
mean is as with no end to the first, and the worst is shorter."""
MORE = 1.04
"""What lies anywhere is first given so many times the length of the best."""


class Descents:
    """The search; every look goes on from the last."""

    def __init__(self, strip: Strip, items: tuple[Item, ...], seed: int) -> None:
        self._strip = strip
        self._separation = Separation(strip, items, seed)
        self._row: tuple[Placed, ...] | None = None
        self._length, self._in_vain = 0, IN_VAIN

    def look(
        self, best: tuple[Placed, ...], aim: int, effort: Effort
    ) -> tuple[tuple[Placed, ...] | None, int]:
        """A row shorter than `aim`, pushed together, if found while there is effort; the tries.

        `best` is the best row there is, and may be longer than `aim`.
        """
        tries = 0
        while effort.left(tries):
            if self._in_vain >= IN_VAIN:
                self._descend(best, aim)
            left = replace(effort, tries=effort.tries - tries)
            row, more = self._separation.look(self._row, self._length, left)
            tries += more
            if row is None:
                self._in_vain += self._separation.is_between
                continue
            self._row, self._in_vain = compact(self._strip, row), 0
            self._length = length_of(self._row)
            if self._length < aim:
                return self._row, tries
        return None, tries

    def _descend(self, best: tuple[Placed, ...], aim: int) -> None:
        """The next beginning: the best, or anywhere if the last descent ended at that."""
        anywhere = self._row == best
        self._row, self._in_vain = (None if anywhere else best), 0
        self._length = int(aim * MORE) if anywhere else aim
