"""From judged pairings to the integer programme, and back to who cuts what."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from stash.garment.pattern import Role
from stash.pairing.assign import Choice, Chosen, Joint, Option, Outfit, assign
from stash.pairing.outfits import (
    BEST,
    GOES_FROM,
    MOST_OUTFITS,
    PARTNERS,
    TOGETHER,
    cloths_match,
    pair_up,
)
from stash.pairing.worth import ALL_FROM_SHELF, wanted
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date

    from stash.cloth.record import Cloth
    from stash.garment.pattern import Pattern
    from stash.pairing.assign import Spending
    from stash.pairing.judgement import Judged, Need
    from stash.pairing.slots import Slot
    from stash.pairing.worth import Worth

NM_PER_TENTH = 100_000


@dataclass(frozen=True, slots=True)
class Filled:
    """A slot with everything judged for it. `worths` holds the cloths that can be cut."""

    slot: Slot
    judged: Mapping[int, Judged]
    """By cloth id, in the order of the ids."""
    worths: Mapping[int, Worth]


@dataclass(frozen=True, slots=True)
class LaidTogether:
    """Two slots laid on one cloth in one lay: what both need, and what to cut off for it."""

    one: int
    other: int
    cloth: int
    need: Need
    length: Length
    """As the cloth lies on the shelf."""
    saved: Length
    """Than one lay after the other; below nothing only where a flaw bars a second lay."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """What is to be chosen from, and how."""

    filled: Sequence[Filled]
    cloths: Mapping[int, Cloth]
    patterns: Mapping[int, Pattern]
    free: Mapping[int, Length]
    today: date
    spending: Spending | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """What the programme chose, in words of slots and cloths."""

    by_slot: Mapping[int, int]
    """Cloth id of every slot that gets one."""
    together: tuple[LaidTogether, ...]
    outfits: tuple[tuple[int, int], ...]
    """Slots whose cloths were chosen to go together."""
    waiting: frozenset[int]
    """Makes the budget does not reach."""
    proven: bool
    gap: float
    spare: Mapping[int, Length] = field(default_factory=dict)
    """Length of each cloth nobody has once the plan is carried out."""


def choose(ask: Ask, known: Sequence[LaidTogether] = ()) -> Given:
    """Set the integer programme up with the joint lays known so far, and solve it."""
    filled = ask.filled
    open_slots = [n for n, each in enumerate(filled) if each.slot.held is None]
    options = _options(filled, open_slots)
    at = {(option.slot, option.cloth): place for place, option in enumerate(options)}
    usable = [j for j in known if (j.one, j.cloth) in at and (j.other, j.cloth) in at]
    outfits = _outfits(ask, open_slots, options)
    by_make: dict[int, list[int]] = {}
    for number in open_slots:
        by_make.setdefault(filled[number].slot.make.id, []).append(number)
    makes = {each.slot.make.id: each.slot.make for each in filled}
    chosen = assign(
        Choice(
            options=options,
            room={cloth: length.nm // NM_PER_TENTH for cloth, length in ask.free.items()},
            whole_makes=tuple(
                (tuple(numbers), ALL_FROM_SHELF * wanted(makes[make], ask.today))
                for make, numbers in by_make.items()
            ),
            once=frozenset(c.id for c in ask.cloths.values() if c.flaws or c.outline),
            apart=_apart(filled, open_slots),
            joints=tuple(
                Joint(at[j.one, j.cloth], at[j.other, j.cloth], tenths(j.length)) for j in usable
            ),
            outfits=outfits,
            spending=ask.spending,
        )
    )
    return _given(ask, chosen, options, [usable[k] for k in chosen.joined], outfits)


def tenths(length: Length) -> int:
    """Tenths of a millimetre, rounded up."""
    return math.ceil(length.nm / NM_PER_TENTH)


def _given(
    ask: Ask,
    chosen: Chosen,
    options: Sequence[Option],
    joined: Sequence[LaidTogether],
    outfits: Sequence[Outfit],
) -> Given:
    by_slot = {options[place].slot: options[place].cloth for place in chosen.taken}
    left = dict(ask.free)
    for number, cloth in by_slot.items():
        cut = ask.filled[number].judged[cloth].cut_from_shelf
        left[cloth] = left[cloth] - (cut or ZERO)
    for joint in joined:
        left[joint.cloth] = left[joint.cloth] + joint.saved
    waits = ask.spending.waits if ask.spending else ()
    return Given(
        by_slot=by_slot,
        together=tuple(joined),
        outfits=tuple(
            (options[outfits[k].one].slot, options[outfits[k].other].slot) for k in chosen.paired
        ),
        waiting=frozenset(ask.filled[waits[k][0][0]].slot.make.id for k in chosen.waiting),
        proven=chosen.proven,
        gap=chosen.gap,
        spare=left,
    )


def _options(filled: Sequence[Filled], open_slots: Sequence[int]) -> tuple[Option, ...]:
    barred = {number: _tested_in(filled[number].slot, filled) for number in open_slots}
    return tuple(
        Option(number, p.cloth_id, tenths(p.cut_from_shelf), gain)
        for number in open_slots
        for p in filled[number].judged.values()
        if p.cut_from_shelf is not None
        and p.cloth_id in filled[number].worths
        and (gain := filled[number].worths[p.cloth_id].gain) > 0
        and p.cloth_id not in barred[number]
    )


def _apart(filled: Sequence[Filled], open_slots: Sequence[int]) -> tuple[tuple[int, int], ...]:
    place = {(filled[n].slot.make.id, filled[n].slot.role): n for n in open_slots}
    found = []
    for number in open_slots:
        slot = filled[number].slot
        tested = place.get((slot.make.muslin_for or 0, slot.role))
        if tested is not None:
            found.append((number, tested))
    return tuple(found)


def _tested_in(slot: Slot, filled: Sequence[Filled]) -> frozenset[int]:
    """Cloths barred to a slot: a muslin in its make's own cloth, or the reverse, tests nothing."""
    return frozenset(
        each.slot.held.cloth_id
        for each in filled
        if each.slot.held is not None
        and each.slot.role is slot.role
        and (slot.make.muslin_for == each.slot.make.id or each.slot.make.muslin_for == slot.make.id)
    )


def _outfits(ask: Ask, open_slots: Sequence[int], options: Sequence[Option]) -> tuple[Outfit, ...]:
    """Pairs of the best cloths of makes that are worn together.

    Of a long queue the pairs that count most: those of the next partner before those of a later
    one, and the best cloths first.
    """
    best: dict[int, list[int]] = {}
    for place, option in enumerate(options):
        best.setdefault(option.slot, []).append(place)
    for slot, places in best.items():
        best[slot] = sorted(places, key=lambda p: (-options[p].gain, p))[:BEST]
    mains = [n for n in open_slots if ask.filled[n].slot.role is Role.MAIN and n in best]
    found: list[tuple[int, int, Outfit]] = []
    for turn, one, other in _partners(ask, mains):
        least = min(wanted(ask.filled[n].slot.make, ask.today) for n in (one, other))
        for rank, (a, b) in _by_rank(best[one], best[other]):
            match = cloths_match(ask.cloths[options[a].cloth], ask.cloths[options[b].cloth])
            if match is not None and match.mark >= GOES_FROM:
                found.append((turn, rank, Outfit(a, b, TOGETHER * least * match.mark)))
    found.sort(key=lambda each: each[:2])
    return tuple(outfit for _, _, outfit in found[:MOST_OUTFITS])


def _by_rank(one: Sequence[int], other: Sequence[int]) -> list[tuple[int, tuple[int, int]]]:
    """All pairs, each with the place of the worse of the two in its own list."""
    return [(max(m, n), (a, b)) for m, a in enumerate(one) for n, b in enumerate(other)]


def _partners(ask: Ask, mains: Sequence[int]) -> list[tuple[int, int, int]]:
    """Slots of makes worn together, behind how far on the second stands among the partners.

    Each make is thought of with a few later ones only.
    """
    found = []
    for place, one in enumerate(mains):
        later = [
            other
            for other in mains[place + 1 :]
            if pair_up(ask.filled[one].slot.make, ask.filled[other].slot.make, ask.patterns)
        ]
        found += [(turn, one, other) for turn, other in enumerate(later[:PARTNERS])]
    return found
