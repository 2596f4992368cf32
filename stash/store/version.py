"""Which revision a stash is at, read without Alembic: importing that costs a visible pause."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING

import sqlalchemy as sa

from stash.errors import StoreError

if TYPE_CHECKING:
    from pathlib import Path

    from sqlalchemy.engine import Engine

HEAD = "b7d1e0935a2c"
"""The newest revision in migrations/versions."""

OTHER_TABLES = "SELECT count(*) FROM sqlite_master WHERE type = 'table'"


def revision_of_file(file: Path) -> str | None:
    """The revision of an SQLite file; None if there is no stash in it yet.

    Raises StoreError if it is a database of some other program; sqlite3.Error if it is none.
    """
    if not file.exists():
        return None
    with closing(sqlite3.connect(file)) as connection:
        named = "SELECT 1 FROM sqlite_master WHERE name = 'alembic_version'"
        if connection.execute(named).fetchone():
            row = connection.execute("SELECT version_num FROM alembic_version").fetchone()
            return None if row is None else str(row[0])
        (tables,) = connection.execute(OTHER_TABLES).fetchone()
    if tables:
        raise StoreError(f"{file} holds the data of another program.", "Choose another file.")
    return None


def revision_of_server(engine: Engine) -> str | None:
    """The revision of a stash on a server; None if there is no stash yet."""
    with engine.connect() as connection:
        if not sa.inspect(connection).has_table("alembic_version"):
            return None
        found = connection.scalar(sa.text("SELECT version_num FROM alembic_version"))
        return None if found is None else str(found)
