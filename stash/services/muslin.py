"""Which cloth may be risked on a test of the fit, and when a test comes first."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from stash.errors import StoppedError
from stash.garment.pattern import Role
from stash.pairing.filling import Shelf
from stash.pairing.muslin import intended_cloth, muslin_candidates, muslin_first, priced
from stash.pairing.price import market
from stash.pairing.slots import plan_questions
from stash.pairing.wearing import wardrobe
from stash.pairing.worth import is_tested
from stash.services.laybook import StashLays
from stash.services.makes import get_make
from stash.services.pairing import chosen_role, judged, pair_make
from stash.services.solving import prepared
from stash.services.whole import Whole, read_whole
from stash.units.length import ZERO

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.cloth.record import Cloth
    from stash.garment.make import Make
    from stash.pairing.judgement import MuslinCandidate, Pairing
    from stash.pairing.needs import Needs, Question
    from stash.pairing.shortlist import AtHand
    from stash.pairing.wearing import Garment
    from stash.services.progress import Cancelled, Progress
    from stash.services.stash import Stash

MOST_PRICED = 6
"""Candidates the season plan is solved without: the best are what a person looks at."""


def muslin_for(
    stash: Stash,
    make_ref: str,
    *,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> tuple[MuslinCandidate, ...]:
    """The cloths a wearable muslin of this make could be cut from, best first.

    A make that is itself a muslin is set against the cloth of the make it tests. The best
    few are priced: the season plan is made with and without the length they would give.

    Raises:
        StoppedError: `cancelled` said so; lays found until then are kept.
    """
    make = get_make(stash, make_ref)
    whole = read_whole(stash)
    chosen_role(whole, make, Role.MAIN)
    tested = whole.makes.get(make.muslin_for or 0, make)
    shelf = [cloth for cloth in whole.cloths.values() if cloth.left]
    pairings = judged(
        stash,
        whole,
        [(one, Role.MAIN, c) for one in dict.fromkeys((make, tested)) for c in shelf],
        progress=progress,
        cancelled=cancelled,
    )
    of_tested = [pairing for pairing in pairings if pairing.make_id == tested.id]
    intended = intended_cloth(of_tested, whole.cloths, _promised(whole, tested))
    needs = prepared(stash, (), book=StashLays(stash))
    candidates = _candidates(stash, whole, make, needs, intended)
    return _priced(stash, whole, make, candidates, progress, cancelled)


def pair_and_advise(
    stash: Stash,
    ref: str,
    role: Role | str | None = None,
    *,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> tuple[Pairing, ...]:
    """As `pair_make`; a cloth too loved for an untested pattern comes with what to risk first."""
    pairings = pair_make(stash, ref, role, progress=progress, cancelled=cancelled)
    if not pairings or pairings[0].role is not Role.MAIN:
        return pairings
    make, whole = get_make(stash, ref), read_whole(stash)
    pattern = whole.pattern_of(make)
    tested = is_tested(make, pattern, whole.makes.values())
    if tested or make.muslin:
        return pairings
    needs = prepared(stash, (), book=StashLays(stash))
    found = []
    for pairing in pairings:
        cloth = whole.cloths[pairing.cloth_id]
        if pairing.verdict.can_be_cut and muslin_first(make, pattern, cloth, (), tested=tested):
            candidates = _candidates(stash, whole, make, needs, cloth)
            advice = muslin_first(make, pattern, cloth, candidates, tested=tested)
            found.append(replace(pairing, muslin_first=advice))
        else:
            found.append(pairing)
    return tuple(found)


def _candidates(
    stash: Stash, whole: Whole, make: Make, needs: Needs, intended: Cloth | None
) -> tuple[MuslinCandidate, ...]:
    shelf = [cloth for cloth in whole.cloths.values() if cloth.left]
    return muslin_candidates(
        make,
        whole.pattern_of(make),
        shelf,
        {cloth.id: whole.free_for(cloth, make, Role.MAIN) for cloth in shelf},
        needs,
        stash.settings,
        today=stash.today(),
        intended=intended,
        has=_has(whole, make),
        person=whole.person_of(make),
    )


def _has(whole: Whole, make: Make) -> tuple[Garment, ...]:
    return wardrobe(
        make.person_id, whole.makes.values(), whole.patterns, whole.cloths, whole.promises
    )


def _priced(
    stash: Stash,
    whole: Whole,
    make: Make,
    candidates: Sequence[MuslinCandidate],
    progress: Progress | None,
    cancelled: Cancelled | None,
) -> tuple[MuslinCandidate, ...]:
    """The best few with their price; the muslin's own place in the queue is left out."""

    def tell(done: int, total: int, what: str) -> None:
        if cancelled and cancelled():
            raise StoppedError("Stopped.", "What was worked out until now is kept.")
        if progress:
            progress(done, total, what)

    own = make.id if make.muslin else 0
    makes = tuple(one for one in whole.makes.values() if one.id != own)
    promises = tuple(promise for promise in whole.promises if promise.make_id != own)
    cloths = tuple(whole.cloths.values())

    def questions(at_hand: AtHand) -> tuple[Question, ...]:
        return plan_questions(
            makes, whole.patterns, cloths, promises, stash.settings, at_hand=at_hand
        )

    needs = prepared(stash, questions, progress=progress, cancelled=cancelled)
    shelf = Shelf(makes, whole.patterns, whole.cloths, promises, whole.people)
    against = market(shelf, needs, stash.settings, stash.today(), tell)
    prices = {
        one.pairing.cloth_id: against.price(
            one.pairing.cloth_id, one.pairing.cut_from_shelf or ZERO, tell
        )
        for one in candidates[:MOST_PRICED]
    }
    return priced(candidates, prices, whole.makes, whole.cloths)


def _promised(whole: Whole, make: Make) -> int | None:
    held = [p for p in whole.promises if (p.make_id, p.role) == (make.id, Role.MAIN)]
    return held[0].cloth_id if held else None
