"""The season plan: the whole queue of makes against the whole shelf at once."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from stash.pairing.choose import Ask, choose
from stash.pairing.filling import Judging
from stash.pairing.joint import (
    MOST_LAYS,
    held_together,
    joint_question,
    lay_together,
    shares,
    worth_laying,
)
from stash.pairing.judgement import PlannedRole, SeasonPlan
from stash.pairing.nature import natures_for
from stash.pairing.order import sewing_order
from stash.pairing.plan_words import (
    Told,
    why_bought,
    why_chosen,
    why_kept,
    why_taken,
    why_together,
    why_waits,
)
from stash.pairing.shortfall import buying_questions, shortfall
from stash.pairing.shortlist import needing_no_lay
from stash.pairing.slots import free_lengths, slots_of
from stash.pairing.spending import spending_of
from stash.pairing.verdict import with_free
from stash.units.length import ZERO

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from datetime import date

    from stash.config import Settings
    from stash.pairing.choose import Filled, Given, LaidTogether
    from stash.pairing.filling import Shelf
    from stash.pairing.judgement import Shortfall
    from stash.pairing.nature import Natures
    from stash.pairing.needs import Needs

    Tell = Callable[[int, int, str], None]


def season_plan(
    shelf: Shelf,
    needs: Needs,
    settings: Settings,
    today: date,
    progress: Tell | None = None,
    natures: Natures | None = None,
) -> SeasonPlan:
    """Give every role of every live make a cloth, or a place on the buying list.

    Pinned promises stay. Every other role gets the cloths that make the whole queue worth
    most: how well they suit times the priority of the make, more for what is worn together,
    less what buying costs. Two makes are laid together on one cloth where that lets both
    have it or saves length. `progress` is called as (done, total, what) and may raise to stop.
    `natures` are those the questions were asked with.
    """
    tell = progress or _hush
    natures = natures or natures_for(settings)
    slots = slots_of(shelf.makes, shelf.patterns, shelf.promises)
    cloths = tuple(shelf.cloths.values())
    free = free_lengths(shelf.makes, cloths, shelf.promises)
    aside = needing_no_lay(slots, cloths, free, natures, needs.answer)
    judging = Judging(
        shelf=shelf,
        free=free,
        needs=needs,
        natures=natures,
        aside=aside,
        settings=settings,
        today=today,
    )
    filled = []
    for number, slot in enumerate(slots):
        tell(number, len(slots), f"{slot.make.name}: {slot.role}")
        filled.append(judging.fill(slot))
    ask = Ask(
        filled=filled,
        cloths=shelf.cloths,
        patterns=shelf.patterns,
        free=free,
        today=today,
        spending=spending_of(filled, shelf.cloths, settings),
    )
    given = _choose(ask, needs, tell)
    told = _told(ask, given, settings)
    roles = tuple(
        _planned(number, each, given, judging, told) for number, each in enumerate(filled)
    )
    lacking = [
        number
        for number, each in enumerate(filled)
        if each.slot.held is None and number not in given.by_slot and not roles[number].waits
    ]
    return SeasonPlan(
        roles=roles,
        order=sewing_order(make for make in shelf.makes if make.state.wants_cloth),
        shortfalls=_shortfalls(lacking, judging, told),
        proven=given.proven,
        gap=given.gap,
    )


def _hush(done: int, total: int, what: str) -> None:
    """Nobody listens."""


def _choose(ask: Ask, needs: Needs, tell: Tell) -> Given:
    """Choose, lay together what looks worth it, and choose again until nothing more comes."""
    known: list[LaidTogether] = []
    tried: set[tuple[int, int, int]] = set()
    while True:
        tell(len(tried), MOST_LAYS, "choosing cloths")
        given = choose(ask, known)
        found = False
        fresh = [
            one
            for one in worth_laying(ask, given, known)
            if (one.one, one.other, one.cloth) not in tried
        ][: MOST_LAYS - len(tried)]
        needs.look_ahead(joint_question(ask, one) for one in fresh)
        for one in fresh:
            tell(len(tried), MOST_LAYS, "laying two makes together")
            tried.add((one.one, one.other, one.cloth))
            if (joint := lay_together(ask, one, needs)) is not None:
                known.append(joint)
                found = True
        if not found:
            return given


def _planned(number: int, each: Filled, given: Given, judging: Judging, told: Told) -> PlannedRole:
    slot, cloths, settings = each.slot, judging.shelf.cloths, judging.settings
    base = PlannedRole(make_id=slot.make.id, role=slot.role, pairing=None, runner_up=None, why="")
    if slot.held is not None:
        kept = judging.pairing(slot, each.judged[slot.held.cloth_id])
        why = why_kept(slot.held, kept, cloths[slot.held.cloth_id].name)
        return replace(base, pairing=kept, why=why, pinned=True)
    cloth_id = given.by_slot.get(number)
    best_first = sorted(each.worths, key=lambda cloth: (-each.worths[cloth].gain, cloth))
    others = [cloth for cloth in best_first if cloth != cloth_id]
    if others:
        base = replace(base, runner_up=judging.pairing(slot, each.judged[others[0]]))
    if cloth_id is None:
        why = why_bought(told, number, others[0] if others else None)
        if slot.make.id in given.waiting:
            return replace(base, why=f"{why_waits(settings)} {why}", waits=True)
        return replace(base, why=why)
    taken = judging.pairing(slot, each.judged[cloth_id])
    joint = held_together(given.together).get(number)
    if joint is None:
        room = given.spare[cloth_id] + (taken.cut_from_shelf or ZERO)
        pairing = with_free(taken, cloths[cloth_id], room, settings)
        why = why_chosen(told, number, pairing, others[0] if others else None)
        return replace(base, pairing=pairing, why=why)
    other = joint.other if joint.one == number else joint.one
    both = replace(taken, need=joint.need)
    pairing = with_free(both, cloths[cloth_id], given.spare[cloth_id] + joint.length, settings)
    pairing = replace(pairing, cut_from_shelf=shares(joint, told.filled)[number])
    why = why_chosen(told, number, pairing, others[0] if others else None)
    why = f"{why_together(told, other, joint.saved)} {why}"
    partner = told.filled[other].slot
    return replace(base, pairing=pairing, why=why, with_=(partner.make.id, partner.role))


def _told(ask: Ask, given: Given, settings: Settings) -> Told:
    users: dict[int, list[int]] = {}
    for number, cloth in given.by_slot.items():
        users.setdefault(cloth, []).append(number)
    outfits: dict[int, list[int]] = {}
    for one, other in given.outfits:
        outfits.setdefault(one, []).append(other)
        outfits.setdefault(other, []).append(one)
    return Told(
        filled=ask.filled,
        makes=tuple(each.slot.make for each in ask.filled),
        pairings=tuple(each.judged for each in ask.filled),
        worths=tuple(each.worths for each in ask.filled),
        cloths=ask.cloths,
        users=users,
        given=given.by_slot,
        outfits=outfits,
        system=settings.system,
    )


def _shortfalls(lacking: Sequence[int], judging: Judging, told: Told) -> tuple[Shortfall, ...]:
    """What is to be bought for these slots."""
    slots = [told.filled[number].slot for number in lacking]
    judging.needs.look_ahead(
        question
        for slot in slots
        for question in buying_questions(slot.make, slot.pattern, slot.role, judging.settings)
    )
    return tuple(_shortfall(number, judging, told) for number in lacking)


def _shortfall(number: int, judging: Judging, told: Told) -> Shortfall:
    each = told.filled[number]
    slot = each.slot
    taken = {
        cloth: why_taken(told, number, cloth)
        for cloth in sorted(each.worths, key=lambda cloth: (-each.worths[cloth].gain, cloth))
    }
    near = tuple(each.judged.values()) if taken else judging.nearest_laid(slot, each.judged)
    return shortfall(
        slot.make,
        slot.pattern,
        slot.role,
        near,
        judging.shelf.cloths,
        judging.needs,
        judging.settings,
        taken=taken,
    )
