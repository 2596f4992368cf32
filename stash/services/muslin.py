"""Which cloth may be risked on a test of the fit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.garment.pattern import Role
from stash.pairing.muslin import intended_cloth, muslin_candidates
from stash.services.laybook import StashLays
from stash.services.makes import get_make
from stash.services.pairing import chosen_role, judged
from stash.services.solving import prepared
from stash.services.whole import Whole, read_whole

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.garment.make import Make
    from stash.pairing.judgement import MuslinCandidate, Pairing
    from stash.services.progress import Cancelled, Progress
    from stash.services.stash import Stash


def muslin_for(
    stash: Stash,
    make_ref: str,
    *,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> tuple[MuslinCandidate, ...]:
    """The cloths a wearable muslin of this make could be cut from, best first.

    A make that is itself a muslin is set against the cloth of the make it tests.
    """
    make = get_make(stash, make_ref)
    whole = read_whole(stash)
    chosen_role(whole, make, Role.MAIN)
    tested = whole.makes.get(make.muslin_for or 0, make)
    shelf = [cloth for cloth in whole.cloths.values() if cloth.left]
    others = [one for one in whole.waiting() if one.id not in (make.id, tested.id)]
    pairings = judged(
        stash,
        whole,
        [(one, Role.MAIN, cloth) for one in (make, tested, *others) for cloth in shelf],
        progress=progress,
        cancelled=cancelled,
    )
    of_tested = [pairing for pairing in pairings if pairing.make_id == tested.id]
    return muslin_candidates(
        make,
        whole.pattern_of(make),
        shelf,
        {cloth.id: whole.free_for(cloth, make, Role.MAIN) for cloth in shelf},
        prepared(stash, (), book=StashLays(stash)),
        stash.settings,
        today=stash.today(),
        intended=intended_cloth(of_tested, whole.cloths, _promised(whole, tested)),
        wanted_by=_best_for(whole, others, pairings),
        person=whole.person_of(make),
    )


def _promised(whole: Whole, make: Make) -> int | None:
    held = [p for p in whole.promises if (p.make_id, p.role) == (make.id, Role.MAIN)]
    return held[0].cloth_id if held else None


def _best_for(
    whole: Whole, others: Sequence[Make], pairings: Sequence[Pairing]
) -> dict[int, tuple[str, ...]]:
    """By cloth id, the names of the makes it is the best cloth for; `pairings` best first."""
    wanted: dict[int, tuple[str, ...]] = {}
    for other in others:
        best = next((p for p in pairings if p.make_id == other.id), None)
        if best is not None and best.verdict.can_be_cut:
            wanted[best.cloth_id] = (*wanted.get(best.cloth_id, ()), whole.makes[other.id].name)
    return wanted
