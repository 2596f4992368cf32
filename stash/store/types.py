"""How values that no database knows are kept: lengths, money, moments, outlines, enums."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from decimal import Decimal
from enum import Enum
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa
from sqlalchemy.types import TypeDecorator

from stash.cloth.record import Hand, Structure
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Callable

    from sqlalchemy.engine import Dialect

ENUM_LENGTH = 32
"""Fixed, so that a longer member added later does not look like a changed column."""


class LengthType(TypeDecorator[Length]):
    """A length as whole nanometres: sums and comparisons stay exact."""

    impl = sa.BigInteger
    cache_ok = True

    def process_bind_param(self, value: Length | None, dialect: Dialect) -> int | None:
        """Length to nanometres."""
        return None if value is None else value.nm

    def result_processor(self, dialect: Dialect, coltype: object) -> Callable[[Any], Length | None]:
        """Nanometres to length, without the usual wrapper: a full shelf has 100,000 of them."""
        return _read_length


class UtcType(TypeDecorator[datetime]):
    """A moment, kept in UTC and given back aware (SQLite itself forgets the zone)."""

    impl = sa.DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Any aware moment to UTC; a naive one is a mistake of ours."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("a moment without a time zone")
        return value.astimezone(UTC)

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """What the database kept, aware."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


class MoneyType(TypeDecorator[Decimal]):
    """Money as its decimal digits: exact, and the same on every database."""

    impl = sa.String(32)
    cache_ok = True

    def process_bind_param(self, value: Decimal | None, dialect: Dialect) -> str | None:
        """Decimal to digits."""
        return None if value is None else str(value)

    def process_result_value(self, value: str | None, dialect: Dialect) -> Decimal | None:
        """Digits to decimal."""
        return None if value is None else Decimal(value)


class HandType(TypeDecorator[Hand]):
    """The five steps of hand as 1-5, so that they can be compared in a query."""

    impl = sa.SmallInteger
    cache_ok = True

    def process_bind_param(self, value: Hand | None, dialect: Dialect) -> int | None:
        """Step to number."""
        return None if value is None else value.value

    def process_result_value(self, value: int | None, dialect: Dialect) -> Hand | None:
        """Number to step."""
        return None if value is None else Hand(value)


class PointsType(TypeDecorator[tuple[tuple[float, float], ...]]):
    """An outline as JSON text: [[x, y], ...] in millimetres."""

    impl = sa.Text
    cache_ok = True

    def process_bind_param(self, value: Any, dialect: Dialect) -> str | None:
        """Points to text; Python writes floats so that they read back the same."""
        return None if value is None else _compact(value)

    def process_result_value(self, value: str | None, dialect: Dialect) -> Any:
        """Text to points."""
        if not value or value == "[]":
            return ()
        return tuple((float(x), float(y)) for x, y in json.loads(value))


class PointType(TypeDecorator[tuple[float, float]]):
    """One point as JSON text: [x, y] in millimetres."""

    impl = sa.Text
    cache_ok = True

    def process_bind_param(self, value: Any, dialect: Dialect) -> str | None:
        """Point to text."""
        return None if value is None else _compact(value)

    def process_result_value(self, value: str | None, dialect: Dialect) -> Any:
        """Text to point."""
        if value is None:
            return None
        x, y = json.loads(value)
        return float(x), float(y)


class WordsType(TypeDecorator[tuple[str, ...]]):
    """A short list of words as JSON text."""

    impl = sa.Text
    cache_ok = True

    def process_bind_param(self, value: Any, dialect: Dialect) -> str | None:
        """Words to text."""
        return None if value is None else _compact(value)

    def process_result_value(self, value: str | None, dialect: Dialect) -> Any:
        """Text to words."""
        return tuple(json.loads(value)) if value else ()


class StructuresType(TypeDecorator[tuple[Structure, ...]]):
    """The structures a pattern accepts, as a JSON list of their words."""

    impl = sa.Text
    cache_ok = True

    def process_bind_param(self, value: Any, dialect: Dialect) -> str | None:
        """Structures to text."""
        return None if value is None else _compact([item.value for item in value])

    def process_result_value(self, value: str | None, dialect: Dialect) -> Any:
        """Text to structures."""
        return tuple(Structure(word) for word in json.loads(value)) if value else ()


def enum_type() -> sa.Enum:
    """Enums by their value in a string of fixed length.

    No CHECK: it would keep refusing members added later, and autogenerate does not see it.
    """
    return sa.Enum(
        Enum,
        values_callable=lambda members: [member.value for member in members],
        native_enum=False,
        create_constraint=False,
        length=ENUM_LENGTH,
    )


def _read_length(value: int | None) -> Length | None:
    return None if value is None else Length(int(value))  # a server sums to a Decimal


def _compact(value: object) -> str:
    return json.dumps(value, separators=(",", ":"), ensure_ascii=False, allow_nan=False)
