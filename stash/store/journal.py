"""Reading the journal of changes."""

from __future__ import annotations

import json
from contextlib import closing
from dataclasses import dataclass
from itertools import islice
from typing import TYPE_CHECKING, Any

from sqlalchemy import select

from stash.errors import NotFoundError
from stash.store.tables.record import JournalRow

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import datetime

    from sqlalchemy.orm import Session

BATCH = 50
"""Entries read at once: one may be as large as a whole stash."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One row before and after. A new row has no `before`, a removed one no `after`.

    Of a changed row only the columns that differ are there; columns that are missing were
    empty. Lengths are nanometres, dates ISO 8601.
    """

    table: str
    key: dict[str, Any]
    before: dict[str, Any] | None
    after: dict[str, Any] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class JournalEntry:
    """One transaction: when, by whom, what in words, and its rows in the order written."""

    id: int
    at: datetime
    who: str
    what: str
    changes: tuple[Change, ...]
    undoes: int | None
    """The entry it turned back, if it is an undo or a redo."""


@dataclass(frozen=True, slots=True)
class Title:
    """An entry without its rows."""

    id: int
    who: str
    what: str


def latest(session: Session, count: int) -> tuple[JournalEntry, ...]:
    """The last `count` entries, newest first."""
    return tuple(islice(newest_first(session), count))


def newest_first(session: Session) -> Iterator[JournalEntry]:
    """Every entry, the newest first, read as far as it is asked for."""
    query = select(JournalRow).order_by(JournalRow.id.desc())
    with closing(session.scalars(query.execution_options(yield_per=BATCH))) as rows:
        for row in rows:  # a server's cursor stays open until it is closed
            yield _entry(row)


def get_entry(session: Session, entry_id: int) -> JournalEntry:
    """One entry. Raises NotFoundError."""
    row = session.get(JournalRow, entry_id)
    if row is None:
        raise NotFoundError(
            f"There is no entry {entry_id} in the history.", "stash history lists them."
        )
    return _entry(row)


def newest_titles(session: Session) -> tuple[Title, ...]:
    """The last entries without their rows, oldest first.

    More than one, because on a server an entry may become visible after a later one.
    """
    query = select(JournalRow.id, JournalRow.who, JournalRow.what)
    found = session.execute(query.order_by(JournalRow.id.desc()).limit(BATCH))
    return tuple(Title(*row) for row in found)[::-1]


def last_about(session: Session, table: str, row: int) -> JournalEntry | None:
    """The newest entry that changed the row of this id."""
    return next((one for one in newest_first(session) if _of(one, table, row)), None)


def first_rows(session: Session, table: str) -> dict[int, dict[str, Any]]:
    """Every row with an id as it was when it first came, by that id, as plain values."""
    found: dict[int, dict[str, Any]] = {}
    for entry in newest_first(session):
        for change in reversed(entry.changes):
            if change.table == table and change.before is None and change.after:
                found[change.key["id"]] = change.after
    return found


def _of(entry: JournalEntry, table: str, row: int) -> list[Change]:
    return [one for one in entry.changes if one.table == table and one.key == {"id": row}]


def noted(session: Session) -> tuple[Change, ...]:
    """What this session changed so far: the changes of its entry to be."""
    session.flush()
    return tuple(Change(**change) for change in session.info["changes"])


def _entry(row: JournalRow) -> JournalEntry:
    return JournalEntry(
        id=row.id,
        at=row.at,
        who=row.who,
        what=row.what,
        changes=tuple(Change(**change) for change in json.loads(row.changes)),
        undoes=row.undoes,
    )
