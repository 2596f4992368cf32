"""Bringing a stash up to date. The only importer of Alembic, itself imported when needed."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa
from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from alembic.util import CommandError

from stash.errors import StoreError
from stash.paths import migrations_dir
from stash.store.backups import copy_whole, own_name
from stash.store.engine import migration_engine, writing
from stash.store.tables.every import metadata

if TYPE_CHECKING:
    from pathlib import Path

    from sqlalchemy.engine import URL, Connection

SERVER_LOCK = 7_378_401
"""Any number of our own: two programs bringing one server up to date take turns."""


def config(connection: Connection | None = None) -> Config:
    """Alembic's configuration, made here because pyproject.toml does not travel in a wheel."""
    made = Config()
    made.set_main_option("script_location", str(migrations_dir()).replace("%", "%%"))
    made.attributes["connection"] = connection
    return made


def upgrade(url: URL, revision: str = "head") -> None:
    """Bring the tables to `revision`: all of it, or nothing if anything fails."""
    _run(url, revision, up=True)


def downgrade(url: URL, revision: str) -> None:
    """Bring the tables back to an older `revision`."""
    _run(url, revision, up=False)


def refuse_unknown(revision: str) -> None:
    """Raise StoreError for a revision this program has never heard of."""
    try:
        ScriptDirectory.from_config(config()).get_revision(revision)
    except CommandError as error:
        raise StoreError(
            "This stash was made by a newer version of the program.",
            "Update the program: pip install --upgrade fabric-stash",
        ) from error


def drift(connection: Connection) -> tuple[str, ...]:
    """Where the tables are not what this version of the program expects, in words."""
    context = MigrationContext.configure(connection, opts={"compare_type": True})
    return tuple(_told(one) for one in compare_metadata(context, metadata))


def _told(difference: Any) -> str:
    """One difference Alembic found: a tuple, or a list of them for the changes of one column."""
    first = difference[0] if isinstance(difference, list) else difference
    names = [str(getattr(part, "name", part)) for part in first[1:] if part is not None]
    return f"{str(first[0]).replace('_', ' ')}: {', '.join(names[:4])}"


def back_up(file: Path, revision: str, folder: Path) -> Path:
    """Copy a stash into `folder` before it is changed; returns the copy."""
    copy = folder / own_name(revision, datetime.now())
    copy_whole(file, copy)
    return copy


def _run(url: URL, revision: str, *, up: bool) -> None:
    engine = writing(migration_engine(url))
    move = command.upgrade if up else command.downgrade
    with engine.connect() as connection, connection.begin():
        if connection.dialect.name == "postgresql":
            connection.execute(sa.text(f"SELECT pg_advisory_xact_lock({SERVER_LOCK})"))
        move(config(connection), revision)
        if connection.dialect.name == "sqlite":
            _check_references(connection)


def _check_references(connection: Connection) -> None:
    """Foreign keys were off: make sure none points nowhere before anything is kept."""
    broken = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
    if broken:
        tables = ", ".join(sorted({str(row[0]) for row in broken}))
        raise StoreError(
            f"The stash was not brought up to date: rows in {tables} name rows that are gone.",
            "Nothing was changed. Please report this with a copy of the stash.",
        )
