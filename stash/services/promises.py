"""Promising cloth to makes, letting it go again, and cutting it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.errors import RefusedError
from stash.garment.make import DiaryEntry, DiaryKind, Promise, State
from stash.pairing.judgement import Verdict
from stash.services.cut_end import after_cut
from stash.services.cut_refused import refuse_if_cut, refuse_odd_length
from stash.services.pairing import chosen_role, judged
from stash.services.pattern_fields import read_role
from stash.services.remarks import Remark, unsaid
from stash.services.whole import Whole, read_whole
from stash.store import cloths, diary, makes
from stash.store import promises as store
from stash.units.format_length import Measure, show_length
from stash.units.length import ZERO, Length
from stash.units.parse_length import parse_length

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from stash.cloth.record import Cloth
    from stash.garment.make import Make
    from stash.garment.pattern import Role
    from stash.services.stash import Stash

WHOLE_CM = Length.from_mm(10)
"""Nobody measures a cut finer than this."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What was really cut, and the remnant, as it lies; None: as it was promised."""

    used: Length | None = None
    left: Length | None = None
    role: Role | None = None
    """Which cloth was measured; None where the make holds only one."""


def read_measured(
    role: str | None = None, used: str | None = None, left: str | None = None
) -> Measured:
    """What was typed about a cut.

    Raises:
        BadInputError: A length cannot be read.
    """
    return Measured(
        used=None if used is None else parse_length(used),
        left=None if left is None else parse_length(left),
        role=None if role is None else read_role(role),
    )


def promise(
    stash: Stash,
    make_ref: str,
    role: Role | str | None,
    cloth_ref: str,
    length: Length | str | None = None,
    *,
    remark: Remark = unsaid,
) -> Promise:
    """Hold some of a cloth for a role of a make, in place of what the role held before.

    Args:
        stash: The stash.
        make_ref: Name or number of the make.
        role: The role it is for; None: the first the pattern is cut from.
        cloth_ref: Name or number of the cloth.
        length: As the cloth lies on the shelf; default what the role needs from it.
        remark: Told what the role held before.

    Raises:
        RefusedError: The make is cut already, the cloth has not that much free, or, when no
            length is given, it cannot be cut for this role.
    """
    with stash.read() as session:
        make = makes.find_make(session, make_ref)
        cloth = cloths.find_cloth(session, cloth_ref)
    whole = read_whole(stash)
    wanted = chosen_role(whole, make, role)
    if not make.state.wants_cloth:
        raise RefusedError(
            f"{make.name} is {make.state}, so it takes no more cloth.",
            "Set its state back to thought first.",
        )
    if length is None:
        length = _needed(stash, whole, make, wanted, cloth)
    elif isinstance(length, str):
        length = parse_length(length)
    with stash.write(f"promise {cloth.name} to {make.name}, {wanted}") as session:
        before = _held_before(session, make.id, wanted)
        kept = _hold(stash, session, make.id, wanted, cloth.id, length)
        if before is not None:
            remark(_instead(stash, session, before, kept))
        follow_state(session, make.id)
        return kept


def release(stash: Stash, make_ref: str, role: Role | str | None = None) -> tuple[Promise, ...]:
    """Let go of the cloth a make holds: of one role, or of all. What is cut stays cut.

    Raises:
        RefusedError: It holds nothing that could be let go.
    """
    wanted = None if role is None else read_role(role)
    with stash.write(f"release cloth of {make_ref}") as session:
        make = makes.find_make(session, make_ref)
        held = [
            one
            for one in store.promises_of_make(session, make.id)
            if not one.cut and wanted in (None, one.role)
        ]
        if not held:
            refuse_if_cut(session, make, wanted)
            raise RefusedError(f"{make.name} holds no cloth that could be let go.")
        for one in held:
            store.delete_promise(session, one.id)
        follow_state(session, make.id)
        return tuple(held)


def cut(
    stash: Stash,
    make_ref: str,
    measured: Measured | None = None,
    *,
    remark: Remark = unsaid,
) -> Make:
    """The make has been cut: its cloths get shorter and the diary says so.

    Lays begin at the end of the cloth, so the length is gone from there: flaws and outline move.

    Args:
        stash: The stash.
        make_ref: Name or number of the make.
        measured: What was really cut and what is left, where someone measured it.
        remark: Told what became of flaws and outlines.

    Raises:
        RefusedError: It holds no cloth, a cloth has become too short for its promise or for
            what others were promised, or what was measured cannot be told to one cloth.
    """
    measured = measured or Measured()
    with stash.write(f"cut {make_ref}") as session:
        make = makes.find_make(session, make_ref)
        held = [one for one in store.promises_of_make(session, make.id) if not one.cut]
        if not held:
            refuse_if_cut(session, make, measured.role)
            raise RefusedError(
                f"{make.name} holds no cloth to be cut.", "Promise it a cloth first."
            )
        typed = measured.used is not None or measured.left is not None
        if typed and len(held) > 1 and measured.role is None:
            raise RefusedError(
                f"{make.name} holds several cloths, so the length could be of any.",
                f"Say which role was measured: {', '.join(one.role for one in held)}.",
            )
        if measured.role is not None and measured.role not in {one.role for one in held}:
            refuse_if_cut(session, make, measured.role)
            raise RefusedError(
                f"{make.name} holds no cloth for {measured.role}.",
                f"Choose from: {', '.join(one.role for one in held)}.",
            )
        for one in held:
            mine = measured.role in (None, one.role)
            said = _cut_one(stash, session, make, one, measured if mine else Measured())
            if said:
                remark(said)
        return makes.update_make(session, replace(make, state=State.CUT))


def _cut_one(stash: Stash, session: Session, make: Make, held: Promise, measured: Measured) -> str:
    """Returns what became of the flaws and the outline of the cloth."""
    cloth = cloths.get_cloth(session, held.cloth_id)
    system = stash.settings.system
    used, left = _really(cloth, held, measured)
    if measured.used is not None and measured.left is None:
        refuse_odd_length(cloth, measured.used, system)
    length = show_length(used, system, Measure.TAKEN)
    if used <= ZERO:
        raise RefusedError(
            f"{cloth.name} was {show_length(cloth.left, system, Measure.SPARE)} long, so "
            f"{show_length(left, system, Measure.SPARE)} cannot be left of it.",
            "Measure again, or correct its length first: stash cloth edit.",
        )
    if used > cloth.left or left < ZERO:
        raise RefusedError(
            f"{cloth.name} has become too short: {length} is to be cut for {make.name}.",
            "Correct the length of the cloth, or release it.",
        )
    others = store.promised_length(session, cloth.id) - held.length
    if others > left:
        raise RefusedError(
            f"{show_length(others, system, Measure.TAKEN)} of {cloth.name} is promised to others, "
            f"and only {show_length(left, system, Measure.SPARE)} would be left.",
            "Release one of them first (stash release MAKE), or measure again.",
        )
    # What a fuller cut or a ragged end took is gone too, so that the sums still agree.
    after, said = after_cut(cloth, used, left, system)
    cloths.update_cloth(session, after)
    store.update_promise(session, replace(held, cut=True, length=used))
    diary.add_entry(
        session,
        DiaryEntry(
            day=stash.today(),
            kind=DiaryKind.CUT,
            text=f"{length} of {cloth.name} cut for {make.name}, {held.role}.",
            cloth_id=cloth.id,
            make_id=make.id,
        ),
    )
    return said


def _really(cloth: Cloth, held: Promise, measured: Measured) -> tuple[Length, Length]:
    """Length used and length left: each as measured, or what the other leaves.

    Where both were measured and do not add up, the remnant counts: all that is no longer
    there was used.
    """
    if measured.left is not None:
        return cloth.left - measured.left, measured.left
    used = held.length if measured.used is None else measured.used
    return used, cloth.left - used


def _needed(stash: Stash, whole: Whole, make: Make, role: Role, cloth: Cloth) -> Length:
    """What to cut off for this role, in whole centimetres; RefusedError if it cannot be cut."""
    (pairing,) = judged(stash, whole, [(make, role, cloth)])
    length = pairing.cut_from_shelf
    if length is None or not pairing.verdict.can_be_cut:
        why = next((r.sentence for r in pairing.reasons if r.mark == 0), pairing.need.why)
        measured = pairing.verdict is Verdict.UNKNOWN
        raise RefusedError(
            f"{cloth.name} is {pairing.verdict} for {make.name}, {role}: {why}",
            "Measure what is missing, or say how much to hold with a length."
            if measured
            else "Say how much to hold with a length if you mean to all the same.",
        )
    return min(length.ceil_to(WHOLE_CM), max(length, whole.free_for(cloth, make, role)))


def _held_before(session: Session, make_id: int, role: Role) -> Promise | None:
    """What the role holds and what is not cut yet."""
    held = store.promises_of_make(session, make_id)
    return next((one for one in held if one.role is role and not one.cut), None)


def _instead(stash: Stash, session: Session, before: Promise, now: Promise) -> str:
    """What became of what the role held before."""
    length = show_length(before.length, stash.settings.system, Measure.TAKEN)
    if before.cloth_id == now.cloth_id:
        return f"It was {length} before."
    return f"{length} of {cloths.get_cloth(session, before.cloth_id).name} let go."


def _hold(
    stash: Stash, session: Session, make_id: int, role: Role, cloth_id: int, length: Length
) -> Promise:
    """Keep the promise if the cloth has that much free at this moment."""
    for one in store.promises_of_make(session, make_id):
        if one.role is role and one.cut:
            raise RefusedError("This role has been cut already.", "Choose another role.")
        if one.role is role:
            store.delete_promise(session, one.id)
    cloth = cloths.get_cloth(session, cloth_id)
    free = cloth.left - store.promised_length(session, cloth_id)
    system = stash.settings.system
    if length <= ZERO:
        raise RefusedError(
            f"{show_length(length, system, Measure.TAKEN)} is no length to hold.",
            "Type one such as 1.4 m, or leave it out to hold what is needed.",
        )
    if length > free:
        raise RefusedError(
            f"{cloth.name} has {show_length(free, system, Measure.SPARE)} free, "
            f"not {show_length(length, system, Measure.TAKEN)}.",
            "Choose another cloth, a shorter length, or release some of it first.",
        )
    return store.insert_promise(
        session, Promise(make_id=make_id, role=role, cloth_id=cloth_id, length=length)
    )


def follow_state(session: Session, make_id: int) -> None:
    """A make is promised while it holds cloth, and only thought of when it holds none."""
    make = makes.get_make(session, make_id)
    held = store.promises_of_make(session, make_id)
    state = State.PROMISED if held else State.THOUGHT
    if make.state.wants_cloth and make.state is not state:
        makes.update_make(session, replace(make, state=state))
