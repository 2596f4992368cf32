"""Every slot of a season with what each cloth is worth for it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from stash.garment.pattern import Role
from stash.pairing.choose import Filled
from stash.pairing.nearest import nearest_laid
from stash.pairing.needs import question_for, wanted_lays
from stash.pairing.outfits import TOGETHER, best_companion, companions
from stash.pairing.verdict import barred, judge, told, with_repeat
from stash.pairing.worth import is_tested, worth
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date

    from stash.cloth.record import Cloth
    from stash.config import Settings
    from stash.garment.make import Make, Person, Promise
    from stash.garment.pattern import Pattern
    from stash.pairing.judgement import Judged, Need, Pairing
    from stash.pairing.nature import Natures
    from stash.pairing.needs import Needs, Question
    from stash.pairing.slots import Slot


@dataclass(frozen=True, slots=True)
class Shelf:
    """What the plan may use: everything as plain records."""

    makes: Sequence[Make]
    patterns: Mapping[int, Pattern]
    cloths: Mapping[int, Cloth]
    promises: Sequence[Promise]
    people: Mapping[int, Person]


@dataclass(frozen=True, slots=True, kw_only=True)
class Judging:
    """Judges the shelf for slot after slot, in numbers; in words only what is asked for."""

    shelf: Shelf
    free: Mapping[int, Length]
    needs: Needs
    natures: Natures
    aside: Mapping[tuple[object, ...], Mapping[int, Need]]
    """By what an open slot asks, needs by cloth id that stand without a lay."""
    settings: Settings
    today: date
    _alike: dict[tuple[object, ...], dict[int, Judged]] = field(default_factory=dict, repr=False)
    """Of slots that ask the same, judged once."""

    def fill(self, slot: Slot) -> Filled:
        """Every cloth judged for the slot, and what those that can be cut are worth."""
        if slot.held is not None:
            cloth = self.shelf.cloths[slot.held.cloth_id]
            return self._weighed(slot, {cloth.id: self._judged(slot, cloth)})
        if slot.ask not in self._alike:
            cloths = sorted(self.shelf.cloths.values(), key=lambda c: c.id)
            self._alike[slot.ask] = {cloth.id: self._judged(slot, cloth) for cloth in cloths}
        return self._weighed(slot, self._alike[slot.ask])

    def nearest_laid(self, slot: Slot, judged: Mapping[int, Judged]) -> tuple[Judged, ...]:
        """The shelf for an open slot, laid out where that decides which cloth comes nearest."""

        def asked(one: Judged) -> Question:
            cloth = self.shelf.cloths[one.cloth_id]
            return question_for(slot.make, slot.pattern, slot.role, cloth)

        def lay_of(one: Judged) -> str:
            return next(wanted_lays(asked(one), self.needs.book, self.needs.seed)).key

        def lay(one: Judged) -> Judged:
            self.needs.look_ahead((asked(one),))
            return self._laid(slot, self.shelf.cloths[one.cloth_id])

        return nearest_laid(judged.values(), lay_of, lay)

    def pairing(self, slot: Slot, judged: Judged) -> Pairing:
        """The same in words."""
        cloth = self.shelf.cloths[judged.cloth_id]
        nature = self.natures.of(cloth, slot.pattern, slot.role)
        person = self.shelf.people.get(slot.make.person_id or 0)
        room = self._room(slot, cloth)
        return told(judged, slot.make, nature, room, self.settings, person=person)

    def _judged(self, slot: Slot, cloth: Cloth) -> Judged:
        nature = self.natures.of(cloth, slot.pattern, slot.role)
        need = barred(nature)
        if need is None:
            aside = self.aside.get(slot.ask, {}) if slot.held is None else {}
            need = aside.get(cloth.id)
            if need is None:
                return self._laid(slot, cloth)
            need = with_repeat(need, cloth, slot.role)
        return judge(slot.role, nature, need, self._room(slot, cloth), self.settings)

    def _laid(self, slot: Slot, cloth: Cloth) -> Judged:
        nature = self.natures.of(cloth, slot.pattern, slot.role)
        asked = question_for(slot.make, slot.pattern, slot.role, cloth)
        need = with_repeat(self.needs.answer(asked), cloth, slot.role)
        return judge(slot.role, nature, need, self._room(slot, cloth), self.settings)

    def _room(self, slot: Slot, cloth: Cloth) -> Length:
        """Length of the cloth the slot may use."""
        if slot.held is None:
            return self.free[cloth.id]
        return slot.held.length if slot.held.cut else self.free[cloth.id] + slot.held.length

    def _weighed(self, slot: Slot, judged: Mapping[int, Judged]) -> Filled:
        able = [one for one in judged.values() if one.verdict.can_be_cut]
        make = slot.make
        tested = is_tested(make, slot.pattern, self.shelf.makes)
        saved = min((one.need.length for one in able if one.need.length is not None), default=ZERO)
        goes_with = self._goes_with(slot, able)
        worths = {
            one.cloth_id: worth(
                make,
                self.shelf.cloths[one.cloth_id],
                one,
                tested=tested,
                today=self.today,
                saved=saved,
                goes_with=goes_with.get(one.cloth_id, 0.0),
            )
            for one in able
        }
        return Filled(slot, judged, worths)

    def _goes_with(self, slot: Slot, able: Sequence[Judged]) -> dict[int, float]:
        """By cloth id, what going well with a make that is settled is worth."""
        if slot.role is not Role.MAIN:
            return {}
        shelf = self.shelf
        settled = companions(slot.make, shelf.makes, shelf.patterns, shelf.cloths, shelf.promises)
        found = {}
        for one in able if settled else ():
            best = best_companion(shelf.cloths[one.cloth_id], settled)
            if best is not None:
                found[one.cloth_id] = TOGETHER * best[1].mark
        return found
