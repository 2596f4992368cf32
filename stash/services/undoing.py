"""Undo and redo, across restarts: each is a change of its own and stands in the history."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.services.history import told
from stash.store.journal import noted
from stash.store.record_names import kept_names
from stash.store.undo import last_change, last_undone, undo_entry

if TYPE_CHECKING:
    from collections.abc import Callable

    from sqlalchemy.orm import Session

    from stash.services.change_words import RowChange
    from stash.services.stash import Stash


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnedBack:
    """What an undo or a redo did, or would do."""

    what: str
    """The change that was undone or done again, in words."""
    again: bool
    """It was a redo, or the undo of an undo."""
    rows: tuple[RowChange, ...]

    @property
    def sentence(self) -> str:
        """Such as `Undone: cut rain trousers.`"""
        return f"{'Done again' if self.again else 'Undone'}: {self.what}."


class _RehearsedError(Exception):
    """Ends a rehearsal, so that nothing of it is kept."""


def undo(stash: Stash, entry: int | None = None, *, dry_run: bool = False) -> TurnedBack:
    """Turn back a change: the person's last one that counts, or the one given.

    Args:
        stash: The stash.
        entry: Its number in the history.
        dry_run: Only say what would change.

    Raises:
        RefusedError: Later changes depend on it, or there is nothing to undo.
        NotFoundError: There is no such entry.
    """
    return _turn_back(stash, last_change if entry is None else lambda _: entry, dry_run=dry_run)


def redo(stash: Stash, *, dry_run: bool = False) -> TurnedBack:
    """Do again what was undone last, unless something new was changed since.

    Raises:
        RefusedError: There is nothing to do again.
    """
    return _turn_back(stash, last_undone, dry_run=dry_run)


def _turn_back(stash: Stash, choose: Callable[[Session], int], *, dry_run: bool) -> TurnedBack:
    """A rehearsal is the real thing, given up at the end: it finds every reason to refuse."""
    done: list[TurnedBack] = []
    try:
        with stash.write("undo") as session:
            names = kept_names(session)
            turned = undo_entry(session, choose(session))
            rows = told(stash, noted(session), kept_names(session) | names)
            done.append(TurnedBack(what=turned.first.what, again=turned.again, rows=rows))
            if dry_run:
                raise _RehearsedError
    except _RehearsedError:
        pass
    return done[0]
