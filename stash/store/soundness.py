"""What a database can have wrong before a record is even read: file, references, values, tables."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from stash.store.tables.every import metadata
from stash.store.types import UtcType

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from sqlalchemy.orm import Session

MOST = 20
"""Faults of the file itself that are told; one is enough to restore a copy."""


def file_faults(session: Session) -> tuple[str, ...]:
    """What SQLite finds wrong in its file; a server looks after its own."""
    if _on_server(session):
        return ()
    try:
        found = session.execute(sa.text(f"PRAGMA integrity_check({MOST})")).scalars().all()
    except sa.exc.DatabaseError as error:  # so damaged that the looking itself fails
        return (str(error.orig),)
    return tuple(str(line) for line in found if line != "ok")


def loose_references(session: Session) -> tuple[tuple[str, str], ...]:
    """Rows that name rows that are gone, as (row, the table it names)."""
    return tuple(
        found
        for table in metadata.sorted_tables
        for key in sorted(table.foreign_keys, key=lambda key: key.parent.name)
        for found in _loose(session, table, key)
    )


def _loose(session: Session, table: sa.Table, key: sa.ForeignKey) -> Iterator[tuple[str, str]]:
    """Asked in plain SQL: a copy put on a server with its checks off is not checked by it."""
    other = key.column.table.alias()
    there = sa.exists().where(other.c[key.column.name] == key.parent)
    query = sa.select(*table.primary_key.columns).where(key.parent.is_not(None), ~there)
    for row in session.execute(query.order_by(*table.primary_key.columns)):
        yield _row_name(table, row), key.column.table.name


def unreadable_values(session: Session) -> tuple[tuple[str, str, str], ...]:
    """Values nothing can be made of, as (row, column, value)."""
    return tuple(
        found
        for table in metadata.sorted_tables
        for column in table.columns
        for found in _unreadable(session, table, column)
    )


def _raw_type(kind: sa.types.TypeEngine[Any]) -> sa.types.TypeEngine[Any] | None:
    """What the database itself keeps of a value of ours; None: just the value."""
    if isinstance(kind, sa.Enum):
        return sa.String()
    if isinstance(kind, sa.types.TypeDecorator) and not isinstance(kind, UtcType):
        return kind.impl_instance
    return None


def _unreadable(
    session: Session, table: sa.Table, column: sa.Column[Any]
) -> Iterator[tuple[str, str, str]]:
    """Each value as the database has it, put through what reads it."""
    raw = _raw_type(column.type)
    read = column.type.result_processor(session.get_bind().dialect, None)
    if raw is None or read is None:
        return
    keys = list(table.primary_key.columns)
    query = sa.select(*keys, sa.type_coerce(column, raw)).where(column.is_not(None))
    for *key, value in session.execute(query):
        try:
            read(value)
        except (ValueError, LookupError, TypeError, ArithmeticError):
            yield _row_name(table, key), column.name, str(value)[:60]


def _row_name(table: sa.Table, key: Iterable[Any]) -> str:
    """Such as `cloth_flaw cloth_id 3, position 0`."""
    columns = zip(table.primary_key.columns, key, strict=True)
    return f"{table.name} {', '.join(f'{column.name} {value}' for column, value in columns)}"


def _on_server(session: Session) -> bool:
    return session.get_bind().dialect.name == "postgresql"
