"""Copies of an SQLite stash: made whole or not at all, and thinned out as they grow old.

Only plain sqlite3 is needed here, so that looking for today's copy costs nothing at start.
"""

from __future__ import annotations

import os
import re
import sqlite3
from contextlib import closing, suppress
from dataclasses import dataclass
from datetime import date, datetime
from typing import TYPE_CHECKING

from stash.errors import StoreError
from stash.paths import make_private

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

DAILY, MONTHLY = 14, 12
"""Days and months of which one automatic copy each is kept."""

_MADE_BY_ITSELF = re.compile(r"stash-[0-9a-f]+-(\d{4}-\d\d-\d\d-\d{6}-\d{6})\.db")
_ASKED_FOR = re.compile(r"kept-(\d{4}-\d\d-\d\d-\d{6}-\d{6})\.db")
_MOMENT = "%Y-%m-%d-%H%M%S-%f"


@dataclass(frozen=True, slots=True)
class Backup:
    """One copy in the backup folder. Only those made `by_itself` are ever thinned out."""

    file: Path
    made: datetime
    by_itself: bool
    size: int
    """Bytes."""


def backups_in(folder: Path) -> tuple[Backup, ...]:
    """The copies in `folder`, the latest first; other files there are passed over."""
    found = []
    for file in folder.glob("*.db") if folder.is_dir() else ():
        own = _MADE_BY_ITSELF.fullmatch(file.name)
        named = own or _ASKED_FOR.fullmatch(file.name)
        made = _moment(named[1]) if named else None
        if made is not None:
            found.append(Backup(file, made, own is not None, file.stat().st_size))
    return tuple(sorted(found, key=lambda one: (one.made, one.file.name), reverse=True))


def own_name(revision: str, now: datetime) -> str:
    """The name of a copy the program makes by itself."""
    return f"stash-{revision}-{now:{_MOMENT}}.db"


def asked_name(now: datetime) -> str:
    """The name of a copy somebody asked for."""
    return f"kept-{now:{_MOMENT}}.db"


def copy_whole(file: Path, copy: Path) -> None:
    """Copy the stash in `file` to `copy`: for its owner only, all of it or nothing.

    VACUUM INTO also takes what is still in the side files of the database.

    Raises:
        StoreError: it cannot be written, or `file` cannot be read.
    """
    half = copy.with_name(f"{copy.name}.{os.getpid()}.new")
    try:
        make_private(copy.parent)
        with suppress(FileNotFoundError):
            half.unlink()
        os.close(os.open(half, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
        with closing(sqlite3.connect(file)) as connection:
            connection.execute("VACUUM INTO ?", (str(half),))
        half.replace(copy)
    except (OSError, sqlite3.Error) as error:
        with suppress(OSError):
            half.unlink()
        said = error.strerror if isinstance(error, OSError) else error
        raise StoreError(
            f"The copy {copy} cannot be written: {said}.",
            "Make room, or name another place.",
        ) from error


def daily(file: Path, folder: Path, revision: str, now: datetime) -> Backup | None:
    """Copy the stash if there is no copy of today yet and it has changed since the last one.

    Afterwards old copies are thinned out. Returns the new copy, or None.

    Raises:
        StoreError: the copy cannot be written; the stash itself is as it was.
    """
    there = backups_in(folder)
    if any(one.made.date() == now.date() for one in there):
        return None
    last = _last_change(file)
    if last is None or (there and _last_change(there[0].file) == last):
        return None
    copy = folder / own_name(revision, now)
    copy_whole(file, copy)
    thin_out(folder, now.date())
    return Backup(copy, now, by_itself=True, size=copy.stat().st_size)


def thin_out(folder: Path, today: date) -> tuple[Backup, ...]:
    """Remove the automatic copies nobody needs any more; returns them."""
    own = {one.made: one for one in backups_in(folder) if one.by_itself}
    gone = tuple(own[made] for made in sorted(own.keys() - to_keep(own, today)))
    for one in gone:
        with suppress(FileNotFoundError):  # another program was quicker
            one.file.unlink()
    return gone


def to_keep(made: Iterable[datetime], today: date) -> set[datetime]:
    """Which of the copies made at these moments stay.

    All of today and later; the last of each of the 14 latest days that have one, and the
    last of each of the 12 latest months that have one.
    """
    kept = set()
    days: dict[date, datetime] = {}
    months: dict[tuple[int, int], datetime] = {}
    for moment in sorted(made):
        if moment.date() >= today:
            kept.add(moment)
        days[moment.date()] = moment
        months[moment.year, moment.month] = moment
    kept |= {days[day] for day in sorted(days)[-DAILY:]}
    return kept | {months[month] for month in sorted(months)[-MONTHLY:]}


def _moment(text: str) -> datetime | None:
    try:
        return datetime.strptime(text, _MOMENT)
    except ValueError:
        return None


def _last_change(file: Path) -> tuple[int, str] | None:
    """Number and moment of the journal's last line; None if there is none, or it is unreadable."""
    query = "SELECT id, at FROM journal ORDER BY id DESC LIMIT 1"
    try:
        with closing(sqlite3.connect(file)) as connection:
            row = connection.execute(query).fetchone()
    except sqlite3.Error:
        return None
    return None if row is None else (int(row[0]), str(row[1]))
