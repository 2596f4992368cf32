"""The season plan: the whole queue of makes against the whole shelf at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.pairing.choose import Filled, choose, left_over
from stash.pairing.judgement import PlannedRole, SeasonPlan
from stash.pairing.order import sewing_order
from stash.pairing.plan_words import Told, why_bought, why_chosen, why_kept, why_taken
from stash.pairing.shortfall import shortfall
from stash.pairing.slots import Slot, free_lengths, slots_of
from stash.pairing.verdict import pair, with_free
from stash.pairing.worth import worth
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence
    from datetime import date

    from stash.cloth.record import Cloth
    from stash.config import Settings
    from stash.garment.make import Make, Person, Promise
    from stash.garment.pattern import Pattern
    from stash.pairing.judgement import Shortfall
    from stash.pairing.needs import Needs


@dataclass(frozen=True, slots=True)
class Shelf:
    """What the plan may use: everything as plain records."""

    makes: Sequence[Make]
    patterns: Mapping[int, Pattern]
    cloths: Mapping[int, Cloth]
    promises: Sequence[Promise]
    people: Mapping[int, Person]


def season_plan(
    shelf: Shelf,
    needs: Needs,
    settings: Settings,
    today: date,
    progress: Callable[[int, int, str], None] | None = None,
) -> SeasonPlan:
    """Give every role of every live make a cloth, or a place on the buying list.

    Pinned promises stay. Every other role gets the cloths that make the whole queue worth
    most: how well they suit times the priority of the make, less what buying costs. `progress`
    is called as (done, total, what) and may raise to stop.
    """
    slots = slots_of(shelf.makes, shelf.patterns, shelf.promises)
    free = free_lengths(shelf.makes, tuple(shelf.cloths.values()), shelf.promises)
    filled = []
    for number, slot in enumerate(slots):
        if progress is not None:
            progress(number, len(slots), f"{slot.make.name}: {slot.role}")
        filled.append(_judge(slot, shelf, free, needs, settings, today))
    chosen, options = choose(filled, shelf.cloths.values(), free)
    given = {options[place].slot: options[place].cloth for place in chosen.taken}
    told = _told(filled, given, shelf, settings)
    left = left_over(filled, given, free)
    roles = tuple(
        _planned(number, each, given.get(number), shelf, left, settings, told)
        for number, each in enumerate(filled)
    )
    bought = [
        _shortfall(number, each, shelf, needs, settings, told)
        for number, each in enumerate(filled)
        if each.slot.held is None and number not in given
    ]
    return SeasonPlan(
        roles=roles,
        order=sewing_order(make for make in shelf.makes if make.state.wants_cloth),
        shortfalls=tuple(bought),
        proven=chosen.proven,
        gap=chosen.gap,
    )


def _judge(
    slot: Slot,
    shelf: Shelf,
    free: Mapping[int, Length],
    needs: Needs,
    settings: Settings,
    today: date,
) -> Filled:
    person = shelf.people.get(slot.make.person_id) if slot.make.person_id is not None else None
    held = slot.held
    cloths = (
        sorted(shelf.cloths.values(), key=lambda c: c.id)
        if held is None
        else [shelf.cloths[held.cloth_id]]
    )
    pairings = []
    for cloth in cloths:
        mine = held.length if held is not None else ZERO
        room = mine if held is not None and held.cut else free[cloth.id] + mine
        pairings.append(
            pair(slot.make, slot.pattern, slot.role, cloth, room, needs, settings, person=person)
        )
    tested = slot.pattern.tested or any(m.muslin_for == slot.make.id for m in shelf.makes)
    able = [p for p in pairings if p.verdict.can_be_cut]
    saved = min((p.need.length for p in able if p.need.length is not None), default=ZERO)
    worths = {
        p.cloth_id: worth(
            slot.make, shelf.cloths[p.cloth_id], p, tested=tested, today=today, saved=saved
        )
        for p in able
    }
    return Filled(slot, tuple(pairings), worths)


def _planned(
    number: int,
    each: Filled,
    cloth_id: int | None,
    shelf: Shelf,
    left: Mapping[int, Length],
    settings: Settings,
    told: Told,
) -> PlannedRole:
    slot = each.slot
    if slot.held is not None:
        kept = each.pairings[0]
        why = why_kept(slot.held, kept, shelf.cloths[slot.held.cloth_id].name)
        return PlannedRole(
            make_id=slot.make.id,
            role=slot.role,
            pairing=kept,
            runner_up=None,
            why=why,
            pinned=True,
        )
    best_first = sorted(each.worths, key=lambda cloth: (-each.worths[cloth].gain, cloth))
    others = [cloth for cloth in best_first if cloth != cloth_id]
    by_cloth = {p.cloth_id: p for p in each.pairings}
    pairing = None
    if cloth_id is not None:
        taken = by_cloth[cloth_id]
        room = left[cloth_id] + (taken.cut_from_shelf or ZERO)
        pairing = with_free(taken, shelf.cloths[cloth_id], room, settings)
        why = why_chosen(told, number, pairing, others[0] if others else None)
    else:
        why = why_bought(told, number, others[0] if others else None)
    return PlannedRole(
        make_id=slot.make.id,
        role=slot.role,
        pairing=pairing,
        runner_up=by_cloth[others[0]] if others else None,
        why=why,
    )


def _told(
    filled: Sequence[Filled], given: Mapping[int, int], shelf: Shelf, settings: Settings
) -> Told:
    users: dict[int, list[int]] = {}
    for number, cloth in given.items():
        users.setdefault(cloth, []).append(number)
    return Told(
        makes=tuple(each.slot.make for each in filled),
        pairings=tuple({p.cloth_id: p for p in each.pairings} for each in filled),
        worths=tuple(each.worths for each in filled),
        cloths=shelf.cloths,
        users=users,
        system=settings.system,
    )


def _shortfall(
    number: int,
    each: Filled,
    shelf: Shelf,
    needs: Needs,
    settings: Settings,
    told: Told,
) -> Shortfall:
    slot = each.slot
    return shortfall(
        slot.make,
        slot.pattern,
        slot.role,
        each.pairings,
        shelf.cloths,
        needs,
        settings,
        taken={
            cloth: why_taken(told, number, cloth)
            for cloth in sorted(each.worths, key=lambda cloth: (-each.worths[cloth].gain, cloth))
        },
    )
