"""The stash itself: where it is kept, its settings, and today's date."""

from __future__ import annotations

import shutil
import tempfile
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Self

from stash import paths
from stash.config import load_settings, save_settings
from stash.errors import StoreError

if TYPE_CHECKING:
    from collections.abc import Callable
    from contextlib import AbstractContextManager

    from sqlalchemy.orm import Session

    from stash.config import Settings
    from stash.store.store import Store


class Stash:
    """An open stash: what every service takes first.

    Close it when done, or use it in a `with` block. It may be used from several threads.
    """

    def __init__(
        self,
        home: Path,
        store: Store,
        settings: Settings,
        *,
        clock: Callable[[], date] = date.today,
        throw_away: bool = False,
    ) -> None:
        self.home = home
        self.settings = settings
        self.throw_away = throw_away
        """A copy that vanishes when it is closed."""
        self.warning = ""
        """What the person should be told on opening; empty: all is well."""
        self._store = store
        self._clock = clock

    @classmethod
    def open(
        cls,
        home: Path | None = None,
        url: str | None = None,
        *,
        clock: Callable[[], date] = date.today,
        mend: str = "",
    ) -> Stash:
        """Open the person's stash, making it on first use.

        Args:
            home: Folder of the stash; default the user's data folder or STASH_HOME.
            url: Database to use; default a file in `home`, or STASH_DB.
            clock: Where today's date comes from.
            mend: Name of a setting that is opened for changing, so that its value may be wrong.

        Raises:
            StoreError: The place or the database cannot be used.
            BadInputError: The settings file cannot be read.
        """
        from stash.store.store import Store

        place = home if home is not None else paths.home()
        try:
            paths.make_private(place)
        except OSError as error:
            raise StoreError(
                f"The folder {place} cannot be made: {error.strerror}.",
                "Name another place with STASH_HOME.",
            ) from error
        if url is None:
            url = paths.database_url() if home is None else paths.sqlite_url(place / "stash.db")
        settings = load_settings(place / "settings.toml", mend)
        store = Store.open(url, place / "backups")
        stash = cls(place, store, settings, clock=clock)
        stash._back_up_daily()
        return stash

    @classmethod
    def sample(cls, *, clock: Callable[[], date] = date.today) -> Stash:
        """A throw-away stash filled from the sample; its folder is removed on close."""
        from stash.services.sample import load_sample

        place = Path(tempfile.mkdtemp(prefix="stash-sample-"))
        try:
            stash = cls.open(place, clock=clock)
            stash.throw_away = True
            load_sample(stash)
        except BaseException:
            shutil.rmtree(place, ignore_errors=True)
            raise
        return stash

    @property
    def place(self) -> str:
        """Where the database is, for showing: without credentials."""
        return self._store.place

    def copy_to(self, url: str) -> tuple[str, dict[str, int]]:
        """Copy everything into the empty database at `url`; see `store.move.copy_to`."""
        from stash.store.move import copy_to

        return copy_to(self._store, url)

    def _back_up_daily(self) -> None:
        """Keep today's copy. That it failed is no reason not to open the stash."""
        now = datetime.combine(self.today(), datetime.now().time())
        try:
            self._store.back_up_daily(self.home / "backups", now)
        except StoreError as error:
            self.warning = f"Today's backup is missing. {error}"

    @property
    def file(self) -> Path | None:
        """The database file, or None where the stash is kept on a server."""
        return self._store.file

    @property
    def own_entries(self) -> set[int]:
        """The journal entries this program wrote since it opened the stash."""
        return self._store.own_entries

    def today(self) -> date:
        """Today's date, from the clock the stash was opened with."""
        return self._clock()

    def read(self) -> AbstractContextManager[Session]:
        """A session that only reads."""
        return self._store.read()

    def write(self, what: str) -> AbstractContextManager[Session]:
        """A session whose changes are one transaction and one line of the journal."""
        return self._store.write(what)

    def keep_settings(self, settings: Settings) -> None:
        """Use these settings from now on, and next time too."""
        save_settings(settings, self.home / "settings.toml")
        self.settings = settings

    def close(self) -> None:
        """Let go of the database; a throw-away stash is removed."""
        self._store.close()
        if self.throw_away:
            shutil.rmtree(self.home, ignore_errors=True)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()
