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


class StashLays:
    """The lays of a stash, by key; each is read from the database at most once."""

    def __init__(self, stash: Stash) -> None:
        self._stash = stash
        self._known: dict[str, Lay] = {}
        self._doubted: set[str] = set()
        self._sound: set[str] = set()

    def get(self, key: str) -> Lay | None:
        """The lay kept under `key`, or None. A kept text that is no lay counts as none."""
        if key not in self._known and key not in self._doubted:
            with self._stash.read() as session:
                text = store.get_lay_text(session, key)
            try:
                if text is not None:
                    self._known[key] = lay_from_json(text)
            except (ValueError, KeyError, TypeError):
                self._doubted.add(key)
        return self._known.get(key)

    def put(self, key: str, lay: Lay) -> None:
        """Keep a lay."""
        self.put_all([(key, lay)])

    def put_all(self, found: Iterable[tuple[str, Lay]]) -> None:
        """Keep several lays in one go."""
        found = list(found)
        if not found:
            return
        with self._stash.write("keep lays") as session:
            for key, lay in found:
                store.put_lay_text(session, key, str(ENGINE), lay_to_json(lay))
        self._known.update(found)
        self._sound.update(key for key, _ in found)

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
