"""The stash as a whole: is it empty, empty it, and let new records be numbered rightly."""

from __future__ import annotations

from typing import TYPE_CHECKING

import sqlalchemy as sa

from stash.store.tables.every import metadata

if TYPE_CHECKING:
    from sqlalchemy import Connection
    from sqlalchemy.orm import Session

OWN = ("journal", "lay_result")
"""What the program keeps for itself; everything else was typed by a person."""


def is_empty(session: Session) -> bool:
    """Nobody has typed anything yet."""
    return not any(
        session.execute(sa.select(sa.literal(1)).select_from(table).limit(1)).first()
        for table in metadata.sorted_tables
        if table.name not in OWN
    )


def empty(session: Session) -> None:
    """Remove everything people typed; the journal goes on."""
    connection = session.connection()
    make = metadata.tables["make"]
    connection.execute(make.update().values(muslin_for=None))
    for table in reversed(metadata.sorted_tables):
        if table.name not in OWN:
            connection.execute(table.delete())


def catch_up_numbers(connection: Connection) -> None:
    """After rows came with numbers of their own: count on from the highest.

    SQLite does so by itself.
    """
    if connection.dialect.name != "postgresql":
        return
    for table in metadata.sorted_tables:
        if "id" in table.c:
            highest = sa.select(sa.func.coalesce(sa.func.max(table.c.id), 0)).scalar_subquery()
            counter = sa.func.pg_get_serial_sequence(table.name, "id")
            connection.execute(sa.select(sa.func.setval(counter, highest + 1, False)))
