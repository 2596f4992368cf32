"""Putting a copy of an SQLite stash in the place of the stash itself."""

from __future__ import annotations

import os
import shutil
import sqlite3
from contextlib import closing, suppress
from typing import TYPE_CHECKING

from stash.errors import BadInputError, NotFoundError, RefusedError, StoreError
from stash.paths import make_private, sqlite_url
from stash.store import migrate
from stash.store.backups import copy_whole
from stash.store.engine import plain_failures, read_url
from stash.store.version import HEAD, revision_of_file

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

SIDES = ("-wal", "-shm")
"""What SQLite writes beside a file that is in use."""


def restore_file(file: Path, copy: Path, now: datetime) -> Path | None:
    """Make `file` what `copy` is, brought up to date if it is older.

    Returns where the stash that was replaced lies now; None if there was none.

    Raises:
        NotFoundError: there is no such copy.
        BadInputError: it holds no stash, or is damaged.
        StoreError: it was made by a newer version, or something cannot be written.
        RefusedError: another program has the stash open.
    """
    revision = check_copy(copy)
    ready = file.with_name(f"{file.name}.restored")
    try:
        copy_whole(copy, ready)
        if revision != HEAD:
            with plain_failures():
                migrate.upgrade(read_url(sqlite_url(ready)))
        aside = _set_aside(file, now)
        ready.replace(file)
    except OSError as error:
        raise StoreError(
            f"The stash {file} cannot be replaced: {error.strerror}.", "It is as it was."
        ) from error
    finally:
        for name in ("", *SIDES):
            with suppress(OSError):
                ready.with_name(ready.name + name).unlink()
    return aside


def check_copy(copy: Path) -> str:
    """The revision of a sound copy of a stash. Raises as `restore_file` does."""
    if not copy.is_file():
        raise NotFoundError(f"There is no file {copy}.", "See the copies with: stash backup --list")
    try:
        revision = revision_of_file(copy)
        damage = [] if revision is None else _damage(copy)
    except (sqlite3.Error, StoreError):
        raise BadInputError(f"{copy} is not a stash.", "Name a copy the program made.") from None
    if revision is None:
        raise BadInputError(f"{copy} holds no stash.", "Name a copy the program made.")
    if damage:
        raise BadInputError(f"{copy} is damaged: {damage[0]}.", "Name another copy.")
    migrate.refuse_unknown(revision)
    return revision


def _damage(file: Path) -> list[str]:
    """What SQLite finds wrong with a file."""
    with closing(sqlite3.connect(file)) as connection:
        found = [str(row[0]) for row in connection.execute("PRAGMA integrity_check(5)")]
        loose = connection.execute("PRAGMA foreign_key_check").fetchall()
    lines = [line for line in found if line != "ok"]
    return lines + [f"a row of {row[0]} names a row that is gone" for row in loose]


def _set_aside(file: Path, now: datetime) -> Path | None:
    """Copy the stash to a dated name beside it, with its side files if it is damaged."""
    make_private(file.parent)
    if not file.exists() or not file.stat().st_size:
        return None
    _refuse_if_open(file)
    aside = file.with_name(f"{file.stem}-replaced-{now:%Y-%m-%d-%H%M%S-%f}.db")
    os.close(os.open(aside, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    shutil.copyfile(file, aside)
    for name in SIDES:
        with suppress(FileNotFoundError):
            file.with_name(file.name + name).replace(aside.with_name(aside.name + name))
    return aside


def _refuse_if_open(file: Path) -> None:
    """Leaving the write-ahead log takes being alone, and empties the side files.

    A damaged stash cannot be asked; that is what copies are for.
    """
    try:
        with closing(sqlite3.connect(file, timeout=1)) as connection:
            mode = connection.execute("PRAGMA journal_mode=DELETE").fetchone()[0]
    except sqlite3.OperationalError as error:
        if "locked" not in str(error):
            return
        mode = "wal"
    except sqlite3.DatabaseError:
        return
    if mode != "delete":
        raise RefusedError(
            f"The stash {file} is open in another program.", "Close it there and try again."
        )
