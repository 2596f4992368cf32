"""Lays already worked out, kept in the stash so that a question is answered once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.lay.exchange import lay_from_json, lay_to_json
from stash.lay.key import ENGINE
from stash.store import lays as store

if TYPE_CHECKING:
    from collections.abc import Iterable

    from stash.lay.problem import Problem
    from stash.lay.result import Lay
    from stash.services.stash import Stash


NO_LAY = "null"
"""Kept in place of a lay where there is none, so that nobody searches for it again."""


class StashLays:
    """The lays of a stash, by key; each is read from the database at most once."""

    def __init__(self, stash: Stash) -> None:
        self._stash = stash
        self._known: dict[str, Lay] = {}
        self._doubted: set[str] = set()
        self._sound: set[str] = set()
        self._hopeless: set[str] = set()

    def get(self, key: str) -> Lay | None:
        """The lay kept under `key`, or None. A kept text that is no lay counts as none."""
        if key not in self._known and key not in self._doubted:
            with self._stash.read() as session:
                text = store.get_lay_text(session, key)
            if text == NO_LAY:
                self._hopeless.add(key)
                return None
            try:
                if text is not None:
                    self._known[key] = lay_from_json(text)
            except (ValueError, KeyError, TypeError):
                self._doubted.add(key)
        return self._known.get(key)

    def is_hopeless(self, key: str) -> bool:
        """A search found that there is no such lay; asked after `get` found none."""
        return key in self._hopeless

    def put(self, key: str, lay: Lay) -> None:
        """Keep a lay."""
        self.put_all([(key, lay)])

    def put_all(self, found: Iterable[tuple[str, Lay | None]]) -> None:
        """Keep several lays in one go; None: there is no lay under this key."""
        found = list(found)
        if not found:
            return
        with self._stash.write("keep lays") as session:
            for key, lay in found:
                text = NO_LAY if lay is None else lay_to_json(lay)
                store.put_lay_text(session, key, str(ENGINE), text)
        for key, lay in found:
            if lay is None:
                self._hopeless.add(key)
            else:
                self._known[key] = lay
                self._sound.add(key)

    def is_sound(self, key: str, problem: Problem) -> bool:
        """The independent check passes; asked once of each lay read from the database."""
        from stash.lay.check import check  # brings shapely, wanted only once a lay is shown

        if key not in self._sound and not check(problem, self._known[key]):
            self._sound.add(key)
        return key in self._sound

    def doubt(self, key: str) -> None:
        """Use the lay under `key` no more; it is worked out anew and then replaced."""
        self._known.pop(key, None)
        self._doubted.add(key)
