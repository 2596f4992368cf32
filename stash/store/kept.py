"""Finding, changing and removing kept rows, the same for every noun."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, TypeVar

from sqlalchemy import select

from stash.errors import NotFoundError, RefusedError

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from sqlalchemy.orm import Session
    from sqlalchemy.orm.interfaces import ORMOption

    from stash.store.tables.base import Kept, Named

K = TypeVar("K", bound="Kept")
T = TypeVar("T")


class StaleError(RefusedError):
    """The record was changed since it was read."""


class SeveralError(NotFoundError):
    """What was typed is the name, or a part of it, of more than one record."""


SHOWN = 8
"""How many candidates a message lists."""


def missing(noun: str, kept_id: int) -> NotFoundError:
    """The error for an id that nothing has."""
    return NotFoundError(f"There is no {noun} number {kept_id}.", f"List the {noun}s to see them.")


def new_row(row: type[K], record: Any, *, numbered: bool) -> K:
    """A row for a new record; with `numbered` under the number the record has."""
    return row(version=1, id=record.id) if numbered and record.id else row(version=1)


def locked(session: Session, row: type[K], noun: str, kept_id: int, *loads: ORMOption) -> K:
    """One row to change or remove, with the children named by `loads`.

    On a shared server it stays locked until the transaction ends; on SQLite the whole
    file is. Raises NotFoundError.
    """
    query = select(row).where(row.id == kept_id).options(*loads).with_for_update()
    found = session.scalars(query.execution_options(populate_existing=True)).one_or_none()
    if found is None:
        raise missing(noun, kept_id)
    return found


def to_change(session: Session, row: type[K], noun: str, record: Any, *loads: ORMOption) -> K:
    """The row of `record`, its version raised, if nobody changed it since `record` was read.

    Raises NotFoundError when it was removed, StaleError when it was changed.
    """
    found = locked(session, row, noun, record.id, *loads)
    if found.version != record.version:
        name = getattr(record, "name", "")
        raise StaleError(
            f"The {noun} {name or record.id} was changed meanwhile by someone else; "
            "nothing of yours is kept.",
            "Look at it again and repeat your change. What they did: stash history --changes",
        )
    found.version += 1
    return found


def numbered(record: T, row: Kept) -> T:
    """The record as it is kept now: with the id and version of its row."""
    changed: Any = record
    kept: T = replace(changed, id=row.id, version=row.version)
    return kept


def find_id(session: Session, row: type[Named], noun: str, ref: str, *, hold: bool = False) -> int:
    """The id meant by `ref`: an id, else a whole name, else a part that only one name has.

    An older stash may hold a name that is only digits: it is found so while no id is the same,
    and else by its own id. Nobody can give such a name any more.

    With `hold` nobody else changes it until the transaction ends, so that what is read next
    is what will be changed. Raises NotFoundError, listing what it could have been.
    """
    found = _id_meant(session, row, noun, ref)
    if hold:
        locked(session, row, noun, found)
    return found


def _id_meant(session: Session, row: type[Named], noun: str, ref: str) -> int:
    word = ref.strip().casefold()
    known = [(kept_id, name) for kept_id, name in session.execute(select(row.id, row.name))]
    if not word:
        raise NotFoundError(f"Which {noun}?", "Type its number, its name or a part of the name.")
    for found in (
        [pair for pair in known if str(pair[0]) == word],
        [pair for pair in known if pair[1].casefold() == word],
        [pair for pair in known if word in pair[1].casefold()],
    ):
        if len(found) == 1:
            return int(found[0][0])
        if found:
            raise SeveralError(
                f"More than one {noun} is called “{ref.strip()}”: {_listed(found)}.",
                "Type more of the name, or its number.",
            )
    raise NotFoundError(
        f"There is no {noun} called “{ref.strip()}”.", nearest((noun,), [n for _, n in known], word)
    )


def refuse_if_used(what: str, users: Iterable[str], hint: str) -> None:
    """Raise RefusedError naming the `users` of what is to be removed, if there are any."""
    names = sorted(users)
    if names:
        raise RefusedError(f"{what}: {_shortened(names)}.", hint)


def _listed(pairs: list[tuple[int, str]]) -> str:
    ordered = sorted(pairs, key=lambda pair: (pair[1].casefold(), pair[0]))
    return _shortened([f"{name} (number {kept_id})" for kept_id, name in ordered])


def _shortened(names: list[str]) -> str:
    more = len(names) - SHOWN
    return ", ".join(names[:SHOWN]) + (f" and {more} more" if more > 0 else "")


def nearest(nouns: Sequence[str], known: Iterable[str], word: str) -> str:
    """What to type instead of a word that is no name of these nouns: the names that are near."""
    by_word = {name.casefold(): name for name in known}
    if not by_word:
        return f"No {' or '.join(nouns)} is kept yet."
    from difflib import get_close_matches  # only on the way to an error

    near = get_close_matches(word.casefold(), by_word, n=3, cutoff=0.5)
    if near:
        return f"Did you mean {' or '.join(by_word[match] for match in near)}?"
    return f"List the {' or the '.join(f'{noun}s' for noun in nouns)} to see them."
