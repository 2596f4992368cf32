"""Freeze a filled stash of the newest revision, for later versions to prove they read it.

Run once after adding a migration: python tests/store/store_freeze.py
"""

from __future__ import annotations

import sqlite3
import tempfile
from contextlib import closing
from pathlib import Path

from store_records import fill

from stash.paths import sqlite_url
from stash.store.store import Store
from stash.store.version import HEAD

FOLDER = Path(__file__).parent / "old_dbs"


def freeze(folder: Path) -> Path:
    """Write `folder`/<revision>.db; a frozen file is never written again."""
    target = folder / f"{HEAD}.db"
    if target.exists():
        raise SystemExit(f"{target} is frozen already.")
    with tempfile.TemporaryDirectory() as work:
        file = Path(work) / "stash.db"
        with Store.open(sqlite_url(file)) as store, store.write("fill the stash") as session:
            fill(session)
        with closing(sqlite3.connect(file)) as connection:
            connection.execute("PRAGMA journal_mode=DELETE")
            connection.execute("PRAGMA page_size=512")  # keeps the repository small
            connection.execute("VACUUM INTO ?", (str(target),))
    return target


if __name__ == "__main__":
    print(f"Frozen: {freeze(FOLDER)}")
