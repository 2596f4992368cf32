"""Connections: what SQLite must be told every time, and who may write."""

from __future__ import annotations

import logging
import sqlite3
from contextlib import contextmanager, suppress
from pathlib import Path
from random import uniform
from time import monotonic, sleep
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa
from sqlalchemy import event, exc
from sqlalchemy.engine import make_url
from sqlalchemy.pool import NullPool

from stash.errors import RefusedError, StoreError

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sqlalchemy.engine import URL, Connection, Engine

logging.getLogger("sqlalchemy").addHandler(logging.NullHandler())
"""What stops it while it closes a connection is raised too: it need not print it as well."""

WAIT_MS = 10_000
"""How long SQLite itself waits for another program, such as one that copies its side file."""
TURN_S = 30.0
"""How long a writer waits for its turn: a busy machine may let eight others go first."""
LOOK_S = 0.02
"""Longest pause between two looks whether it is one's turn. SQLite's own pauses grow to 0.1 s:
who has waited long looks seldom then, and may never find the file free."""

GAVE_WAY = ("40001", "40P01")
"""What a server says to the one of two writers that must begin again: a conflict of what was
read, or each waiting for the other (PostgreSQL, appendix A, class 40)."""

GIVE = "Give a path, sqlite:///path or postgresql://user@host/name."


def read_url(text: str) -> URL:
    """The database meant by a URL. Raises StoreError for kinds that are not supported."""
    try:
        url = make_url(text)
    except (exc.ArgumentError, ValueError):
        # Without the cause: it may quote a part of the password.
        raise StoreError("The address of the stash cannot be read.", GIVE) from None
    if "@" in (url.host or ""):  # the host would be told, and with it the end of the password
        raise StoreError(
            "The address of the stash cannot be read.",
            "Write an @ in the name or the password as %40.",
        )
    kind = url.get_backend_name()
    if kind == "sqlite" and url.database not in (None, "", ":memory:"):
        return url
    if kind == "postgresql":
        return url.set(drivername="postgresql+psycopg")
    raise StoreError(
        f"A stash cannot be kept in {kind if kind != 'sqlite' else 'memory'}.",
        GIVE,
    )


def masked(url: URL) -> str:
    """Where a stash is kept, for showing: neither who asks, nor how they prove it."""
    if url.get_backend_name() == "sqlite":
        return str(url.database)
    port = f":{url.port}" if url.port else ""
    return f"postgresql://…@{url.host or 'localhost'}{port}/{url.database or ''}"


def file_of(url: URL) -> Path | None:
    """The SQLite file, or None for a server."""
    return Path(url.database or "") if url.get_backend_name() == "sqlite" else None


def everyday_engine(url: URL) -> Engine:
    """The engine for reading and writing: foreign keys are enforced."""
    if file_of(url) is None:
        return _server_engine(url, pool_pre_ping=True)
    return _sqlite_engine(url, foreign_keys=True)


def migration_engine(url: URL) -> Engine:
    """The engine for migrations: one connection, foreign keys off on SQLite.

    A batch migration copies a table and drops the old one; enforced foreign keys would
    then delete the children of every row, silently.
    """
    if file_of(url) is None:
        return _server_engine(url, poolclass=NullPool)
    return _sqlite_engine(url, foreign_keys=False, poolclass=NullPool)


def writing(engine: Engine) -> Engine:
    """The same connections for a writer.

    On SQLite it takes the write lock at once: a reader that turns writer half-way fails
    instead of waiting its turn.
    """
    return engine.execution_options(sqlite_begin="IMMEDIATE")


def reading(engine: Engine) -> Engine:
    """The same connections for a reader who sees one moment, however long it reads."""
    if engine.dialect.name == "sqlite":  # a deferred transaction already does
        return engine
    return engine.execution_options(isolation_level="REPEATABLE READ")


@contextmanager
def plain_failures() -> Iterator[None]:
    """Turn what a database can say into errors for the person."""
    try:
        yield
    except exc.IntegrityError as error:
        raise RefusedError(
            "This names something that is gone, or removes something still needed.",
            "Look at it again and repeat your change.",
        ) from error
    except (exc.DBAPIError, exc.TimeoutError, sqlite3.Error) as error:
        said = str(getattr(error, "orig", None) or error).strip().partition("\n")[0]
        if getattr(getattr(error, "orig", None), "sqlstate", None) in GAVE_WAY:
            raise RefusedError(
                "Someone else changed the same things at the same moment, and yours gave way: "
                "nothing of it is kept.",
                "Do it once more.",
            ) from error
        if "locked" in said:
            raise StoreError(
                "The stash is busy: another program is writing to it.", "Try again in a moment."
            ) from error
        raise StoreError(
            f"The stash cannot be read or written: {said}.", _hint_for(said)
        ) from error


def _hint_for(said: str) -> str:
    """What to do about the few things a disk says."""
    if "disk is full" in said or "disk I/O error" in said:
        return "Nothing was changed. The disk is full or failing: make room and try again."
    if "readonly" in said or "read-only" in said:
        return "Nothing was changed. Make the folder writable, or name another with STASH_HOME."
    if "malformed" in said or "not a database" in said:
        return "Put a copy in its place: stash backup --list, then stash restore FILE."
    if "connection failed" in said:
        return "Is the server there, and does it know you? Its address stands in STASH_DB."
    if "connection" in said:
        return "If you were changing something, look whether it is kept: stash history"
    return ""


def _server_engine(url: URL, **options: Any) -> Engine:
    try:
        return sa.create_engine(url, **options)
    except ImportError as error:
        raise StoreError(
            "A stash on a PostgreSQL server needs one more package.",
            "Install it with: pip install 'fabric-stash[postgres]'",
        ) from error


def _take_turn(connection: Connection) -> None:
    """Begin as the only writer, as soon as those before are done."""
    raw: Any = connection.connection.dbapi_connection
    until = monotonic() + TURN_S
    raw.execute("PRAGMA busy_timeout=0")
    try:
        while True:
            try:
                raw.execute("BEGIN IMMEDIATE")
                return
            except sqlite3.OperationalError as error:
                if "locked" not in str(error) or monotonic() > until:
                    raise
            sleep(uniform(0, LOOK_S))
    finally:
        raw.execute(f"PRAGMA busy_timeout={WAIT_MS}")


def _sqlite_engine(url: URL, *, foreign_keys: bool, **options: Any) -> Engine:
    engine = sa.create_engine(url, **options)

    def on_connect(connection: sqlite3.Connection, record: object) -> None:
        connection.isolation_level = None  # the begin below is ours: DDL then rolls back too
        connection.execute(f"PRAGMA busy_timeout={WAIT_MS}")
        connection.execute(f"PRAGMA foreign_keys={'ON' if foreign_keys else 'OFF'}")
        connection.execute("PRAGMA synchronous=NORMAL")
        # Kept in the file, but a restored copy has lost it. Switching does not wait for
        # others; one who is here already switches or has switched.
        with suppress(sqlite3.OperationalError):
            connection.execute("PRAGMA journal_mode=WAL")

    def on_begin(connection: Connection) -> None:
        if connection.get_execution_options().get("sqlite_begin") == "IMMEDIATE":
            _take_turn(connection)
        else:
            connection.exec_driver_sql("BEGIN DEFERRED")

    event.listen(engine, "connect", on_connect)
    event.listen(engine, "begin", on_begin)
    return engine
