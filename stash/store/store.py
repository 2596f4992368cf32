"""The stash's database: opened, brought up to date, read and written."""

from __future__ import annotations

import os
from contextlib import contextmanager
from typing import TYPE_CHECKING, Self

from sqlalchemy.orm import Session, sessionmaker

from stash.errors import StoreError
from stash.paths import backup_dir, make_private
from stash.store import backups as copies
from stash.store.changes import JournalledSession, start_noting
from stash.store.engine import (
    everyday_engine,
    file_of,
    masked,
    plain_failures,
    read_url,
    reading,
    writing,
)
from stash.store.version import HEAD, revision_of_file, revision_of_server

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import datetime
    from pathlib import Path
    from types import TracebackType

    from sqlalchemy.engine import URL, Engine


class Store:
    """One open database. Safe to use from several threads; a session is not."""

    def __init__(self, engine: Engine, file: Path | None) -> None:
        self.engine = engine
        self.file = file
        """The SQLite file, or None on a server."""
        self.own_entries: set[int] = set()
        """The journal entries written through this object."""
        self.place = masked(engine.url)
        """Where the stash is kept, for showing: without credentials."""
        self._reader = sessionmaker(
            reading(engine), class_=JournalledSession, expire_on_commit=False
        )
        self._writer = sessionmaker(
            writing(engine), class_=JournalledSession, expire_on_commit=False
        )

    @classmethod
    def open(cls, url: str, backups: Path | None = None) -> Store:
        """Open the stash at an SQLAlchemy URL; made on first use, brought up to date if older.

        An SQLite file is copied into `backups` (by default the backup folder of the stash)
        before its tables change. Raises StoreError if it cannot be opened, belongs to another
        program, or was made by a newer version of this one.
        """
        address = read_url(url)
        store = cls(everyday_engine(address), file_of(address))
        try:
            with plain_failures():
                store._bring_up(address, backups)
        except BaseException:
            store.close()
            raise
        return store

    def _bring_up(self, address: URL, backups: Path | None) -> None:
        if self.file is None:
            _bring_server_up(address, self.engine)
        else:
            _bring_file_up(address, self.file, backups)

    def back_up_daily(self, folder: Path, now: datetime) -> copies.Backup | None:
        """Keep a copy in `folder` on the first use of a day, if anything has changed.

        A server keeps its own. Raises StoreError if the copy cannot be written.
        """
        return None if self.file is None else copies.daily(self.file, folder, HEAD, now)

    @contextmanager
    def read(self) -> Iterator[Session]:
        """A session that sees one moment of the stash and changes nothing."""
        with plain_failures(), self._reader() as session:
            yield session

    @contextmanager
    def write(self, what: str) -> Iterator[Session]:
        """A session for one change, told in words by `what`: all of it is kept, or nothing."""
        with plain_failures(), self._writer() as session, session.begin():
            start_noting(session, what, self.own_entries)
            yield session

    def close(self) -> None:
        """Let go of the database."""
        self.engine.dispose()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()


def _bring_file_up(address: URL, file: Path, backups: Path | None) -> None:
    _make_private(file)
    revision = revision_of_file(file)
    if revision == HEAD:
        return
    from stash.store import migrate  # Alembic: slow to import, and seldom needed

    if revision is not None:
        migrate.refuse_unknown(revision)
        migrate.back_up(file, revision, backups or backup_dir())
    migrate.upgrade(address)


def _bring_server_up(address: URL, engine: Engine) -> None:
    revision = revision_of_server(engine)
    if revision == HEAD:
        return
    from stash.store import migrate  # Alembic: slow to import, and seldom needed

    if revision is not None:
        migrate.refuse_unknown(revision)
    migrate.upgrade(address)


def _make_private(file: Path) -> None:
    """Make the file, if there is none, and its folder, for this user's eyes only."""
    try:
        make_private(file.parent)
        os.close(os.open(file, os.O_CREAT | os.O_RDWR, 0o600))
    except OSError as error:
        raise StoreError(
            f"The stash {file} cannot be opened: {error.strerror}.",
            "Name another place with STASH_HOME or STASH_DB.",
        ) from error
