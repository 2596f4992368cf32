"""Which cloth goes to which role, all at once: an integer programme solved with HiGHS."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

TIME_LIMIT = 20.0
"""Seconds; past this the best plan so far is used and its gap shown."""

TIE = 1e-6
"""Worth of an earlier option over a later one that is as good: settles ties the same way."""


@dataclass(frozen=True, slots=True)
class Option:
    """A cloth that could be cut for a slot. A slot is one role of one make."""

    slot: int
    cloth: int
    length: int
    """Tenths of a millimetre to cut off the shelf, rounded up."""
    gain: float
    """Worth of cutting this cloth over buying one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """What may be chosen, and the limits between choices."""

    options: tuple[Option, ...]
    room: Mapping[int, int]
    """Tenths of a millimetre of each cloth that may be cut, rounded down."""
    whole_makes: tuple[tuple[tuple[int, ...], float], ...] = ()
    """Slots of one make, and what it is worth that none of them has to be bought."""
    once: frozenset[int] = frozenset()
    """Cloths only one slot may use: a flaw's place is known for the first cut only."""
    apart: tuple[tuple[int, int], ...] = ()
    """Slots that must not share a cloth: a muslin and its make."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """The options taken, by their place in `Choice.options`."""

    taken: tuple[int, ...]
    proven: bool
    gap: float


class _Rows:
    """Rows of `sum of coefficient x variable <= limit`, gathered one by one."""

    def __init__(self) -> None:
        self.cells: list[tuple[int, int, float]] = []
        self.limits: list[float] = []

    def add(self, cells: Sequence[tuple[int, float]], limit: float) -> None:
        row = len(self.limits)
        self.cells.extend((row, column, value) for column, value in cells)
        self.limits.append(limit)

    def constraint(self, columns: int) -> LinearConstraint:
        rows, cols, values = zip(*self.cells, strict=True)
        matrix = coo_array((values, (rows, cols)), shape=(len(self.limits), columns))
        return LinearConstraint(matrix.tocsr(), -np.inf, self.limits)


def assign(choice: Choice) -> Chosen:
    """The choice of options with the most gain that keeps every limit.

    At most one option per slot; a slot without one is bought. Proven optimal, or with the
    relative gap to the best that could still exist.
    """
    options = choice.options
    if not options:
        return Chosen((), True, 0.0)
    makes = choice.whole_makes
    columns = len(options) + len(makes)
    gains = [option.gain - TIE * place for place, option in enumerate(options)]
    worth = np.array([*gains, *(bonus for _, bonus in makes)])
    answer = milp(
        -worth,
        constraints=_limits(choice).constraint(columns),
        integrality=np.ones(columns, dtype=np.int64),
        bounds=Bounds(0, 1),
        options={"time_limit": TIME_LIMIT, "mip_rel_gap": 0.0},
    )
    if answer.x is None:
        return Chosen((), False, 1.0)
    taken = tuple(place for place in range(len(options)) if answer.x[place] > 0.5)
    gap = float(answer.mip_gap or 0.0)
    return Chosen(taken, answer.status == 0, gap)


def _limits(choice: Choice) -> _Rows:
    rows = _Rows()
    by_slot: dict[int, list[int]] = {}
    by_cloth: dict[int, list[int]] = {}
    for place, option in enumerate(choice.options):
        by_slot.setdefault(option.slot, []).append(place)
        by_cloth.setdefault(option.cloth, []).append(place)
    for places in by_slot.values():
        rows.add([(place, 1) for place in places], 1)
    for cloth, places in by_cloth.items():
        room = choice.room[cloth]
        # Rounding must not forbid what fits to the last tenth of a millimetre on its own.
        rows.add([(p, min(choice.options[p].length, room) / 10) for p in places], room / 10)
        if cloth in choice.once:
            rows.add([(place, 1) for place in places], 1)
        for one, other in choice.apart:
            both = [place for place in places if choice.options[place].slot in (one, other)]
            if len(both) > 1:
                rows.add([(place, 1) for place in both], 1)
    for number, (slots, _) in enumerate(choice.whole_makes, start=len(choice.options)):
        for slot in slots:
            rows.add([(number, 1), *((place, -1) for place in by_slot.get(slot, []))], 0)
    return rows
