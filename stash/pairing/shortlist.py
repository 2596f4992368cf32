"""The best cloths for every slot of a season: those that are laid out, of a large shelf.

A lay takes far longer than judging what a cloth is like. So each slot looks down the shelf, the
best for it first, until enough cloths are long enough; what comes after these is not laid out.
Makes that like the same cloths must not be left with none: a slot looks on until it comes to a
cloth that the slots before it, drawing up the plan in a rough draft, have left long enough.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from stash.cloth.washing import shelf_length
from stash.garment.pattern import Role
from stash.pairing.judgement import Need, Sureness
from stash.pairing.needs import question_for
from stash.pairing.prune import least_of, worth_a_lay
from stash.pairing.verdict import with_repeat
from stash.pairing.worth import NOT_MEASURED, SHORT_PIECE_FIRST, fondness
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from stash.cloth.record import Cloth
    from stash.pairing.nature import Natures
    from stash.pairing.needs import Question
    from stash.pairing.slots import Slot

AtHand = Callable[["Question"], "Need | None"]
"""The need a question is answered with, if that is known; None: it is not laid out yet."""

LISTED = 6
"""Long enough cloths to choose from at least. House choices both: with twice as many the plan
of 40 makes on 300 cloths was worth 0.1 % more, for a third more work."""
BEYOND = 3
"""Long enough cloths after the one of the draft."""
USED = 0.75
"""Share of the cloth's area pieces fill, guessed until they are laid out (a house choice)."""

_OTHERS = Need(
    length=None,
    sureness=Sureness.UNKNOWN,
    why="Not looked into: enough others suit it better and are long enough.",
)


def needing_no_lay(
    slots: Sequence[Slot],
    cloths: Sequence[Cloth],
    free: Mapping[int, Length],
    natures: Natures,
    at_hand: AtHand,
) -> dict[tuple[object, ...], dict[int, Need]]:
    """By what open slots ask, needs by cloth id for the cloths that are not to be laid out."""
    aside: dict[tuple[object, ...], dict[int, Need]] = {}
    ranked: dict[tuple[object, ...], list[Cloth]] = {}
    ends: dict[tuple[object, ...], int] = {}
    left = dict(free)
    roles = list(Role)
    for slot in sorted(slots, key=lambda s: (-s.make.priority, s.make.id, roles.index(s.role))):
        if slot.held is not None:
            continue
        if slot.ask not in aside:
            aside[slot.ask] = worth_a_lay(slot, cloths, free, natures)
            ranked[slot.ask] = _ranked(slot, cloths, aside[slot.ask], free, natures)
        end = _end(slot, ranked[slot.ask], free, left, at_hand)
        ends[slot.ask] = max(end, ends.get(slot.ask, 0))
    for ask, end in ends.items():
        aside[ask] |= {cloth.id: _OTHERS for cloth in ranked[ask][end:]}
    return aside


def _ranked(
    slot: Slot,
    cloths: Iterable[Cloth],
    plain: Mapping[int, Need],
    free: Mapping[int, Length],
    natures: Natures,
) -> list[Cloth]:
    """Those that may be laid out, by what they are worth here so far as it is known before."""
    least = least_of(slot.pieces)
    found = []
    for cloth in cloths:
        nature = natures.of(cloth, slot.pattern, slot.role)
        if nature.bars or cloth.id in plain or not free[cloth.id]:
            continue
        mark = nature.suit
        loved = fondness(slot.make, cloth, slot.role, tested=slot.pattern.tested)
        mark += sum(taken for _, taken, _ in loved)
        mark -= NOT_MEASURED * sum(reason.mark is None for reason in nature.reasons)
        mark += SHORT_PIECE_FIRST * min(1.0, least.on(cloth) / free[cloth.id].mm)
        found.append((-mark, cloth.id, cloth))
    found.sort(key=lambda one: one[:2])
    return [cloth for _, _, cloth in found]


def _end(
    slot: Slot,
    ranked: Sequence[Cloth],
    free: Mapping[int, Length],
    left: dict[int, Length],
    at_hand: AtHand,
) -> int:
    """How many of `ranked` are laid out; the first that has enough `left` gives it."""
    enough, wanted = 0, 0
    for place, cloth in enumerate(ranked):
        length = _length(slot, cloth, at_hand)
        if length is None or length > free[cloth.id]:
            continue
        enough += 1
        if not wanted and length <= left[cloth.id]:
            left[cloth.id] = left[cloth.id] - length
            wanted = max(LISTED, enough + BEYOND)
        if wanted and enough >= wanted:
            return place + 1
    return len(ranked)


def _length(slot: Slot, cloth: Cloth, at_hand: AtHand) -> Length | None:
    """To be cut off the cloth as it lies on the shelf, guessed until it is laid out."""
    need = at_hand(question_for(slot.make, slot.pattern, slot.role, cloth))
    if need is None:
        likely = Length.from_mm(least_of(slot.pieces).on(cloth) / USED)
        need = Need(length=likely, sureness=Sureness.ESTIMATED, why="")
    length = with_repeat(need, cloth, slot.role).length
    return None if length is None else shelf_length(length, cloth)
