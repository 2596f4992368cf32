"""Which entries of the journal undo which, and so which of them still count.

An entry, its undo, the undo of that (a redo) and so on are one chain. Each undoes the one
before it, so the last alone can be undone, and every two neighbours leave nothing behind.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import select

from stash.store.tables.record import JournalRow

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sqlalchemy.orm import Session

Chain = list[int]
"""Entries from the first change to the last undo or redo of it, by id."""


class Chains:
    """Every entry by its chain."""

    def __init__(self, links: Iterable[tuple[int, int | None]]) -> None:
        """Take (entry, the entry it undoes), in order of id."""
        self._of: dict[int, Chain] = {}
        self.all: list[Chain] = []
        for entry, undoes in links:
            if undoes is None:
                self._of[entry] = [entry]
                self.all.append(self._of[entry])
            else:
                self._of[entry] = self._of[undoes]
                self._of[entry].append(entry)

    def of(self, entry: int) -> Chain:
        """The chain an entry belongs to."""
        return self._of[entry]

    def undone_by(self, entry: int) -> int | None:
        """The entry that undoes this one, if any."""
        chain = self._of[entry]
        place = chain.index(entry) + 1
        return chain[place] if place < len(chain) else None

    def is_undone(self, entry: int) -> bool:
        """What the entry did does not count now: it was undone, and not done again since."""
        chain = self._of[entry]
        return (len(chain) - chain.index(entry)) % 2 == 0

    def counting_after(self, entry: int) -> list[int]:
        """What changed after `entry` and was not turned back since, newest first.

        Of a chain whose part after `entry` is even nothing is left; of an odd one, what its
        last entry did.
        """
        later = (chain[-1] for chain in self.all if sum(one > entry for one in chain) % 2 == 1)
        return sorted(later, reverse=True)


def stands(chain: Chain) -> bool:
    """The change counts: it was never undone, or done again."""
    return len(chain) % 2 == 1


def read_chains(session: Session) -> Chains:
    """The chains of the whole journal."""
    query = select(JournalRow.id, JournalRow.undoes).order_by(JournalRow.id)
    return Chains((entry, undoes) for entry, undoes in session.execute(query))


def names_of_entries(session: Session) -> dict[int, str]:
    """Who made each entry."""
    return dict(session.execute(select(JournalRow.id, JournalRow.who)).all())
