"""Reading the journal of changes."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from sqlalchemy import select

from stash.store.tables.record import JournalRow

if TYPE_CHECKING:
    from datetime import datetime

    from sqlalchemy.orm import Session


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


def latest(session: Session, count: int) -> tuple[JournalEntry, ...]:
    """The last `count` entries, newest first."""
    query = select(JournalRow).order_by(JournalRow.id.desc()).limit(count)
    return tuple(
        JournalEntry(
            id=row.id,
            at=row.at,
            who=row.who,
            what=row.what,
            changes=tuple(Change(**change) for change in json.loads(row.changes)),
        )
        for row in session.scalars(query)
    )
