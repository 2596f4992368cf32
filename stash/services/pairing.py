"""Setting makes against cloths."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.pairing.judgement import Verdict
from stash.pairing.verdict import pair
from stash.services.known import nothing_to_cut
from stash.services.laybook import StashLays
from stash.services.makes import get_make
from stash.services.pattern_fields import read_role
from stash.services.solving import doubtful, prepared, questions_of
from stash.services.whole import Whole, read_whole
from stash.store import cloths

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.cloth.record import Cloth
    from stash.garment.make import Make
    from stash.garment.pattern import Role
    from stash.pairing.judgement import Pairing
    from stash.services.progress import Cancelled, Progress
    from stash.services.stash import Stash

BEST_FIRST = (
    Verdict.FITS,
    Verdict.CLOSE,
    Verdict.UNKNOWN,
    Verdict.SHORT,
    Verdict.TOO_NARROW,
    Verdict.UNSUITED,
)


def pair_make(
    stash: Stash,
    ref: str,
    role: Role | str | None = None,
    *,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> tuple[Pairing, ...]:
    """Every cloth on the shelf against one role of a make, best first.

    Args:
        stash: The stash.
        ref: Name or number of the make.
        role: The role; None: the first the pattern is cut from.
        progress: Told how many lays are worked out.
        cancelled: Asked between lays.
    """
    make = get_make(stash, ref)
    whole = read_whole(stash)
    wanted = chosen_role(whole, make, role)
    asked = [(make, wanted, cloth) for cloth in whole.cloths.values() if cloth.left]
    return judged(stash, whole, asked, progress=progress, cancelled=cancelled)


def become(
    stash: Stash,
    cloth_ref: str,
    *,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> tuple[Pairing, ...]:
    """Every role of every make that still wants cloth against one cloth, best first."""
    with stash.read() as session:
        cloth = cloths.find_cloth(session, cloth_ref)
    whole = read_whole(stash)
    asked = [(make, role, cloth) for make in whole.waiting() for role in whole.roles_of(make)]
    return judged(stash, whole, asked, progress=progress, cancelled=cancelled)


def chosen_role(whole: Whole, make: Make, role: Role | str | None) -> Role:
    """The role asked for, or the first one.

    Raises:
        BadInputError: The make has no such role, or its size lacks pieces of it and a chart.
    """
    roles = whole.roles_of(make)
    pattern = whole.pattern_of(make)
    if not roles:
        raise nothing_to_cut(pattern, make)
    wanted = roles[0] if role is None else read_role(role)
    if wanted not in roles:
        raise BadInputError(
            f"{pattern.name} has no {wanted} in this view and size.",
            f"Choose from: {', '.join(roles)}.",
        )
    if not pattern.can_cut(make.view, make.size, wanted):
        raise nothing_to_cut(pattern, make, wanted)
    return wanted


def judged(
    stash: Stash,
    whole: Whole,
    asked: Sequence[tuple[Make, Role, Cloth]],
    *,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> tuple[Pairing, ...]:
    """Judge each make, role and cloth; best first, then by make and cloth name."""
    questions = questions_of(whole, stash.settings, asked)
    book = StashLays(stash)
    doubtful(stash, questions, book)
    needs = prepared(stash, questions, book=book, progress=progress, cancelled=cancelled)
    pairings = [
        pair(
            make,
            whole.pattern_of(make),
            role,
            cloth,
            whole.free_for(cloth, make, role),
            needs,
            stash.settings,
            person=whole.person_of(make),
            beside=whole.beside(make),
        )
        for make, role, cloth in asked
    ]
    return tuple(sorted(pairings, key=lambda p: _rank(p, whole)))


def _rank(pairing: Pairing, whole: Whole) -> tuple[int, float, float, float, str, int, str, int]:
    make, cloth = whole.makes[pairing.make_id], whole.cloths[pairing.cloth_id]
    place = BEST_FIRST.index(pairing.verdict)
    surest = round(-pairing.suit, 2), -pairing.suit_known
    return place, *surest, -pairing.suit, make.name, make.id, cloth.name, cloth.id
