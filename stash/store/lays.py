"""Laid results, kept so that an unchanged question is answered at once.

They can always be worked out again, so they are not in the journal.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import delete, select
from sqlalchemy.dialects import postgresql, sqlite

from stash.store.changes import UNJOURNALLED
from stash.store.tables.record import LayRow

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from sqlalchemy.orm import Session


def get_lay_text(session: Session, key: str) -> str | None:
    """The text kept under `key`, if any."""
    return session.scalar(select(LayRow.text).where(LayRow.key == key))


def get_lay_texts(session: Session, keys: Iterable[str]) -> dict[str, str]:
    """The texts kept under these keys, of those that are."""
    query = select(LayRow.key, LayRow.text).where(LayRow.key.in_(keys))
    return {row.key: row.text for row in session.execute(query)}


def lay_texts(session: Session, engine: str) -> Iterator[tuple[str, str]]:
    """Key and text of everything this version of the engine laid, a few hundred at a time."""
    query = select(LayRow.key, LayRow.text).where(LayRow.engine == engine)
    for row in session.execute(query).yield_per(500):
        yield row.key, row.text


def put_lay_text(session: Session, key: str, engine: str, text: str) -> None:
    """Keep `text` under `key`, whatever was there; `engine` says which version laid it."""
    on_server = session.get_bind().dialect.name == "postgresql"
    insert = (postgresql.insert if on_server else sqlite.insert)(LayRow)
    query = insert.values(key=key, engine=engine, text=text)
    latest = {"engine": query.excluded.engine, "text": query.excluded.text}
    query = query.on_conflict_do_update(index_elements=["key"], set_=latest)
    session.execute(query, execution_options=UNJOURNALLED)


def clear_lays(session: Session) -> None:
    """Forget every kept result."""
    session.execute(delete(LayRow), execution_options=UNJOURNALLED)


def all_lay_texts(session: Session) -> dict[str, tuple[str, str]]:
    """Every kept result by its key: the engine that laid it, and its text."""
    query = select(LayRow.key, LayRow.engine, LayRow.text)
    return {key: (engine, text) for key, engine, text in session.execute(query)}


def drop_lays(session: Session, keys: Iterable[str]) -> None:
    """Forget the results under these keys."""
    for key in keys:
        session.execute(delete(LayRow).where(LayRow.key == key), execution_options=UNJOURNALLED)
