"""Copying a whole stash from one database to another, of either kind."""

from __future__ import annotations

import hashlib
from collections import Counter
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from stash.errors import RefusedError, StoreError
from stash.store.engine import (
    masked,
    migration_engine,
    plain_failures,
    read_url,
    reading,
    writing,
)
from stash.store.store import Store
from stash.store.tables.every import metadata
from stash.store.whole import catch_up_numbers

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sqlalchemy.engine import Connection

AT_ONCE = 500
"""Rows written with one statement."""


def copy_to(source: Store, url: str) -> tuple[str, dict[str, int]]:
    """Copy every row of every table into the empty stash at `url`, made if there is none.

    Returns where that is, without any credentials, and how many rows each table has. What
    was written is read again and compared with the source, row by row; all of it is kept,
    or nothing.

    Raises:
        RefusedError: There is something in the target already.
        StoreError: It cannot be opened or written, or what arrived is not the same.
    """
    address = read_url(url)
    Store.open(url).close()
    engine = writing(migration_engine(address))
    counts = {}
    with (
        plain_failures(),
        reading(source.engine).connect() as old,
        engine.connect() as new,
        new.begin(),
    ):
        _refuse_if_used(new, masked(address))
        for table in metadata.sorted_tables:
            counts[table.name] = _copy(table, old, new)
        catch_up_numbers(new)
        for table in metadata.sorted_tables:
            if _prints(table, old) != _prints(table, new):
                raise StoreError(
                    f"The rows of {table.name} did not arrive as they were.",
                    "Nothing was kept there, and the stash is as it was. Please report this.",
                )
    return masked(address), counts


def _refuse_if_used(new: Connection, place: str) -> None:
    for table in metadata.sorted_tables:
        if new.execute(sa.select(sa.literal(1)).select_from(table).limit(1)).first():
            raise RefusedError(f"There is a stash in {place} already.", "Name an empty place.")


def _copy(table: sa.Table, old: Connection, new: Connection) -> int:
    """A row may name another of its own table that comes later: such names are set last."""
    own = [c.name for c in table.columns if any(k.column.table is table for k in c.foreign_keys)]
    count, late = 0, []
    for rows in _rows(table, old):
        late += [row for row in rows if any(row[name] is not None for name in own)]
        new.execute(table.insert(), [row | dict.fromkeys(own) for row in rows])
        count += len(rows)
    for row in late:
        named = {name: row[name] for name in own}
        new.execute(table.update().where(table.c.id == row["id"]).values(named))
    return count


def _rows(table: sa.Table, connection: Connection) -> Iterator[list[dict[str, Any]]]:
    query = sa.select(table).order_by(*table.primary_key.columns)
    for part in connection.execute(query).mappings().partitions(AT_ONCE):
        yield [dict(row) for row in part]


def _prints(table: sa.Table, connection: Connection) -> Counter[bytes]:
    """A fingerprint of each row, in no order: databases sort texts differently."""
    return Counter(
        hashlib.blake2b(repr(sorted(row.items())).encode(), digest_size=16).digest()
        for rows in _rows(table, connection)
        for row in rows
    )
