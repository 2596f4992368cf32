"""Cloth promised to makes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import func, select

from stash.garment.make import Promise
from stash.store.kept import locked, numbered, to_change
from stash.store.rows import columns, copy_onto, field_names
from stash.store.tables.make import PromiseRow
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement
    from sqlalchemy.orm import Session

NOUN = "promise"
COLUMNS = field_names(Promise)
TYPED = tuple(name for name in COLUMNS if name not in ("id", "version"))


def all_promises(session: Session) -> tuple[Promise, ...]:
    """Every promise, oldest first."""
    return _read(session)


def promises_of_make(session: Session, make_id: int) -> tuple[Promise, ...]:
    """What one make holds, oldest first."""
    return _read(session, PromiseRow.make_id == make_id)


def promises_of_cloth(session: Session, cloth_id: int) -> tuple[Promise, ...]:
    """Who holds some of a cloth, oldest first."""
    return _read(session, PromiseRow.cloth_id == cloth_id)


def insert_promise(session: Session, promise: Promise) -> Promise:
    """Keep a new promise; returns it with its id."""
    row = PromiseRow(version=1)
    copy_onto(row, promise, TYPED)
    session.add(row)
    session.flush()
    return numbered(promise, row)


def update_promise(session: Session, promise: Promise) -> Promise:
    """Keep changes. Raises RefusedError if it was changed since `promise` was read."""
    row = to_change(session, PromiseRow, NOUN, promise)
    copy_onto(row, promise, TYPED)
    session.flush()
    return numbered(promise, row)


def delete_promise(session: Session, promise_id: int) -> None:
    """Release the cloth. Raises NotFoundError."""
    session.delete(locked(session, PromiseRow, NOUN, promise_id))
    session.flush()


def promised_length(session: Session, cloth_id: int) -> Length:
    """How much of a cloth is held and not cut yet; what was cut has left the shelf."""
    return promised_lengths(session, cloth_id).get(cloth_id, ZERO)


def promised_lengths(session: Session, cloth_id: int | None = None) -> dict[int, Length]:
    """The same for every cloth of which some is held, by its id; or for one."""
    total = func.sum(PromiseRow.length, type_=PromiseRow.length.type)
    query = select(PromiseRow.cloth_id, total).where(PromiseRow.cut.is_(False))
    if cloth_id is not None:
        query = query.where(PromiseRow.cloth_id == cloth_id)
    held = session.execute(query.group_by(PromiseRow.cloth_id))
    return dict(held.all())


def _read(session: Session, *which: ColumnElement[bool]) -> tuple[Promise, ...]:
    query = select(*columns(PromiseRow, *COLUMNS)).where(*which).order_by(PromiseRow.id)
    return tuple(
        Promise(**dict(zip(COLUMNS, values, strict=True))) for values in session.execute(query)
    )
