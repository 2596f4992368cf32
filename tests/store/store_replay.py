"""Replaying the journal from nothing, without the store: its rows must give every table.

Rows are read by reflection and compared as JSON values; neither the mapping of the tables nor
the code that undoes changes is used.
"""

from __future__ import annotations

import json
from datetime import date
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from stash.store.engine import migration_engine, read_url

if TYPE_CHECKING:
    from sqlalchemy.engine import Connection

Rows = dict[tuple[str, tuple[Any, ...]], dict[str, Any]]
"""Every row by its table and key; empty columns are left out."""

NOT_JOURNALLED = {"journal", "alembic_version", "lay_result"}


class Replay:
    """The tables as the journal tells them, as far as it was read."""

    def __init__(self) -> None:
        self.rows: Rows = {}
        self.told: set[str] = set()
        """What every entry says it did."""
        self.last = 0
        self.tables = sa.MetaData()

    def read_on(self, connection: Connection) -> None:
        """Take the entries that came since; each must follow from the state before it."""
        query = sa.text("SELECT id, what, changes FROM journal WHERE id > :last ORDER BY id")
        for entry, what, text in connection.execute(query, {"last": self.last}):
            for change in json.loads(text):
                self._take(change)
            self.told.add(what)
            self.last = entry

    def _take(self, change: dict[str, Any]) -> None:
        key = change["table"], tuple(change["key"].values())
        before, after = change["before"], change["after"]
        if before is None:
            assert key not in self.rows, f"{key} is added twice"
            self.rows[key] = {n: v for n, v in after.items() if v is not None}
            return
        row = self.rows[key]
        assert {n: row.get(n) for n in before} == before, f"{key} was not so before"
        if after is None:
            assert {n: v for n, v in before.items() if v is not None} == row, f"{key} was more"
            del self.rows[key]
            return
        row.update(after)
        self.rows[key] = {n: v for n, v in row.items() if v is not None}


def rows_of(connection: Connection, tables: sa.MetaData | None = None) -> Rows:
    """Every row of every journalled table, as JSON values; `tables` saves reading them again."""
    tables = sa.MetaData() if tables is None else tables
    if not tables.tables:
        tables.reflect(connection)
    found: Rows = {}
    for table in tables.sorted_tables:
        if table.name in NOT_JOURNALLED:
            continue
        for row in connection.execute(sa.select(table)).mappings():
            key = table.name, tuple(row[column.name] for column in table.primary_key)
            found[key] = {n: _plain(v) for n, v in row.items() if v is not None}
    return found


def _plain(value: Any) -> Any:
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, str) and value.startswith("["):
        return json.loads(value)
    return value


def faults(url: str, replay: Replay) -> list[str]:
    """What is wrong with a stash: broken pages, references, or rows the journal cannot tell."""
    found = []
    with migration_engine(read_url(url)).connect() as connection:
        if connection.dialect.name == "sqlite":
            (said,) = connection.exec_driver_sql("PRAGMA integrity_check").scalars().all()
            found += [] if said == "ok" else [said]
            broken = connection.exec_driver_sql("PRAGMA foreign_key_check").all()
            found += [f"broken reference: {tuple(row)}" for row in broken]
        replay.read_on(connection)
        there = rows_of(connection, replay.tables)
    for key in sorted(there.keys() ^ replay.rows.keys(), key=repr):
        found.append(f"{key} is only in the {'table' if key in there else 'journal'}")
    for key in there.keys() & replay.rows.keys():
        if there[key] != replay.rows[key]:
            found.append(f"{key}: the journal tells {replay.rows[key]}, there is {there[key]}")
    return found
