"""Turning a change back: a new entry of the journal that says which one it undoes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import select

from stash.errors import RefusedError
from stash.store.chains import names_of_entries, read_chains, stands
from stash.store.changes import tell, user_name
from stash.store.journal import get_entry
from stash.store.needed import Later
from stash.store.put_back import put_back
from stash.store.tables.record import JournalRow

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from stash.store.journal import JournalEntry


@dataclass(frozen=True, slots=True)
class Turned:
    """What was turned back: the change it was first of all, and whether it counts `again`."""

    first: JournalEntry
    again: bool


def undo_entry(session: Session, entry_id: int) -> Turned:
    """Turn one entry back.

    An entry that was undone and done again is turned back at its last redo. Raises
    NotFoundError, or RefusedError when it is undone already or when later changes depend on
    it: the message names them.
    """
    # Two who undo the same wait for each other; the second then sees that it is undone.
    session.execute(select(JournalRow.id).where(JournalRow.id == entry_id).with_for_update())
    meant = get_entry(session, entry_id)
    chains = read_chains(session)
    chain = chains.of(entry_id)
    first = get_entry(session, chain[0])
    if chains.is_undone(entry_id):
        raise RefusedError(
            f"“{meant.what}” was undone already, by entry {chains.undone_by(entry_id)}.",
            f"To take that back: stash undo {chain[-1]}.",
        )
    entry, standing = get_entry(session, chain[-1]), stands(chain)
    cannot = "cannot be undone by itself" if standing else "cannot be done again by itself"
    later = Later(session, entry, chains, f"“{first.what}” {cannot}")
    later.refuse_if_needed()
    short = later.shortages()
    for change in reversed(entry.changes):
        put_back(session, change)
    later.refuse_if_short(short)
    tell(session, f"{'undo' if standing else 'redo'}: {first.what}", undoes=entry.id)
    return Turned(first, again=not standing)


def last_change(session: Session) -> int:
    """The entry that an undo turns back: the latest of this person's that counts.

    Raises RefusedError if there is none.
    """
    who, me = names_of_entries(session), user_name(session)
    ends = [chain[-1] for chain in read_chains(session).all if stands(chain)]
    mine = [entry for entry in ends if who[entry] == me]
    if mine:
        return max(mine)
    if not ends:
        raise RefusedError("There is nothing to undo.")
    last = get_entry(session, max(ends))
    raise RefusedError(
        f"Nothing of yours is left to undo; the last change is {last.who}’s: {last.what}.",
        f"To undo it all the same: stash undo {last.id}.",
    )


def last_undone(session: Session) -> int:
    """The undo that a redo turns back: this person's latest since their last new change.

    Raises RefusedError if there is none.
    """
    who, me = names_of_entries(session), user_name(session)
    chains = read_chains(session).all
    newest = max((chain[0] for chain in chains if who[chain[0]] == me), default=0)
    undone = [chain[-1] for chain in chains if not stands(chain)]
    again = [entry for entry in undone if entry > newest and who[entry] == me]
    if again:
        return max(again)
    if not undone:
        raise RefusedError("There is nothing to do again: nothing was undone.")
    raise RefusedError(
        "There is nothing to do again: a new change was made since the last undo.",
        f"To take an undo back all the same, undo it: stash undo {max(undone)}.",
    )
