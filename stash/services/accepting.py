"""Accepting the season plan: its choices become promises, which a later plan may move."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.errors import NotFoundError, RefusedError
from stash.garment.make import Promise
from stash.services.promises import follow_state
from stash.store import cloths, makes
from stash.store import promises as store
from stash.units.format_length import Measure, show_length
from stash.units.length import ZERO

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy.orm import Session

    from stash.pairing.judgement import PlannedRole
    from stash.report.records import PlanBook
    from stash.services.stash import Stash


@dataclass(frozen=True, slots=True, kw_only=True)
class Accepted:
    """What was promised, and what was let go for it."""

    promised: tuple[Promise, ...]
    released: tuple[Promise, ...]


def accept_plan(stash: Stash, book: PlanBook, make_refs: Sequence[str] = ()) -> Accepted:
    """Promise the cloths of the plan to their makes; all of it is kept, or nothing.

    The promises are not pinned: a later plan may move them. What a make of the plan held
    before, unpinned, is let go. Two makes laid together are accepted together.

    Args:
        stash: The stash.
        book: The plan as it was shown.
        make_refs: Names or numbers of makes; none: every make of the plan.

    Raises:
        RefusedError: The stash changed since, so that a cloth has not enough left, or nothing
            can be promised.
    """
    what = "accept the season plan" + (f" for {', '.join(make_refs)}" if make_refs else "")
    with stash.write(what) as session:
        wanted = _wanted(session, book, make_refs)
        let_go = [
            one
            for make_id in sorted(wanted)
            for one in store.promises_of_make(session, make_id)
            if not one.cut and not one.pinned
        ]
        for one in let_go:
            store.delete_promise(session, one.id)
        kept = tuple(
            _promise(stash, session, book, role)
            for role in book.plan.roles
            if role.make_id in wanted and role.pairing is not None and not role.pinned
        )
        if not kept and not let_go:
            raise RefusedError(
                "The plan has no cloth that is not promised yet.", "Look at it: stash plan"
            )
        for make_id in sorted(wanted):
            follow_state(session, make_id)
        return Accepted(promised=kept, released=tuple(let_go))


def _wanted(session: Session, book: PlanBook, refs: Sequence[str]) -> set[int]:
    """Ids of the makes asked for, and of those laid together with them."""
    planned = set(book.plan.order)
    if not refs:
        return planned
    found = set()
    for ref in refs:
        make = makes.find_make(session, ref)
        if make.id not in planned:
            raise NotFoundError(
                f"{make.name} is {make.state}, so it is not in the plan.",
                "Name a make that still waits for cloth: stash make list",
            )
        found.add(make.id)
    while True:
        more = {
            role.with_[0] for role in book.plan.roles if role.with_ and role.make_id in found
        } - found
        if not more:
            return found
        found |= more


def _promise(stash: Stash, session: Session, book: PlanBook, role: PlannedRole) -> Promise:
    assert role.pairing is not None
    cloth = cloths.get_cloth(session, role.pairing.cloth_id)
    length = role.pairing.cut_from_shelf or ZERO
    free = cloth.left - store.promised_length(session, cloth.id)
    if length > free:
        shown = [show_length(one, stash.settings.system, Measure.TAKEN) for one in (length, free)]
        raise RefusedError(
            f"{book.makes[role.make_id].name} was to get {shown[0]} of {cloth.name}, but only "
            f"{shown[1]} is free now.",
            "Make the plan again: stash plan",
        )
    make = makes.get_make(session, role.make_id)
    if not make.state.wants_cloth:
        raise RefusedError(
            f"{make.name} is {make.state} now, so it takes no more cloth.",
            "Make the plan again: stash plan",
        )
    return store.insert_promise(
        session,
        Promise(make_id=make.id, role=role.role, cloth_id=cloth.id, length=length, pinned=False),
    )
