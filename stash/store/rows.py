"""Between records and rows: their fields bear the same names, so nothing is listed twice."""

from __future__ import annotations

from dataclasses import fields
from typing import TYPE_CHECKING, Any, TypeVar

from sqlalchemy import select

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from sqlalchemy import ColumnElement
    from sqlalchemy.orm import Session

    from stash.store.tables.base import Base, Sibling

R = TypeVar("R", bound="Sibling")
T = TypeVar("T")


def field_names(record: type[Any], but: tuple[str, ...] = ()) -> tuple[str, ...]:
    """The fields of a dataclass, in order, without those in `but`."""
    return tuple(field.name for field in fields(record) if field.name not in but)


def columns(row: type[Base], *names: str) -> list[ColumnElement[Any]]:
    """The bare columns of these names: a query of them makes no row objects, which is fast.

    Unlike row objects, they show only what was flushed: whoever changes rows flushes.
    """
    table = row.__table__
    return [table.c[name] for name in names]


def copy_onto(row: Base, record: object, names: Sequence[str]) -> None:
    """Set the columns of `row` to the fields of `record`."""
    for name in names:
        setattr(row, name, getattr(record, name))


def fit(rows: list[R], records: Sequence[object], row: type[R], names: Sequence[str]) -> None:
    """Make the children `rows` equal `records` in place: only what differs is written."""
    for position, record in enumerate(records):
        if position == len(rows):
            rows.append(row(position=position))
        copy_onto(rows[position], record, names)
    del rows[len(records) :]


def read_records(
    session: Session, row: type[Base], names: Sequence[str], kept_id: int | None
) -> list[dict[str, Any]]:
    """The columns of one row, or of all, as keyword arguments for their dataclass."""
    query = select(*columns(row, *names))
    if kept_id is not None:
        query = query.where(row.__table__.c["id"] == kept_id)
    return [dict(zip(names, values, strict=True)) for values in session.execute(query)]


def read_children(
    session: Session,
    row: type[Sibling],
    owner: str,
    names: Sequence[str],
    make: Callable[..., T],
    owner_id: int | None,
) -> dict[int, tuple[T, ...]]:
    """The children of one owner, or of all, by the owner's id and in their order.

    `owner` is the column that holds that id. `make` takes the columns `names` in their order.
    """
    owned_by, position = columns(row, owner, "position")
    query = select(owned_by, *columns(row, *names)).order_by(owned_by, position)
    if owner_id is not None:
        query = query.where(owned_by == owner_id)
    found: dict[int, list[T]] = {}
    for key, *values in session.execute(query):
        found.setdefault(key, []).append(make(*values))
    return {key: tuple(records) for key, records in found.items()}


def by_name(records: Iterator[T]) -> tuple[T, ...]:
    """Sorted by name without regard to case, then by id: the same on every database."""
    return tuple(sorted(records, key=_name_and_id))


def _name_and_id(record: Any) -> tuple[str, int]:
    return record.name.casefold(), record.id
