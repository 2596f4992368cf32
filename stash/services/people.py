"""The people sewn for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.garment.make import Person
from stash.services.clashes import Kind, as_seen, keep_edit
from stash.services.fields import read_record, texts_of
from stash.services.make_fields import PERSON_FIELDS
from stash.services.names import context
from stash.store import people as store
from stash.store.changes import tell

if TYPE_CHECKING:
    from collections.abc import Mapping

    from stash.services.stash import Stash

PERSON = Kind("person", PERSON_FIELDS, store.get_person, store.update_person)


def all_people(stash: Stash) -> tuple[Person, ...]:
    """Everybody, by name."""
    with stash.read() as session:
        return store.all_people(session)


def get_person(stash: Stash, ref: str) -> Person:
    """The person meant by a name, part of a name or number."""
    with stash.read() as session:
        return store.find_person(session, ref)


def person_texts(stash: Stash, person: Person) -> dict[str, str]:
    """The text of every field, for a form or for showing."""
    with stash.read() as session:
        return texts_of(PERSON_FIELDS, person, context(stash, session))


def add_person(stash: Stash, texts: Mapping[str, str]) -> Person:
    """Keep a person, described by the texts of `PERSON_FIELDS`."""
    with stash.write(f"add person {texts.get('name', '').strip()}") as session:
        person = read_record(PERSON_FIELDS, texts, None, Person, context(stash, session))
        return store.insert_person(session, person)


def edit_person(
    stash: Stash,
    ref: str,
    texts: Mapping[str, str],
    *,
    base: Person | None = None,
    seen: int | None = None,
) -> Person:
    """Change what was typed, leave the rest; `base` and `seen` as in `edit_cloth`."""
    with stash.write(f"edit person {ref}") as session:
        old = base or as_seen(session, PERSON, store.find_person(session, ref, hold=True), seen)
        tell(session, f"edit person {old.name}")
        known = context(stash, session)
        person = read_record(PERSON_FIELDS, texts, old, Person, known)
        return keep_edit(session, PERSON, old, person, known)


def remove_person(stash: Stash, ref: str) -> Person:
    """Forget a person; RefusedError while a make is for them."""
    with stash.write(f"remove person {ref}") as session:
        person = store.find_person(session, ref)
        tell(session, f"remove person {person.name}")
        store.delete_person(session, person.id)
        return person
