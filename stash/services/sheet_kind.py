"""What a kind of table is: its fields, how a row is known again, how rows are kept."""

from __future__ import annotations

from abc import ABC, abstractmethod
from typing import TYPE_CHECKING, Any

from stash.store.journal import first_rows
from stash.store.put_back import typed_values
from stash.store.tables.every import metadata

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable, Mapping, Sequence

    from sqlalchemy.orm import Session

    from stash.services.fields import Field

Values = dict[str, Any]
"""The values of a row, by attribute of its record."""


class SheetKind(ABC):
    """One kind of table that comes in and goes out."""

    key: str
    noun: str
    """What one row is, in the singular."""
    fields: tuple[Field, ...]
    same: tuple[str, ...]
    """Attributes by which a row is recognised when it comes again."""
    records: str = ""
    """Table of the records a row becomes, if the journal can tell how they first came."""
    notes: str = "notes"
    """Key of the field that takes what has no field of its own; empty: there is none."""
    shown: tuple[str, ...]
    """Keys of the fields a preview shows, the first of them the longest."""

    @property
    def labels(self) -> dict[str, str]:
        """Label of each field, by key."""
        return {field.key: field.label for field in self.fields}

    def field(self, key: str) -> Field:
        """The field called `key`, which must be one of them."""
        return next(field for field in self.fields if field.key == key)

    def identity(self, values: Mapping[str, Any]) -> Hashable:
        """What tells a row from all others."""
        return tuple(_folded(values.get(name)) for name in self.same)

    def came_as(self, session: Session) -> dict[int, Hashable]:
        """What told each record from all others when it came, by number."""
        if not self.records:
            return {}
        table = metadata.tables[self.records]
        return {
            number: self.identity(typed_values(table, {name: row.get(name) for name in self.same}))
            for number, row in first_rows(session, self.records).items()
        }

    @abstractmethod
    def kept(self, session: Session) -> Iterable[Values]:
        """The values of everything of this kind in the stash, in its usual order."""

    @abstractmethod
    def check(self, session: Session, values: Values) -> None:
        """Raise StashError if a row cannot be kept although each of its fields is right."""

    def doubts(self, values: Values) -> tuple[str, ...]:
        """What makes no sense in a row that is taken all the same."""
        del values
        return ()

    @abstractmethod
    def keep(self, session: Session, rows: Sequence[Values]) -> None:
        """Keep rows that were checked."""


def _folded(value: Any) -> Hashable:
    """Words without regard to case; an empty text is no text."""
    if isinstance(value, str):
        return " ".join(value.casefold().split()) or None
    found: Hashable = value
    return found
