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

    def get(self, key: str) -> Lay | None:
        """The lay kept under `key`, or None."""
        if key not in self._known:
            with self._stash.read() as session:
                text = store.get_lay_text(session, key)
            if text is None:
                return None
            self._known[key] = lay_from_json(text)
        return self._known[key]

    def put(self, key: str, lay: Lay) -> None:
        """Keep a lay."""
        self.put_all([(key, lay)])

    def put_all(self, found: Iterable[tuple[str, Lay]]) -> None:
        """Keep several lays in one go."""
        found = list(found)
        with self._stash.write("keep lays") as session:
            for key, lay in found:
                store.put_lay_text(session, key, ENGINE, lay_to_json(lay))
        self._known.update(found)


def is_legal(problem: Problem, lay: Lay) -> bool:
    """The independent check passes: asked again of every kept lay before it is shown."""
    from stash.lay.check import check

    return not check(problem, lay)
