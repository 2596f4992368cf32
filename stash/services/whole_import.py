"""Making a stash again from the folder `services.whole_export` wrote."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from stash import paths
from stash.config import load_settings
from stash.errors import RefusedError
from stash.intake.file_bytes import file_bytes
from stash.intake.stash_folder import read_stash_folder
from stash.services.sample import keep_files, told
from stash.services.stash import Stash
from stash.services.whole_export import export_all
from stash.store import whole

if TYPE_CHECKING:
    from pathlib import Path

    from sqlalchemy.orm import Session

    from stash.config import Settings
    from stash.intake.stash_folder import StashFiles

_MOST_SETTINGS = 1_000_000
"""Bytes."""


def import_all(stash: Stash, folder: Path) -> tuple[tuple[int, str], ...]:
    """Read a whole stash into an empty one, settings and all; everything keeps its number.

    Returns how many of what were read, as (number, noun in the singular).

    Raises:
        BadInputError: With every problem, each with its file and row; nothing is kept then.
        RefusedError: The stash is not empty.
    """
    files = read_stash_folder(folder)
    settings = _settings(folder)
    with stash.write(f"read the whole stash in {folder.name}") as session:
        if not whole.is_empty(session):
            raise RefusedError(
                "This stash is not empty.",
                "Name an empty one with STASH_HOME, or replace this one: stash restore FOLDER",
            )
        _keep(session, files)
    stash.keep_settings(settings)
    return told(files)


def replace_all(folder: Path, *, home: Path | None = None, url: str | None = None) -> Path:
    """Make the stash what the folder holds; returns the folder what it replaces was written to.

    Raises:
        BadInputError: The folder cannot be read; nothing is changed then.
    """
    files = read_stash_folder(folder)
    settings = _settings(folder)
    with Stash.open(home if url is None and home != paths.home() else None, url) as stash:
        aside = (home or paths.home()) / f"replaced-{datetime.now():%Y-%m-%d-%H%M%S}"
        export_all(stash, aside)
        with stash.write(f"restore the stash in {folder.name}") as session:
            whole.empty(session)
            _keep(session, files)
        stash.keep_settings(settings)
    return aside


def _settings(folder: Path) -> Settings:
    path = folder / "settings.toml"
    if path.exists():
        # Looked at first: a pipe in its place would never end.
        file_bytes(path, _MOST_SETTINGS, "Keep only the settings in it.")
    return load_settings(path)


def _keep(session: Session, files: StashFiles) -> None:
    keep_files(session, files, numbers=True)
    whole.catch_up_numbers(session.connection())
