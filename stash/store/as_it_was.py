"""A record as it was when it had an earlier version, with its parts, by the journal."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, TypeVar

from stash.errors import RefusedError
from stash.store.journal import newest_first
from stash.store.put_back import put_back, typed_values
from stash.store.tables.every import metadata

if TYPE_CHECKING:
    from collections.abc import Callable

    from sqlalchemy.orm import Session

    from stash.store.journal import Change

T = TypeVar("T")


def as_it_was(
    session: Session, noun: str, now: T, version: int, get: Callable[[Session, int], T]
) -> T | None:
    """The record `now` when it had this version; None if the journal does not reach back.

    Its parts are put back for a moment and read by `get`; nothing of that stays. Its own
    columns are only noted, since they may name records that are gone.
    """
    record: Any = now
    done = len(session.info["changes"])
    moment = session.begin_nested()
    try:
        columns = _turn_back(session, noun, record.id, version)
        then: Any = get(session, record.id)
    except RefusedError:  # the rows are not as the journal left them: it does not know
        return None
    finally:
        moment.rollback()
        del session.info["changes"][done:]
    if columns is None:
        return None
    known = typed_values(metadata.tables[noun], columns)
    found: T = replace(then, **{n: value for n, value in known.items() if hasattr(then, n)})
    return found


def _turn_back(session: Session, noun: str, kept_id: int, version: int) -> dict[str, Any] | None:
    """Put back the parts; returns the columns of the record itself that differed."""
    found: dict[str, Any] = {}
    for entry in newest_first(session):
        for change in reversed(entry.changes):
            if _is_part(change, noun, kept_id):
                put_back(session, change)
            elif change.table == noun and change.key == {"id": kept_id}:
                if not change.before or not change.after:
                    return None
                found |= change.before
                if found.get("version") == version:
                    return found
    return None


def _is_part(change: Change, noun: str, kept_id: int) -> bool:
    return change.table.startswith(f"{noun}_") and change.key.get(f"{noun}_id") == kept_id
