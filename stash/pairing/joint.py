"""Two makes on one cloth: which are worth laying out together, and what that saves.

What one make leaves beside its pieces is used in the same way: the pieces of the next are
laid into it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import combinations
from typing import TYPE_CHECKING

from stash.cloth.washing import shelf_length, washed_usable_width
from stash.pairing.choose import LaidTogether
from stash.pairing.needs import MATCHED, question_for
from stash.pairing.verdict import with_repeat
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from stash.cloth.record import Cloth
    from stash.pairing.choose import Ask, Filled, Given
    from stash.pairing.judgement import Judged
    from stash.pairing.needs import Needs, Question

MOST_LAYS = 24
"""Joint lays worked out for one plan: the ones that promise most."""
WORTH_A_LAY = 0.15
"""Worth a slot must gain by a cloth before it is laid there beside another."""
WORTH_CUTTING = Length.from_mm(10)
"""A joint lay that saves less is not worth cutting two makes at once."""
NOTHING = 0.0


@dataclass(frozen=True, slots=True, order=True)
class Together:
    """Two slots that could be laid together on a cloth; the most promising sorts first."""

    rank: float
    """Less the worth to be gained: below zero, or zero where only length is saved."""
    one: int
    other: int
    cloth: int


def worth_laying(ask: Ask, given: Given, known: Iterable[LaidTogether]) -> tuple[Together, ...]:
    """Pairs of slots to lay together next, given what the plan chose without them.

    A slot that would be better off with a cloth others have is laid beside one of them, if
    one lay after the other does not fit and a bound does not already forbid both. Slots that
    share a cloth are laid together too, because it may save length.
    """
    tried = {(joint.one, joint.other, joint.cloth) for joint in known}
    users: dict[int, list[int]] = {}
    for slot, cloth in sorted(given.by_slot.items()):
        users.setdefault(cloth, []).append(slot)
    found = [
        Together(NOTHING, one, other, cloth)
        for cloth, slots in users.items()
        for one, other in combinations(slots, 2)
    ]
    wishes = _wishes(ask.filled, given)
    for slot, cloth, gain in wishes:
        rivals = set(users.get(cloth, ()))
        rivals |= {other for other, same, _ in wishes if same == cloth}
        for other in sorted(rivals - {slot}):
            found.append(Together(-gain, min(slot, other), max(slot, other), cloth))
    return tuple(
        one
        for one in sorted(set(found))
        if (one.one, one.other, one.cloth) not in tried and _could_fit(ask, one)
    )


def lay_together(ask: Ask, pair: Together, needs: Needs) -> LaidTogether | None:
    """Both laid in one lay; None when that saves nothing or does not go on the cloth."""
    cloth = ask.cloths[pair.cloth]
    one, other = (ask.filled[n].judged[pair.cloth] for n in (pair.one, pair.other))
    need = with_repeat(needs.answer(joint_question(ask, pair)), cloth, one.role)
    if need.length is None or one.cut_from_shelf is None or other.cut_from_shelf is None:
        return None
    length = shelf_length(need.length, cloth)
    saved = one.cut_from_shelf + other.cut_from_shelf - length
    if length > ask.free[cloth.id] or (
        saved < WORTH_CUTTING and not (cloth.flaws or cloth.outline)
    ):
        return None
    return LaidTogether(pair.one, pair.other, cloth.id, need, length, saved)


def shares(joint: LaidTogether, filled: Sequence[Filled]) -> dict[int, Length]:
    """Length of the joint lay each of its slots answers for, as the cloth lies on the shelf."""
    alone = {
        n: filled[n].judged[joint.cloth].cut_from_shelf or ZERO for n in (joint.one, joint.other)
    }
    total = alone[joint.one].nm + alone[joint.other].nm
    first = Length(joint.length.nm * alone[joint.one].nm // max(1, total))
    return {joint.one: first, joint.other: joint.length - first}


def joint_question(ask: Ask, pair: Together) -> Question:
    """How much both need in one lay."""
    one, other = ask.filled[pair.one].slot, ask.filled[pair.other].slot
    asked = question_for(one.make, one.pattern, one.role, ask.cloths[pair.cloth])
    return replace(asked, beside=((other.make, other.pattern, other.role),))


def _wishes(filled: Sequence[Filled], given: Given) -> list[tuple[int, int, float]]:
    """Slot, cloth and worth to be gained, for slots that did not get the cloth they like best."""
    found = []
    for number, each in enumerate(filled):
        if each.slot.held is not None:
            continue
        has = given.by_slot.get(number)
        now = each.worths[has].gain if has is not None else NOTHING
        for cloth, worth in sorted(each.worths.items()):
            if cloth != has and worth.gain - now >= WORTH_A_LAY:
                found.append((number, cloth, worth.gain - now))
    return found


def _could_fit(ask: Ask, pair: Together) -> bool:
    """Both are laid out, are not kept apart, and no bound forbids them on this length."""
    one, other = ask.filled[pair.one], ask.filled[pair.other]
    cloth = ask.cloths[pair.cloth]
    if pair.cloth not in one.worths or pair.cloth not in other.worths:
        return False
    if one.slot.role is other.slot.role and _tests(one, other):
        return False
    if cloth.repeat_length and (one.slot.role in MATCHED) != (other.slot.role in MATCHED):
        return False
    least = [_least(each.judged[pair.cloth], cloth) for each in (one, other)]
    if least[0] is None or least[1] is None:
        return False
    area = least[0][1] + least[1][1]
    bound = max(least[0][0], least[1][0], area / washed_usable_width(cloth).mm)
    return shelf_length(Length.from_mm(bound), cloth) <= ask.free[pair.cloth]


def _tests(one: Filled, other: Filled) -> bool:
    a, b = one.slot.make, other.slot.make
    return b.id == a.muslin_for or a.id == b.muslin_for


def _least(judged: Judged, cloth: Cloth) -> tuple[float, float] | None:
    """Least length in mm and area in mm² of its lay; None where nothing was laid out."""
    lay = judged.need.lay
    return None if lay is None else (lay.bound.length, lay.utilisation * lay.need * lay.width)


def held_together(joints: Iterable[LaidTogether]) -> Mapping[int, LaidTogether]:
    """The joint lay of every slot that has one."""
    return {slot: joint for joint in joints for slot in (joint.one, joint.other)}
