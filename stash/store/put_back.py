"""Writing rows as they were before an entry of the journal, noted like any change."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa
from sqlalchemy import select

from stash.cloth.record import Hand, Structure
from stash.errors import RefusedError
from stash.store.changes import note, plain_value
from stash.store.tables.every import metadata
from stash.store.types import HandType, LengthType, MoneyType, StructuresType
from stash.units.length import Length

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from stash.store.journal import Change

ADDED_LATER: dict[tuple[str, str], Any] = {
    ("cloth", "half_drop"): False,
    ("cloth_flaw", "points"): [],
    ("pattern", "picture"): "",
    ("pattern", "traced"): [],
    ("pattern_asks", "avoid"): [],
    ("pattern_asks", "fibres"): [],
    ("pattern_chart", "rounded"): False,
    ("pattern_piece", "family"): "",
    ("pattern_piece", "notches"): [],
    ("pattern_piece", "tolerance"): 0,
    ("pattern_piece", "typed"): [],
}
"""Columns that are never empty and younger than the journal: what rows without them get."""


def put_back(session: Session, change: Change) -> None:
    """Turn one row back. Raises RefusedError if it is not as the change left it.

    The version goes up, never back: whoever read the row in between must notice.
    """
    table = metadata.tables[change.table]
    here = sa.and_(*(table.c[name] == value for name, value in change.key.items()))
    now = read_row(session, table, here)
    if (now is None) != (change.after is None) or _differs(now, change.after):
        raise RefusedError(
            f"A row of {change.table} is not as the history left it.",
            "Look at the history; what changed it comes first.",
        )
    connection = session.connection()
    if change.before is None:
        connection.execute(sa.delete(table).where(here))
        note(session, change.table, change.key, now, None)
    elif now is None:
        values = _complete(table, change.before)
        connection.execute(sa.insert(table).values(typed_values(table, values)))
        note(session, change.table, change.key, None, values)
    else:
        values = {n: v for n, v in change.before.items() if n in table.c and n != "version"}
        if "version" in now:
            values["version"] = now["version"] + 1
        connection.execute(sa.update(table).where(here).values(typed_values(table, values)))
        note(session, change.table, change.key, {n: now.get(n) for n in values}, values)


def read_row(
    session: Session, table: sa.Table, here: sa.ColumnElement[bool]
) -> dict[str, Any] | None:
    """A row as the journal would hold it, without its empty columns; locked on a server."""
    found = session.connection().execute(select(table).where(here).with_for_update())
    row = found.mappings().one_or_none()
    if row is None:
        return None
    return {name: plain_value(value) for name, value in row.items() if value is not None}


def typed_values(table: sa.Table, values: dict[str, Any]) -> dict[str, Any]:
    """Values of the journal as the columns take them."""
    return {name: typed_value(table.c[name], value) for name, value in values.items()}


def typed_value(column: sa.Column[Any], value: Any) -> Any:
    """One value of the journal as its column takes it, and as records hold it."""
    if value is None:
        return None
    match column.type:
        case LengthType():
            return Length(value)
        case HandType():
            return Hand(value)
        case MoneyType():
            return Decimal(value)
        case StructuresType():
            return tuple(Structure(word) for word in value)
        case sa.Date():
            return date.fromisoformat(value)
        case sa.Enum(enum_class=kind) if kind is not None:
            return kind(value)
    return tuple(map(_tuple, value)) if isinstance(value, list) else value


def _tuple(value: Any) -> Any:
    return tuple(value) if isinstance(value, list) else value


def _differs(now: dict[str, Any] | None, after: dict[str, Any] | None) -> bool:
    """The row has another value in a column the journal speaks of."""
    if now is None or after is None:
        return False
    return any(now.get(name) != value for name, value in after.items() if name != "version")


def _complete(table: sa.Table, before: dict[str, Any]) -> dict[str, Any]:
    """The whole of a removed row, with the columns that came after it was removed."""
    usual = {name: value for (of, name), value in ADDED_LATER.items() if of == table.name}
    values = usual | {name: value for name, value in before.items() if name in table.c}
    if "version" in values:
        values["version"] += 1
    return values
