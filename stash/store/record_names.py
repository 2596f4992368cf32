"""Names of the records of a stash, and which record a row belongs to."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import select

from stash.store.tables.every import metadata

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sqlalchemy.orm import Session

    from stash.store.journal import Change

NOUNS = ("cloth", "pattern", "make", "person")
"""Records people call by name; each noun is the name of its table."""

Record = tuple[str, int]
"""A noun and an id."""


def kept_names(session: Session) -> dict[Record, str]:
    """The name of every record there is."""
    found: dict[Record, str] = {}
    for noun in NOUNS:
        table = metadata.tables[noun]
        for kept_id, name in session.execute(select(table.c.id, table.c.name)):
            found[noun, kept_id] = name
    return found


def names_in(changes: Iterable[Change]) -> dict[Record, str]:
    """The names that changes speak of: those of removed records are nowhere else."""
    found: dict[Record, str] = {}
    for change in changes:
        if change.table in NOUNS:
            for side in (change.after, change.before):
                if side and side.get("name"):
                    found.setdefault((change.table, change.key["id"]), side["name"])
    return found


def noun_of_column(table: str, column: str) -> str:
    """The noun of the records a column refers to; empty if it refers to none."""
    keys = metadata.tables[table].c[column].foreign_keys
    nouns = (key.column.table.name for key in keys)
    return next((noun for noun in nouns if noun in NOUNS), "")


def records_of(change: Change) -> set[Record]:
    """The record a row is, is a part of, or is about."""
    if change.table in NOUNS:
        return {(change.table, change.key["id"])}
    found: set[Record] = set()
    sides: list[dict[str, Any]] = [change.key, change.before or {}, change.after or {}]
    for side in sides:
        for column, value in side.items():
            if value is None or column not in metadata.tables[change.table].c:
                continue
            noun = noun_of_column(change.table, column)
            if noun:
                found.add((noun, value))
    if change.table == "pattern_size_measure":  # it refers to its size, not to the pattern
        found.add(("pattern", change.key["pattern_id"]))
    return found
