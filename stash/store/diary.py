"""The diary."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sqlalchemy import select

from stash.garment.make import DiaryEntry
from stash.store.rows import columns, copy_onto, field_names
from stash.store.tables.make import DiaryRow

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

COLUMNS = field_names(DiaryEntry)
TYPED = field_names(DiaryEntry, but=("id",))


def add_entry(session: Session, entry: DiaryEntry) -> DiaryEntry:
    """Write a new line; returns it with its id."""
    row = DiaryRow()
    copy_onto(row, entry, TYPED)
    session.add(row)
    session.flush()
    return replace(entry, id=row.id)


def entries(
    session: Session, cloth_id: int | None = None, make_id: int | None = None
) -> tuple[DiaryEntry, ...]:
    """The lines about a cloth, a make, both or anything; newest day first."""
    query = select(*columns(DiaryRow, *COLUMNS)).order_by(DiaryRow.day.desc(), DiaryRow.id.desc())
    if cloth_id is not None:
        query = query.where(DiaryRow.cloth_id == cloth_id)
    if make_id is not None:
        query = query.where(DiaryRow.make_id == make_id)
    return tuple(
        DiaryEntry(**dict(zip(COLUMNS, values, strict=True))) for values in session.execute(query)
    )
