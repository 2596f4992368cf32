"""Changes of rows in words: which record, and field by field before and after."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from stash.services.change_fields import column_field, exact, order_of
from stash.store.put_back import typed_value
from stash.store.record_names import NOUNS
from stash.store.tables.every import metadata
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from stash.services.fields import Context
    from stash.store.journal import Change
    from stash.store.record_names import Record

SILENT = {"id", "version", "position"}
"""Columns that mean nothing to a person."""
PARTS = {
    "cloth_fibre": "fibre",
    "cloth_flaw": "flaw",
    "person_measure": "measure",
    "pattern_view": "view",
    "pattern_size": "size",
    "pattern_size_measure": "size measure",
    "pattern_piece": "piece",
    "pattern_chart": "chart row",
    "pattern_asks": "demand",
    "pattern_notion": "notion",
    "promise": "promise",
    "diary": "line of the diary",
}
"""What a row is called that is no record by itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldChange:
    """One field before and after: as texts in the person's units, empty for nothing."""

    key: str
    label: str
    before: str
    after: str
    values: tuple[Any, Any]
    """The same as values."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RowChange:
    """What happened to one row."""

    title: str
    """Such as `cloth olive cord` or `fibre 1 of cloth olive cord`."""
    how: str
    """`added`, `changed` or `removed`."""
    fields: tuple[FieldChange, ...]


@dataclass(frozen=True, slots=True)
class KnownNames:
    """Names of records, those of removed ones too, for fields that refer to others."""

    known: Mapping[Record, str] = field(default_factory=dict)

    def id_of(self, noun: str, ref: str) -> int:
        """Nothing is looked up here."""
        raise LookupError(f"{noun} {ref}")

    def name_of(self, noun: str, record_id: int) -> str:
        """Its name, or its number if nobody knows that."""
        return self.known.get((noun, record_id), f"number {record_id}")


@dataclass(slots=True)
class _Net:
    """One row before and after several changes."""

    change: Change
    before: dict[str, Any] | None
    after: dict[str, Any] | None

    def add(self, change: Change) -> None:
        if self.before is not None:
            self.before = {**(change.before or {}), **self.before}
        if change.after is not None:
            self.after = {**(self.after or {}), **change.after}
        else:
            self.after = None


def row_changes(changes: Iterable[Change], context: Context) -> tuple[RowChange, ...]:
    """The changes in words, one for each row that is another one at the end.

    `context` needs `KnownNames`.
    """
    rows: dict[tuple[str, tuple[int, ...]], _Net] = {}
    for change in changes:
        row = change.table, tuple(change.key.values())
        if row in rows:
            rows[row].add(change)
        else:
            rows[row] = _Net(change, change.before, change.after)
    kept = [net for net in rows.values() if net.before is not None or net.after is not None]
    return tuple(told for net in kept for told in _told(net, context))


def _told(net: _Net, context: Context) -> Iterable[RowChange]:
    how = "changed"
    if net.before is None:
        how = "added"
    elif net.after is None:
        how = "removed"
    fields = _fields(net, context)
    if fields or how != "changed":
        yield RowChange(title=_title(net, context), how=how, fields=fields)


def _fields(net: _Net, context: Context) -> tuple[FieldChange, ...]:
    before, after = net.before or {}, net.after or {}
    names = {name for name in before.keys() | after.keys() if name not in SILENT}
    names -= set(net.change.key)
    names &= set(metadata.tables[net.change.table].c.keys())
    found = (
        _field(net.change.table, name, before.get(name), after.get(name), context)
        for name in sorted(names, key=lambda name: order_of(net.change.table, name))
    )
    return tuple(one for one in found if one.before != one.after)


def _field(table: str, name: str, before: Any, after: Any, context: Context) -> FieldChange:
    shown, column = column_field(table, name), metadata.tables[table].c[name]
    values = typed_value(column, before), typed_value(column, after)
    texts = [shown.show(value, context) if value is not None else "" for value in values]
    if texts[0] == texts[1] and before != after:
        if isinstance(values[0], Length) and isinstance(values[1], Length):
            texts = [exact(shown).show(value, context) for value in values]
        elif texts[0]:
            texts[1] += ", elsewhere"
    return FieldChange(
        key=shown.key, label=shown.label, before=texts[0], after=texts[1], values=values
    )


def _title(net: _Net, context: Context) -> str:
    table, key = net.change.table, net.change.key
    if table in NOUNS:
        return f"{table} {context.names.name_of(table, key['id'])}"
    sides = {**(net.before or {}), **(net.after or {})}
    title = PARTS[table]
    if "position" in key:
        name = sides.get("name") or sides.get("label")
        title += f" {name}" if name else f" {key['position'] + 1}"
    owners = {**sides, **key}
    for noun in NOUNS:
        owner = owners.get(f"{noun}_id")
        if owner is not None:
            title += f" of {noun} {context.names.name_of(noun, owner)}"
    return title
