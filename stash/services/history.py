"""The history of the stash: every change, when, by whom, and what it did."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import islice
from typing import TYPE_CHECKING

from stash.errors import NotFoundError
from stash.services.change_words import KnownNames, RowChange, row_changes
from stash.services.fields import Context
from stash.store import journal
from stash.store.chains import read_chains
from stash.store.record_names import kept_names, names_in, records_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import datetime

    from sqlalchemy.orm import Session

    from stash.services.stash import Stash
    from stash.store.chains import Chains
    from stash.store.journal import Change, JournalEntry
    from stash.store.record_names import Record


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One change of the stash."""

    id: int
    at: datetime
    """Aware, in UTC."""
    who: str
    what: str
    undoes: int | None
    """The entry it turned back: it is an undo or a redo."""
    undone_by: int | None
    """The entry that turned it back, unless it was done again since: it does not count now."""
    rows: tuple[RowChange, ...]
    """What it did; empty unless asked for."""

    @property
    def when(self) -> str:
        """Day and minute where the person is."""
        return f"{self.at.astimezone():%Y-%m-%d %H:%M}"


def history(
    stash: Stash, refs: Sequence[str] = (), *, count: int = 20, changes: bool = False
) -> tuple[Entry, ...]:
    """The latest changes, newest first.

    Args:
        stash: The stash.
        refs: Names, parts of names or numbers: only changes of these cloths, patterns, makes
            and people, removed ones too.
        count: How many at most.
        changes: With what each did, row by row.

    Raises:
        NotFoundError: Nothing is or was called by one of `refs`.
    """
    with stash.read() as session:
        names = kept_names(session)
        found: Iterable[JournalEntry] = journal.newest_first(session)
        if refs:
            names = _names_ever(session) | names
            wanted = {record for ref in refs for record in _meant(names, ref)}
            found = (one for one in found if _concerns(one, wanted))
        latest = list(islice(found, count))
        chains = read_chains(session)
        return tuple(_entry(stash, one, chains, names, changes=changes) for one in latest)


def entry(stash: Stash, entry_id: int) -> Entry:
    """One change with what it did. Raises NotFoundError."""
    with stash.read() as session:
        found = journal.get_entry(session, entry_id)
        names = kept_names(session)
        return _entry(stash, found, read_chains(session), names, changes=True)


def told(
    stash: Stash, changes: Sequence[Change], names: dict[Record, str]
) -> tuple[RowChange, ...]:
    """Changes of rows in words, with the names of records they remove."""
    context = Context(stash.settings, KnownNames(names_in(changes) | names))
    return row_changes(changes, context)


def _entry(
    stash: Stash, one: JournalEntry, chains: Chains, names: dict[Record, str], *, changes: bool
) -> Entry:
    return Entry(
        id=one.id,
        at=one.at,
        who=one.who,
        what=one.what,
        undoes=one.undoes,
        undone_by=chains.undone_by(one.id) if chains.is_undone(one.id) else None,
        rows=told(stash, one.changes, names) if changes else (),
    )


def _names_ever(session: Session) -> dict[Record, str]:
    """The last name of every record there ever was."""
    found: dict[Record, str] = {}
    for one in journal.newest_first(session):
        found = names_in(one.changes) | found
    return found


def _meant(names: dict[Record, str], ref: str) -> list[Record]:
    word = ref.strip().casefold()
    for found in (
        [record for record in names if str(record[1]) == word],
        [record for record, name in names.items() if name.casefold() == word],
        [record for record, name in names.items() if word and word in name.casefold()],
    ):
        if found:
            return found
    raise NotFoundError(
        f"Nothing is or was called “{ref.strip()}”.",
        "Type the name or number of a cloth, pattern, make or person, or a part of the name.",
    )


def _concerns(one: JournalEntry, wanted: set[Record]) -> bool:
    return any(records_of(change) & wanted for change in one.changes)
