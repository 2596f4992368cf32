"""The people sewn for."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from sqlalchemy import select
from sqlalchemy.orm import selectinload

from stash.garment.make import Person
from stash.store.kept import find_id, locked, missing, new_row, numbered, refuse_if_used, to_change
from stash.store.rows import by_name, copy_onto, field_names, fit, read_children, read_records
from stash.store.tables.make import MakeRow, PersonMeasureRow, PersonRow

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sqlalchemy.orm import Session

    from stash.units.length import Length


class Measure(NamedTuple):
    """One body measure as it is kept."""

    name: str
    length: Length


NOUN = "person"
COLUMNS = field_names(Person, but=("measures",))
TYPED = tuple(name for name in COLUMNS if name not in ("id", "version"))
WITH_CHILDREN = (selectinload(PersonRow.measures),)


def all_people(session: Session) -> tuple[Person, ...]:
    """Everyone, by name and then by id."""
    return by_name(_read(session, None))


def get_person(session: Session, person_id: int) -> Person:
    """One person. Raises NotFoundError."""
    for person in _read(session, person_id):
        return person
    raise missing(NOUN, person_id)


def find_person(session: Session, ref: str, *, hold: bool = False) -> Person:
    """The person meant by an id, a name or a part of one. Raises NotFoundError.

    With `hold` it is to be changed: nobody else does so before the session ends.
    """
    return get_person(session, find_id(session, PersonRow, NOUN, ref, hold=hold))


def insert_person(session: Session, person: Person, *, numbers: bool = False) -> Person:
    """Keep a new person; returns them with their id, with `numbers` the one it has."""
    row = _write(new_row(PersonRow, person, numbered=numbers), person)
    session.add(row)
    session.flush()
    return numbered(person, row)


def update_person(session: Session, person: Person) -> Person:
    """Keep changes. Raises RefusedError if changed since `person` was read."""
    row = _write(to_change(session, PersonRow, NOUN, person, *WITH_CHILDREN), person)
    session.flush()
    return numbered(person, row)


def delete_person(session: Session, person_id: int) -> None:
    """Remove a person no make is for. Raises RefusedError naming the makes that are."""
    row = locked(session, PersonRow, NOUN, person_id, *WITH_CHILDREN)
    refuse_if_used(
        f"Makes are meant for {row.name}",
        session.scalars(select(MakeRow.name).where(MakeRow.person_id == person_id)),
        "Remove these makes, or give them to someone else, first.",
    )
    session.delete(row)
    session.flush()


def _read(session: Session, one: int | None) -> Iterator[Person]:
    measures = read_children(session, PersonMeasureRow, "person_id", Measure._fields, Measure, one)
    for values in read_records(session, PersonRow, COLUMNS, one):
        taken = measures.get(values["id"], ())
        yield Person(measures=tuple((m.name, m.length) for m in taken), **values)


def _write(row: PersonRow, person: Person) -> PersonRow:
    copy_onto(row, person, TYPED)
    measures = [Measure(name, length) for name, length in person.measures]
    fit(row.measures, measures, PersonMeasureRow, Measure._fields)
    return row
