"""Why the season plan chose as it did, in sentences."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.pairing.judgement import Verdict
from stash.pairing.outfits import cloths_match
from stash.pairing.worth import Part, good_enough
from stash.units.enough import show_enough
from stash.units.format_length import Measure, show_length

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from stash.cloth.record import Cloth
    from stash.config import Settings, System
    from stash.garment.make import Make, Promise
    from stash.pairing.choose import Filled
    from stash.pairing.judgement import Judged, Pairing
    from stash.pairing.worth import Worth
    from stash.units.length import Length

SUITS = ((0.9, "very well"), (0.75, "well"), (0.55, "fairly"), (0.4, "only so-so"), (0.0, "badly"))

NO_DIFFERENCE = 1e-9
PLAINLY = {
    Part.UNTESTED: "it is well loved and the pattern is not tested yet",
    Part.CLOSE: "it is only just long enough",
    Part.UNMEASURED: "not everything about it is measured",
    Part.AGE: "it has not lain on the shelf as long",
    Part.OUTFIT: "it goes less well with what you have",
}


@dataclass(frozen=True, slots=True)
class Told:
    """What the sentences draw on. Sequences run by slot, mappings by cloth id."""

    filled: Sequence[Filled]
    makes: Sequence[Make]
    pairings: Sequence[Mapping[int, Judged]]
    worths: Sequence[Mapping[int, Worth]]
    cloths: Mapping[int, Cloth]
    users: Mapping[int, Sequence[int]]
    """Slots each cloth was given to."""
    given: Mapping[int, int]
    """Cloth of every slot that got one."""
    outfits: Mapping[int, Sequence[int]]
    """Slots whose cloths were chosen to go with that of this slot."""
    system: System


def how_well(suit: float) -> str:
    """The suit in words, with its number."""
    words = next(words for at_least, words in SUITS if suit >= at_least)
    return f"{words} ({suit:.0%})"


def why_chosen(told: Told, slot: int, pairing: Pairing, runner_up: int | None) -> str:
    """Why this cloth, and why not the next best. `pairing` as the whole plan leaves it."""
    cloth = pairing.cloth_id
    said = f"{told.cloths[cloth].name} suits {how_well(pairing.suit)}"
    if pairing.need.length is not None:
        shown = show_enough(pairing.need.length, pairing.have, told.system)
        said += f", with {shown.gap} more than it needs"
    if against := told.worths[slot][cloth].against:
        said += f", though {against[0]}"
    said += _goes_with(told, slot)
    if runner_up is None:
        return f"{said}. Nothing else on the shelf can be cut for it."
    name = told.cloths[runner_up].name
    return f"{said}. Next was {name}, but {_why_lost(told, slot, cloth, runner_up)}."


def why_bought(told: Told, slot: int, best: int | None) -> str:
    """Why nothing on the shelf is cut for this role."""
    if best is None:
        return "Nothing on the shelf can be cut for it."
    return (
        f"To be bought: {told.cloths[best].name} could be cut, but {why_taken(told, slot, best)}."
    )


def why_together(told: Told, other: int, saved: Length) -> str:
    """That a slot is cut in one lay with another, and what that saves."""
    slot = told.filled[other].slot
    said = f"Laid together with {slot.make.name}, {slot.role}, in one lay"
    if saved.nm <= 0:
        return f"{said}: its flaws are then kept clear for both. Cut both before you put it away."
    gap = show_length(saved, told.system, Measure.SPARE)
    return f"{said}, which takes {gap} less than one after the other. Cut both at once."


def why_waits(settings: Settings) -> str:
    """That the budget does not reach."""
    return f"It waits: the budget of {settings.budget} {settings.currency} goes to others."


def why_kept(promise: Promise, pairing: Pairing, name: str) -> str:
    """Why a promised cloth stays, and whether it can."""
    if promise.cut:
        return f"{name} is already cut for it."
    said = f"You promised it {name}, so that stays."
    if pairing.verdict.can_be_cut:
        return said
    if pairing.verdict is Verdict.SHORT:
        return f"{said} It is too short as things stand: release it or find a way to make it fit."
    return f"{said} But look again: the verdict is {pairing.verdict}."


def why_taken(told: Told, slot: int, cloth: int) -> str:
    """Why a cloth that could be cut for this slot was not given to it."""
    make, worth = told.makes[slot], told.worths[slot][cloth]
    if worth.gain <= 0:
        suit = told.pairings[slot][cloth].suit
        if suit < good_enough(make):
            return f"it suits {how_well(suit)}, and bought cloth would do better"
        return worth.against[0] if worth.against else "bought cloth would do better"
    others = [other for other in told.users.get(cloth, ()) if other != slot]
    if not others and not _kept_apart(told, slot, cloth):
        if told.outfits.get(slot):
            return "it would go less well with what is worn with it"
        return "the whole queue is worth more this way"
    if not others:
        return "a make and its muslin are not cut from the same cloth"
    users = {told.makes[other].id: told.makes[other] for other in others}
    names = [u.name if u.id != make.id else "another part of it" for u in users.values()]
    said = f"it goes to {listed(names)}"
    if len(users) == 1 and (one := next(iter(users.values()))).priority > make.priority:
        said += f", which comes first (priority {one.priority})"
    return said


def listed(names: Sequence[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"


def _kept_apart(told: Told, slot: int, cloth: int) -> bool:
    """The muslin of this make, or the make this one tests, is promised this cloth."""
    me = told.filled[slot].slot
    return any(
        other.held is not None
        and other.held.cloth_id == cloth
        and other.role is me.role
        and (other.make.muslin_for == me.make.id or me.make.muslin_for == other.make.id)
        for other in (each.slot for each in told.filled)
    )


def _goes_with(told: Told, slot: int) -> str:
    """What of the queue the cloth was chosen to go with, and how they go together."""
    for other in told.outfits.get(slot, ()):
        mine, theirs = told.cloths[told.given[slot]], told.cloths[told.given[other]]
        match = cloths_match(mine, theirs)
        if match is not None:
            return f"; it goes with {theirs.name} for {told.makes[other].name}: {match.words}"
    return ""


def _why_lost(told: Told, slot: int, winner: int, loser: int) -> str:
    """The true reason: another make has it, or the part of its worth that weighed most."""
    won, lost = told.worths[slot][winner], told.worths[slot][loser]
    if lost.gain <= 0 or lost.gain > won.gain:
        return why_taken(told, slot, loser)
    behind = {part: won.parts.get(part, 0.0) - lost.parts.get(part, 0.0) for part in Part}
    most = max(behind, key=lambda part: behind[part])
    if behind[most] < NO_DIFFERENCE:
        return "there is nothing to choose between them"
    return _in_words(most, told, slot, winner, loser)


def _in_words(part: Part, told: Told, slot: int, winner: int, loser: int) -> str:
    mine, other = told.pairings[slot][winner], told.pairings[slot][loser]
    if part is Part.SUIT:
        less = "less well" if f"{mine.suit:.0%}" != f"{other.suit:.0%}" else "a shade less well"
        return f"it suits {less} ({other.suit:.0%})"
    if part is Part.LOVED:
        loved = "it would be missed more"
        return next((w for w in told.worths[slot][loser].against if "too well" in w), loved)
    if part is Part.SURENESS:
        return f"what it needs is only {other.need.sureness}"
    if part is Part.UNMEASURED and any(reason.mark is None for reason in mine.reasons):
        return "still less about it is measured"
    if part is Part.USED:
        equal = abs(mine.suit - other.suit) < 0.005
        first = "it is no better, and " if equal else ""
        if other.have > mine.have:
            return f"{first}the longer piece is kept whole"
        return f"{first}more of it would be left over"
    return PLAINLY[part]
