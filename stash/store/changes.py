"""Every change of the stash is noted here, whoever makes it, and kept as one journal row.

The notes are taken where SQLAlchemy writes a row, so no caller can forget them; writing
rows around that is refused. Undone backwards, the rows of an entry give the state before.
"""

from __future__ import annotations

import getpass
import json
from datetime import UTC, date, datetime
from decimal import Decimal
from enum import Enum
from typing import TYPE_CHECKING, Any

from sqlalchemy import event, insert, inspect, text
from sqlalchemy.orm import Session, object_session

from stash.store.tables.base import Base
from stash.store.tables.record import JournalRow
from stash.units.length import Length

if TYPE_CHECKING:
    from sqlalchemy.engine import Connection
    from sqlalchemy.orm import Mapper, ORMExecuteState

UNJOURNALLED = {"unjournalled": True}
"""Execution options of the few statements that change nothing a person typed."""


class JournalledSession(Session):
    """A session whose changes end up in the journal when it commits."""


def start_noting(session: Session, what: str, own: set[int]) -> None:
    """Allow changes in this session; `what` tells them in words.

    The number of its entry is put into `own` before anyone can see it.
    """
    session.info.update(what=what, changes=[], undoes=None, own=own)


def tell(session: Session, what: str, *, undoes: int | None = None) -> None:
    """Say better what the change is; `undoes` is the journal entry it turns back."""
    session.info.update(what=what, undoes=undoes)


def note(
    session: Session,
    table: str,
    key: dict[str, Any],
    before: dict[str, Any] | None,
    after: dict[str, Any] | None,
) -> None:
    """Note a row that was written without an object of its own, as plain values."""
    if "changes" not in session.info:
        raise RuntimeError("the stash is changed only inside Store.write")
    session.info["changes"].append({"table": table, "key": key, "before": before, "after": after})


@event.listens_for(Base, "after_insert", propagate=True)
def _inserted(mapper: Mapper[Any], connection: Connection, row: Base) -> None:
    _note(row, None, _values(row))


@event.listens_for(Base, "after_update", propagate=True)
def _updated(mapper: Mapper[Any], connection: Connection, row: Base) -> None:
    old, new = _values_before(row), _values(row)
    changed = [name for name in old.keys() | new.keys() if old.get(name) != new.get(name)]
    if changed:
        names = sorted(changed)
        _note(row, {n: old.get(n) for n in names}, {n: new.get(n) for n in names})


@event.listens_for(Base, "before_delete", propagate=True)
def _deleted(mapper: Mapper[Any], connection: Connection, row: Base) -> None:
    _note(row, _values_before(row), None)


@event.listens_for(JournalledSession, "do_orm_execute")
def _refuse_unnoted(state: ORMExecuteState) -> None:
    writes = state.is_insert or state.is_update or state.is_delete
    if writes and not state.execution_options.get("unjournalled"):
        raise RuntimeError("rows are changed through the session, so that the journal sees it")


@event.listens_for(JournalledSession, "before_commit")
def _keep_journal(session: Session) -> None:
    session.flush()
    changes = session.info.get("changes")
    if not changes:
        return
    values = {
        "at": datetime.now(UTC),
        "who": user_name(session),
        "what": session.info["what"],
        "undoes": session.info["undoes"],
        "changes": json.dumps(changes, separators=(",", ":"), ensure_ascii=False),
    }
    kept = session.connection().execute(insert(JournalRow).values(values))
    assert kept.inserted_primary_key is not None
    session.info["own"].add(kept.inserted_primary_key[0])
    session.info["changes"] = []


def _note(row: Base, before: dict[str, Any] | None, after: dict[str, Any] | None) -> None:
    session = object_session(row)
    if session is None:
        raise RuntimeError("the stash is changed only inside Store.write")
    mapper = inspect(row).mapper
    key = {column.name: getattr(row, column.name) for column in mapper.primary_key}
    note(session, str(mapper.local_table), key, before, after)


def _values(row: Base) -> dict[str, Any]:
    """The columns of a row as JSON values, without the empty ones."""
    held = row.__dict__
    names = (attribute.key for attribute in inspect(type(row)).column_attrs)
    return {name: plain_value(held[name]) for name in names if held.get(name) is not None}


def _values_before(row: Base) -> dict[str, Any]:
    """The same, as the database has them while changes are waiting to be written."""
    found = {}
    for attribute in inspect(row).attrs:
        before = attribute.history.deleted
        if before and attribute.key in inspect(type(row)).column_attrs:
            found[attribute.key] = plain_value(before[0])
    values = _values(row) | found
    return {name: value for name, value in values.items() if value is not None}


def plain_value(value: Any) -> Any:
    """A value of a column as the journal holds it."""
    if isinstance(value, Length):
        return value.nm
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, (date, datetime)):
        return value.isoformat()
    if isinstance(value, Decimal):
        return str(value)
    if isinstance(value, tuple):
        return [plain_value(item) for item in value]
    return value


def user_name(session: Session) -> str:
    """Who changes the stash: the account, and on a server before it the name it knows."""
    try:
        here = getpass.getuser()
    except (KeyError, OSError, ImportError):  # an account without a name
        here = "someone"
    if session.get_bind().dialect.name != "postgresql":
        return here
    there = session.connection().execute(text("SELECT session_user")).scalar_one()
    return f"{there} ({here})"
