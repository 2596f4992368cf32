"""Where the stash lives: data, backups, and the files that travel with the program."""

from __future__ import annotations

import os
from pathlib import Path

from stash.errors import BadInputError


def home() -> Path:
    """The folder of the stash: `STASH_HOME`, else the system's folder for a user's data."""
    named = os.environ.get("STASH_HOME", "")
    if named:
        return Path(named).expanduser().absolute()
    import platformdirs  # only here: most starts name neither home nor database

    return platformdirs.user_data_path("stash", appauthor=False)


def database_url() -> str:
    """The database as an SQLAlchemy URL: `STASH_DB` (a path or a URL), else a file in `home()`."""
    named = os.environ.get("STASH_DB", "")
    if "://" in named:
        return named
    return sqlite_url(Path(named) if named else home() / "stash.db")


def sqlite_url(path: Path) -> str:
    """The SQLAlchemy URL of an SQLite file.

    Raises:
        BadInputError: the path holds a question mark, which a URL cannot carry.
    """
    full = path.expanduser().absolute().as_posix()
    if "?" in full:
        raise BadInputError(
            f"The database path {full} has a question mark in it.",
            "Choose a path without one.",
        )
    return f"sqlite:///{full}"


def backup_dir() -> Path:
    """Where copies of the database are kept; it need not exist."""
    return home() / "backups"


def make_private(folder: Path) -> None:
    """Make `folder` and the folders above it that are missing, each for this user only.

    Raises:
        OSError: it cannot be made.
    """
    if folder.is_dir():
        return
    make_private(folder.parent)
    folder.mkdir(mode=0o700, exist_ok=True)


def sample_dir() -> Path:
    """The sample stash: plain files that travel with the program."""
    return _travelling("sample_stash")


def migrations_dir() -> Path:
    """The scripts that bring an older database up to date."""
    return _travelling("migrations")


def _travelling(name: str) -> Path:
    """A folder inside the package when installed from a wheel, beside it in a checkout."""
    package = Path(__file__).parent
    inside = package / name
    return inside if inside.is_dir() else package.parent / name
