"""Makes in the stash."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import select

from stash.garment.make import Make
from stash.store.kept import find_id, locked, missing, new_row, numbered, refuse_if_used, to_change
from stash.store.rows import by_name, copy_onto, field_names, read_records
from stash.store.tables.cloth import ClothRow
from stash.store.tables.make import DiaryRow, MakeRow, PromiseRow

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

NOUN = "make"
COLUMNS = field_names(Make)
TYPED = tuple(name for name in COLUMNS if name not in ("id", "version"))


def all_makes(session: Session) -> tuple[Make, ...]:
    """Every make, by name and then by id."""
    return by_name(Make(**values) for values in read_records(session, MakeRow, COLUMNS, None))


def makes_of_pattern(session: Session, pattern_id: int) -> tuple[Make, ...]:
    """Every make sewn from this pattern, by name and then by id."""
    return tuple(make for make in all_makes(session) if make.pattern_id == pattern_id)


def get_make(session: Session, make_id: int) -> Make:
    """One make. Raises NotFoundError."""
    for values in read_records(session, MakeRow, COLUMNS, make_id):
        return Make(**values)
    raise missing(NOUN, make_id)


def find_make(session: Session, ref: str, *, hold: bool = False) -> Make:
    """The make meant by an id, a name or a part of one. Raises NotFoundError.

    With `hold` it is to be changed: nobody else does so before the session ends.
    """
    return get_make(session, find_id(session, MakeRow, NOUN, ref, hold=hold))


def insert_make(session: Session, make: Make, *, numbers: bool = False) -> Make:
    """Keep a new make; returns it with its id, with `numbers` the one it has."""
    row = new_row(MakeRow, make, numbered=numbers)
    copy_onto(row, make, TYPED)
    session.add(row)
    session.flush()
    return numbered(make, row)


def update_make(session: Session, make: Make) -> Make:
    """Keep changes. Raises RefusedError if it was changed since `make` was read."""
    row = to_change(session, MakeRow, NOUN, make)
    copy_onto(row, make, TYPED)
    session.flush()
    return numbered(make, row)


def delete_make(session: Session, make_id: int) -> None:
    """Remove a make that holds no cloth and is tested by no muslin; its diary lines stay.

    What was cut for it has left the shelf: that it was goes with the make.

    Raises RefusedError naming what depends on it.
    """
    row = locked(session, MakeRow, NOUN, make_id)
    held = session.execute(
        select(ClothRow.name, PromiseRow.role)
        .join(PromiseRow, PromiseRow.cloth_id == ClothRow.id)
        .where(PromiseRow.make_id == make_id, PromiseRow.cut.is_(False))
    )
    refuse_if_used(
        f"{row.name} holds cloth",
        (f"{name} ({role.value})" for name, role in held),
        "Release this cloth first: stash release MAKE",
    )
    refuse_if_used(
        f"{row.name} is tested by muslins",
        session.scalars(select(MakeRow.name).where(MakeRow.muslin_for == make_id)),
        "Remove these first, or let them test nothing.",
    )
    for line in session.scalars(select(DiaryRow).where(DiaryRow.make_id == make_id)):
        line.make_id = None
    for cut in session.scalars(select(PromiseRow).where(PromiseRow.make_id == make_id)):
        session.delete(cut)
    session.flush()
    session.delete(row)
    session.flush()
