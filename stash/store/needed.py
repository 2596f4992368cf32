"""What came after an entry of the journal and depends on it."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, NoReturn

import sqlalchemy as sa
from sqlalchemy import func, select

from stash.errors import RefusedError
from stash.store.journal import get_entry
from stash.store.tables.cloth import ClothRow
from stash.store.tables.every import metadata
from stash.store.tables.make import PromiseRow

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

    from sqlalchemy.orm import Session

    from stash.store.chains import Chains
    from stash.store.journal import Change, JournalEntry

RowId = tuple[str, tuple[int, ...]]
"""A row by its table and its key."""

CALLED = {"diary": "line of the diary", "promise": "promise of cloth"}
"""Nouns that are not the name of their table."""


class Later:
    """One entry, and the later ones that still count."""

    def __init__(self, session: Session, entry: JournalEntry, chains: Chains, title: str) -> None:
        """`title` says what was meant to be done, such as “edit cloth cord” cannot be undone."""
        self._session = session
        self._after = chains.counting_after(entry.id)
        self.entry = entry
        self.title = title

    @cached_property
    def rows(self) -> set[RowId]:
        """The rows the entry touched."""
        return {row_id(change) for change in self.entry.changes}

    def refuse_if_needed(self) -> None:
        """Raise RefusedError naming a later entry, if one depends on this one."""
        if self._last(self.rows) is not None:
            self._refuse(self.rows, "changed the same")
        for change in self.entry.changes:
            if change.before is None:
                self._refuse(self._users_of(change), "uses what it added, in a")
            else:
                self._refuse(self._lacking(change), "removed what it needs, a")

    def refuse_if_short(self, before: dict[int, int]) -> None:
        """Raise RefusedError if a cloth is now shorter than what was later promised of it.

        `before` holds what was lacking before; see `shortages`.
        """
        for cloth_id, lack in self.shortages().items():
            if lack > before.get(cloth_id, 0):
                query = select(PromiseRow.id).where(
                    PromiseRow.cloth_id == cloth_id, PromiseRow.cut.is_(False)
                )
                held = {("promise", (one,)) for one in self._session.scalars(query)}
                if self._last(held - self.rows) is not None:
                    self._refuse(held - self.rows, "relies on the length of the cloth for a")

    def shortages(self) -> dict[int, int]:
        """Nanometres promised beyond what is left, by the id of each cloth in the entry."""
        wanted = {key[0] for table, key in self.rows if table == "cloth"}
        wanted |= {
            side["cloth_id"]
            for change in self.entry.changes
            if change.table == "promise"
            for side in (change.before, change.after)
            if side and "cloth_id" in side
        }
        total = func.sum(PromiseRow.length, type_=PromiseRow.length.type)
        query = (
            select(ClothRow.id, ClothRow.left, total)
            .join(PromiseRow, PromiseRow.cloth_id == ClothRow.id)
            .where(PromiseRow.cut.is_(False), ClothRow.id.in_(wanted))
            .group_by(ClothRow.id, ClothRow.left)
        )
        found = self._session.execute(query)
        return {kept: held.nm - left.nm for kept, left, held in found if held > left}

    def _users_of(self, change: Change) -> set[RowId]:
        """Rows outside the entry that refer to a row it added."""
        found: set[RowId] = set()
        for table in metadata.sorted_tables:
            for key in table.foreign_key_constraints:
                if key.referred_table.name != change.table or table.name == "journal":
                    continue
                pairs = [(e.parent, change.key[e.column.name]) for e in key.elements]
                query = select(*table.primary_key).where(*(c == v for c, v in pairs))
                rows = self._session.connection().execute(query)
                found |= {(table.name, tuple(row)) for row in rows}
        return found - self.rows

    def _lacking(self, change: Change) -> set[RowId]:
        """Rows that what comes back refers to and that are gone, and do not come back with it."""
        table, values = metadata.tables[change.table], change.before or {}
        found: set[RowId] = set()
        for key in table.foreign_key_constraints:
            pairs = [(e.column, values.get(e.parent.name)) for e in key.elements]
            if any(value is None for _, value in pairs):
                continue
            row = (key.referred_table.name, tuple(int(value or 0) for _, value in pairs))
            here = select(sa.literal(1)).where(*(c == v for c, v in pairs))
            if row not in self.rows and self._session.connection().scalar(here) is None:
                found.add(row)
        return found

    def _refuse(self, rows: Collection[RowId], how: str) -> None:
        if not rows:
            return
        last = self._last(rows)
        if last is None:
            raise RefusedError(f"{self.title}: something later depends on it.")
        shared = next(row for row in map(row_id, last.changes) if row in rows)
        self._name(last, f"{how} {noun_of(shared[0])}")

    def _name(self, later: JournalEntry, how: str) -> NoReturn:
        when = f"{later.at.astimezone():%Y-%m-%d %H:%M}"
        raise RefusedError(
            f"{self.title}: “{later.what}” (entry {later.id}, {when}, by {later.who}) {how}.",
            f"Undo that one first: stash undo {later.id}.",
        )

    def _last(self, rows: Collection[RowId]) -> JournalEntry | None:
        """The newest later entry that touched one of `rows`."""
        return next((one for one in self._entries() if _touches(one, rows)), None)

    def _entries(self) -> Iterator[JournalEntry]:
        for later in self._after:
            yield get_entry(self._session, later)


def row_id(change: Change) -> RowId:
    """Which row a change is of."""
    return change.table, tuple(change.key.values())


def noun_of(table: str) -> str:
    """What people call a row of this table, or what it is a part of."""
    noun = table.partition("_")[0]
    return CALLED.get(noun, noun)


def _touches(entry: JournalEntry, rows: Collection[RowId]) -> bool:
    return any(row_id(change) in rows for change in entry.changes)
