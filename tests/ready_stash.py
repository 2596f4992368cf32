"""A stash filled once, in a file or on a server, and copied for every test that changes it."""

from __future__ import annotations

import shutil
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from server_kit import fresh_database, name_of

from stash.services.stash import Stash

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

TODAY = date(2026, 10, 1)


def clock() -> date:
    """The same day in every test."""
    return TODAY


@dataclass(frozen=True)
class Ready:
    """Never open it, copy it."""

    home: Path
    database: str = ""
    """Its name on the server; empty: the stash is a file in `home`."""

    @contextmanager
    def copy(self, home: Path) -> Iterator[Stash]:
        """A copy of its own at `home`, open; on a server it is dropped at the end."""
        shutil.copytree(self.home, home, dirs_exist_ok=True)
        with ExitStack() as stack:
            url = None
            if self.database:
                url = stack.enter_context(fresh_database(self.database))
            yield stack.enter_context(Stash.open(home, url, clock=clock))


@contextmanager
def filled(backend: str, home: Path, fill: Callable[[Stash], object]) -> Iterator[Ready]:
    """A stash made at `home` and filled; on a server its database is dropped at the end."""
    with ExitStack() as stack:
        url = stack.enter_context(fresh_database()) if backend == "postgresql" else None
        with Stash.open(home, url, clock=clock) as stash:
            fill(stash)
        yield Ready(home, name_of(url) if url else "")


@contextmanager
def moved(backend: str, ready: Ready, home: Path) -> Iterator[Stash]:
    """A copy of a stash that is a file, open; on a server what took long is not done again."""
    with ready.copy(home) as stash:
        if backend == "sqlite":
            yield stash
            return
        with fresh_database() as url:
            stash.copy_to(url)
            with Stash.open(home, url, clock=clock) as there:
                yield there


def address(stash: Stash) -> str:
    """The URL of an open stash."""
    return stash._store.engine.url.render_as_string(hide_password=False)
