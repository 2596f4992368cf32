"""From judged pairings to the integer programme, and back to who cuts what."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.pairing.assign import Choice, Chosen, Option, assign
from stash.pairing.worth import ALL_FROM_SHELF
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from stash.cloth.record import Cloth
    from stash.pairing.judgement import Pairing
    from stash.pairing.slots import Slot
    from stash.pairing.worth import Worth

NM_PER_TENTH = 100_000


@dataclass(frozen=True, slots=True)
class Filled:
    """A slot with everything judged for it. `worths` holds the pairings that can be cut."""

    slot: Slot
    pairings: tuple[Pairing, ...]
    worths: Mapping[int, Worth]


def choose(
    filled: Sequence[Filled], cloths: Iterable[Cloth], free: Mapping[int, Length]
) -> tuple[Chosen, tuple[Option, ...]]:
    """Set the integer programme up and solve it."""
    open_slots = [n for n, each in enumerate(filled) if each.slot.held is None]
    barred = {number: _tested_in(filled[number].slot, filled) for number in open_slots}
    options = tuple(
        Option(number, p.cloth_id, math.ceil(p.cut_from_shelf.nm / NM_PER_TENTH), gain)
        for number in open_slots
        for p in filled[number].pairings
        if p.cut_from_shelf is not None
        and p.cloth_id in filled[number].worths
        and (gain := filled[number].worths[p.cloth_id].gain) > 0
        and p.cloth_id not in barred[number]
    )
    by_make: dict[int, list[int]] = {}
    for number in open_slots:
        by_make.setdefault(filled[number].slot.make.id, []).append(number)
    makes = {each.slot.make.id: each.slot.make for each in filled}
    choice = Choice(
        options=options,
        room={cloth: length.nm // NM_PER_TENTH for cloth, length in free.items()},
        whole_makes=tuple(
            (tuple(numbers), ALL_FROM_SHELF * makes[make].priority)
            for make, numbers in by_make.items()
        ),
        once=frozenset(c.id for c in cloths if c.flaws or c.outline),
        apart=tuple(
            (one, other)
            for one in open_slots
            for other in open_slots
            if filled[one].slot.role is filled[other].slot.role
            and filled[one].slot.make.muslin_for == filled[other].slot.make.id
        ),
    )
    return assign(choice), options


def _tested_in(slot: Slot, filled: Sequence[Filled]) -> frozenset[int]:
    """Cloths barred to a slot: a muslin in its make's own cloth, or the reverse, tests nothing."""
    return frozenset(
        each.slot.held.cloth_id
        for each in filled
        if each.slot.held is not None
        and each.slot.role is slot.role
        and (slot.make.muslin_for == each.slot.make.id or each.slot.make.muslin_for == slot.make.id)
    )


def left_over(
    filled: Sequence[Filled], given: Mapping[int, int], free: Mapping[int, Length]
) -> dict[int, Length]:
    """Length of each cloth nobody has once the plan is carried out."""
    left = dict(free)
    for number, cloth in given.items():
        cut = next(p.cut_from_shelf for p in filled[number].pairings if p.cloth_id == cloth)
        left[cloth] = left[cloth] - (cut or ZERO)
    return left
