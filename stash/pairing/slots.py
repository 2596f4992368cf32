"""The places the season plan has to fill: every role of every make that still wants cloth."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.garment.pattern import Role
from stash.pairing.nature import natures_for
from stash.pairing.needs import question_for
from stash.pairing.shortlist import needing_no_lay
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from stash.cloth.record import Cloth
    from stash.config import Settings
    from stash.garment.make import Make, Promise
    from stash.garment.pattern import Pattern, Piece
    from stash.pairing.nature import Natures
    from stash.pairing.needs import Question
    from stash.pairing.shortlist import AtHand


@dataclass(frozen=True, slots=True)
class Slot:
    """One role of one make; `held` is the promise that already fills it, if one does."""

    make: Make
    pattern: Pattern
    role: Role
    held: Promise | None

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """Those of its pattern; none where only a chart is known."""
        return tuple(self.pattern.pieces_for(self.make.view, self.make.size, self.role))

    @property
    def ask(self) -> tuple[object, ...]:
        """The same for slots that ask the same of any cloth: what is worth laying out, and how."""
        make = self.make
        return (id(self.pattern), make.view, make.size, self.role, make.muslin)


def slots_of(
    makes: Iterable[Make], patterns: Mapping[int, Pattern], promises: Sequence[Promise]
) -> tuple[Slot, ...]:
    """Every role of every live make, by make id and role.

    A promise fills its slot when the person pinned it or the cloth is cut; others are only
    what an earlier plan said.
    """
    found = []
    for make in sorted((m for m in makes if m.state.wants_cloth), key=lambda m: m.id):
        pattern = patterns[make.pattern_id]
        kept = {p.role: p for p in promises if p.make_id == make.id and (p.pinned or p.cut)}
        roles = {*pattern.roles(make.view, make.size), *kept} or {Role.MAIN}
        found += [Slot(make, pattern, role, kept.get(role)) for role in Role if role in roles]
    return tuple(found)


def held_lengths(makes: Iterable[Make], promises: Iterable[Promise]) -> dict[int, Length]:
    """Length the plan may not touch, by cloth id, as it lies on the shelf.

    What is cut has already left the shelf. A promise nobody pinned is free again if its
    make is planned anew.
    """
    live = {make.id for make in makes if make.state.wants_cloth}
    held: dict[int, Length] = {}
    for promise in promises:
        if not promise.cut and (promise.pinned or promise.make_id not in live):
            held[promise.cloth_id] = held.get(promise.cloth_id, ZERO) + promise.length
    return held


def free_lengths(
    makes: Sequence[Make], cloths: Iterable[Cloth], promises: Iterable[Promise]
) -> dict[int, Length]:
    """Length of each cloth the plan may give away, never below zero."""
    held = held_lengths(makes, promises)
    return {c.id: max(ZERO, c.left - held.get(c.id, ZERO)) for c in cloths}


def plan_questions(
    makes: Sequence[Make],
    patterns: Mapping[int, Pattern],
    cloths: Sequence[Cloth],
    promises: Sequence[Promise],
    settings: Settings,
    natures: Natures | None = None,
    at_hand: AtHand | None = None,
) -> tuple[Question, ...]:
    """The questions of length the season plan will ask; pass them to `missing_problems`.

    Slots that ask the same put their questions once.

    Cloths that fail a hard ask are never laid out, nor are those with nothing left to give,
    nor those whose answer is plain without a lay (see `prune` and `shortlist`). Pass the
    `natures` the plan is made with, and no cloth is judged twice. `at_hand` gives the needs
    that are known already; ask again once the lays are found, until they are all known,
    because a cloth may turn out to be too short, and the next best is then asked of too.
    """
    natures = natures or natures_for(settings)
    free = free_lengths(makes, cloths, promises)
    found = []
    open_slots: set[tuple[object, ...]] = set()
    slots = slots_of(makes, patterns, promises)
    aside = needing_no_lay(slots, cloths, free, natures, at_hand or _nothing)
    for slot in slots:
        if slot.held is None and slot.ask in open_slots:
            continue
        if slot.held is None:
            open_slots.add(slot.ask)
        plain = aside.get(slot.ask, {}) if slot.held is None else {}
        for cloth in cloths:
            if cloth.id in plain:
                continue
            if slot.held is not None and slot.held.cloth_id != cloth.id:
                continue
            if slot.held is None and not free[cloth.id]:
                continue
            if not natures.of(cloth, slot.pattern, slot.role).bars:
                found.append(question_for(slot.make, slot.pattern, slot.role, cloth))
    return tuple(found)


def _nothing(question: Question) -> None:
    """Nothing is laid out yet."""
    del question
