"""The queue: finding, adding, editing and removing makes."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.garment.make import Make, State
from stash.services.clashes import Kind, as_seen, keep_edit
from stash.services.fields import read_record, texts_of
from stash.services.known import known_size, known_view
from stash.services.make_fields import MAKE_FIELDS
from stash.services.names import context
from stash.services.remarks import CUT_FORGOTTEN, Remark, unsaid
from stash.store import cloths, patterns, people, promises
from stash.store import makes as store
from stash.store.changes import tell

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sqlalchemy.orm import Session

    from stash.garment.make import Promise
    from stash.garment.pattern import Pattern, Role
    from stash.services.stash import Stash

MAKE = Kind("make", MAKE_FIELDS, store.get_make, store.update_make)


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A promise with the name of its cloth."""

    promise: Promise
    cloth: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MakeRow:
    """A make with the names it refers to and the cloth it holds."""

    make: Make
    pattern: str
    person: str
    tests: str
    """Name of the make this muslin tests, or empty."""
    roles: tuple[Role, ...]
    held: tuple[Held, ...]


def queue(stash: Stash, query: str = "") -> tuple[MakeRow, ...]:
    """The makes whose name, pattern, person or state contains every word, by name."""
    words = query.lower().split()
    with stash.read() as session:
        every = store.all_makes(session)
        by_id = {p.id: p for p in patterns.all_patterns(session)}
        names = {p.id: p.name for p in people.all_people(session)}
        titles = {m.id: m.name for m in every}
        shelf = {c.id: c.name for c in cloths.all_cloths(session)}
        held: dict[int, list[Held]] = {}
        for promise in promises.all_promises(session):
            entry = Held(promise=promise, cloth=shelf.get(promise.cloth_id, ""))
            held.setdefault(promise.make_id, []).append(entry)
    rows = [_row(m, by_id, names, titles, tuple(held.get(m.id, ()))) for m in every]
    return tuple(row for row in rows if all(word in _haystack(row) for word in words))


def _row(
    make: Make,
    by_id: Mapping[int, Pattern],
    names: Mapping[int, str],
    titles: Mapping[int, str],
    held: tuple[Held, ...],
) -> MakeRow:
    pattern = by_id[make.pattern_id]
    return MakeRow(
        make=make,
        pattern=pattern.name,
        person=names.get(make.person_id or 0, ""),
        tests=titles.get(make.muslin_for or 0, ""),
        roles=pattern.roles(make.view, make.size),
        held=held,
    )


def _haystack(row: MakeRow) -> str:
    return " ".join((row.make.name, row.pattern, row.person, row.make.state)).lower()


def make_row(stash: Stash, ref: str) -> MakeRow:
    """One make with the names it refers to."""
    wanted = get_make(stash, ref).id
    return next(row for row in queue(stash) if row.make.id == wanted)


def get_make(stash: Stash, ref: str) -> Make:
    """The make meant by a name, part of a name or number."""
    with stash.read() as session:
        return store.find_make(session, ref)


def make_texts(stash: Stash, make: Make) -> dict[str, str]:
    """The text of every field, for a form or for showing."""
    with stash.read() as session:
        return texts_of(MAKE_FIELDS, make, context(stash, session))


def add_make(stash: Stash, texts: Mapping[str, str]) -> Make:
    """Put a make into the queue, described by the texts of `MAKE_FIELDS`."""
    with stash.write(f"add make {texts.get('name', '').strip()}") as session:
        make = read_record(MAKE_FIELDS, texts, None, Make, context(stash, session))
        pattern = patterns.get_pattern(session, make.pattern_id)
        return store.insert_make(session, checked(make, pattern))


def edit_make(
    stash: Stash,
    ref: str,
    texts: Mapping[str, str],
    *,
    base: Make | None = None,
    seen: int | None = None,
) -> Make:
    """Change what was typed, leave the rest; `base` and `seen` as in `edit_cloth`.

    A make that is let go, or gets another pattern, lets its cloth go.
    """
    with stash.write(f"edit make {ref}") as session:
        old = base or as_seen(session, MAKE, store.find_make(session, ref, hold=True), seen)
        tell(session, f"edit make {old.name}")
        known = context(stash, session)
        make = read_record(MAKE_FIELDS, texts, old, Make, known)
        pattern = patterns.get_pattern(session, make.pattern_id)
        kept = keep_edit(session, MAKE, old, checked(make, pattern), known)
        return _let_cloth_go(session, old, kept)


def _let_cloth_go(session: Session, old: Make, make: Make) -> Make:
    """Cloth held for what is not going to be sewn so any more is free again."""
    if make.state is not State.LET_GO and make.pattern_id == old.pattern_id:
        return make
    held = [one for one in promises.promises_of_make(session, make.id) if not one.cut]
    for one in held:
        promises.delete_promise(session, one.id)
    if held and make.state is State.PROMISED:
        return store.update_make(session, replace(make, state=State.THOUGHT))
    return make


def remove_make(stash: Stash, ref: str, *, remark: Remark = unsaid) -> Make:
    """Forget a make; RefusedError while it holds cloth that is not cut yet.

    Where something was cut for it, `remark` is told what becomes of that.
    """
    with stash.write(f"remove make {ref}") as session:
        make = store.find_make(session, ref)
        tell(session, f"remove make {make.name}")
        if promises.promises_of_make(session, make.id):
            remark(CUT_FORGOTTEN)
        store.delete_make(session, make.id)
        return make


def checked(make: Make, pattern: Pattern) -> Make:
    """Refuse a view or size the pattern does not have; take the only one it has."""
    sizes = tuple(size.label for size in pattern.sizes)
    size = make.size or (sizes[0] if len(sizes) == 1 else "")
    view = make.view or (pattern.views[0] if len(pattern.views) == 1 else "")
    known_size(pattern, size)
    known_view(pattern, view)
    for what, typed, known in (("size", size, sizes), ("view", view, pattern.views)):
        if not typed and len(known) > 1:
            raise BadInputError(
                f"{pattern.name} comes in several {what}s.",
                f"Say which {what}: {', '.join(known)}.",
            )
    if make.id and make.muslin_for == make.id:
        raise BadInputError(f"{make.name} cannot be the muslin of itself.", "Name another make.")
    return replace(make, size=size, view=view)
