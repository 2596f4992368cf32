"""Copies of the stash: made, listed, and put back in its place."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from stash import paths
from stash.errors import RefusedError
from stash.store.backups import Backup, asked_name, backups_in, copy_whole
from stash.store.engine import file_of, read_url

if TYPE_CHECKING:
    from pathlib import Path

    from stash.services.stash import Stash

AS_FILES = "kept-{:%Y-%m-%d-%H%M%S}"
"""A copy of a stash on a server: a folder of readable files."""


def back_up(stash: Stash, place: Path | None = None) -> Path:
    """Copy the stash to `place`, by default a dated one in the backup folder; returns it.

    A stash on a server is copied as a folder of readable files, as `stash export --all` does.

    Raises:
        RefusedError: There is something of that name already.
        StoreError: It cannot be written.
    """
    now = datetime.now()
    folder = stash.home / "backups"
    if stash.file is None:
        from stash.services.whole_export import export_all

        place = place or folder / AS_FILES.format(now)
        export_all(stash, place)
        return place
    place = place or folder / asked_name(now)
    if place.exists():
        raise RefusedError(f"There is a {place} already.", "Name a new file.")
    copy_whole(stash.file, place)
    return place


def list_backups(home: Path | None = None) -> tuple[Backup, ...]:
    """The copies in the backup folder, the latest first."""
    return backups_in((home or paths.home()) / "backups")


def restore(place: Path, *, home: Path | None = None, url: str | None = None) -> Path | None:
    """Make the stash what the copy at `place` is; returns where what it replaced is now.

    `place` is a file, or a folder written by `stash export --all`; one in the backup folder
    may be named alone. An older copy is brought up to date.

    Raises:
        NotFoundError: There is no such copy.
        BadInputError: It holds no stash, or is damaged.
        StoreError: It was made by a newer version, or something cannot be written.
        RefusedError: Another program has the stash open, or a file is to go onto a server.
    """
    home = home or paths.home()
    if not place.exists() and (home / "backups" / place.name).exists():
        place = home / "backups" / place.name
    if place.is_dir():
        from stash.services.whole_import import replace_all

        return replace_all(place, home=home, url=url)
    file = file_of(read_url(url or paths.database_url()))
    if file is None:
        raise RefusedError(
            "A file cannot take the place of a stash on a server.",
            "Name a folder written by stash backup or stash export --all.",
        )
    from stash.store.restore import restore_file  # brings Alembic, which is slow

    return restore_file(file, place, datetime.now())
