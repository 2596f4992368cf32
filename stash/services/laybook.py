"""Lays already worked out, kept in the stash so that a question is answered once."""

from __future__ import annotations

from dataclasses import replace
from hashlib import sha256
from typing import TYPE_CHECKING

from stash.lay.exchange import lay_from_json, lay_to_json
from stash.lay.key import ENGINE
from stash.store import lays as store

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from stash.lay.problem import Problem
    from stash.lay.result import Lay
    from stash.services.stash import Stash


NO_LAY = "null"
"""Kept in place of a lay where there is none, so that nobody searches for it again."""

PLACES, AFTER_PLACES = '"placements":', ',"folds":'
"""What stands before and after the placements in the text of a lay."""


_passed: set[tuple[str, str]] = set()
"""Keys and texts that passed the check in this process: it says the same of them every time."""


class StashLays:
    """The lays of a stash, by key; each is read from the database at most once.

    A brief book knows of each lay how long it is and what bounds it, but not where its pieces
    lie. It reads all of them at once and keeps them small: what a whole season asks.
    """

    def __init__(self, stash: Stash, *, brief: bool = False) -> None:
        self._stash = stash
        self._brief = brief
        self._all_read = False
        self._known: dict[str, Lay] = {}
        self._doubted: set[str] = set()
        self._sound: set[str] = set()
        self._hopeless: set[str] = set()

    def get(self, key: str) -> Lay | None:
        """The lay kept under `key`, or None. A kept text that is no lay counts as none."""
        if self._brief and not self._all_read:
            self._read_all()
        elif not self._brief and key not in self._known and key not in self._doubted:
            with self._stash.read() as session:
                self._learn(key, store.get_lay_text(session, key))
        return self._known.get(key)

    def get_all(self, keys: Sequence[str]) -> list[Lay]:
        """The lays kept under these keys, of those that are, read in one go."""
        unread = [key for key in keys if key not in self._known and key not in self._doubted]
        with self._stash.read() as session:
            for key, text in store.get_lay_texts(session, unread).items():
                self._learn(key, text)
        return [self._known[key] for key in keys if key in self._known]

    def _read_all(self) -> None:
        self._all_read = True
        with self._stash.read() as session:
            for key, text in store.lay_texts(session, str(ENGINE)):
                self._learn(key, text)

    def _learn(self, key: str, text: str | None) -> None:
        if text == NO_LAY:
            self._hopeless.add(key)
        elif text is not None:
            try:
                self._known[key] = self._read(text)
            except (ValueError, KeyError, TypeError):
                self._doubted.add(key)

    def _read(self, text: str) -> Lay:
        return lay_from_json(_without_places(text) if self._brief else text)

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
                self._known[key] = replace(lay, placements=()) if self._brief else lay
                self._sound.add(key)

    def is_sound(self, key: str, problem: Problem) -> bool:
        """The independent check passes; asked once of each text read from the database."""
        if key not in self._sound and self._passes(key, problem):
            self._sound.add(key)
        return key in self._sound

    def _passes(self, key: str, problem: Problem) -> bool:
        from stash.lay.check import check  # brings shapely, wanted only once a lay is shown

        with self._stash.read() as session:
            text = store.get_lay_text(session, key) or NO_LAY
        mark = (key, sha256(text.encode()).hexdigest())
        try:
            if self._read(text) != self._known[key]:
                return False  # somebody has replaced it
            if mark not in _passed and check(problem, lay_from_json(text)):
                return False
        except (ValueError, KeyError, TypeError):
            return False
        _passed.add(mark)
        return True

    def doubt(self, key: str) -> None:
        """Use the lay under `key` no more; it is worked out anew and then replaced."""
        self._known.pop(key, None)
        self._doubted.add(key)


def _without_places(text: str) -> str:
    """The text of a lay with no placements in it.

    Neither mark can stand in a name: quotes are escaped there.

    Raises:
        ValueError: It is not the text of a lay.
    """
    head, tail = text.index(PLACES), text.rindex(AFTER_PLACES)
    return f"{text[:head]}{PLACES}[]{text[tail:]}"
