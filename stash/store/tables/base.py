"""What all tables share: names for every constraint, and how Python types become columns."""

# No postponed annotations here and in the other tables: SQLAlchemy reads them at run time.

import enum
from datetime import datetime
from decimal import Decimal
from typing import Annotated, Any, ClassVar

import sqlalchemy as sa
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

from stash.cloth.record import Hand, Structure
from stash.store.types import (
    HandType,
    LengthType,
    MoneyType,
    PointsType,
    PointType,
    StructuresType,
    UtcType,
    WordsType,
    enum_type,
)
from stash.units.length import Length

NAMING = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}
"""SQLite can only ever drop a constraint that has a name."""

KEEP_IDS: dict[str, Any] = {"sqlite_autoincrement": True}
"""SQLite would hand the id of a removed last row out again; notes and the journal name ids."""

Point = Annotated[tuple[float, float], mapped_column(PointType)]
Points = Annotated[tuple[tuple[float, float], ...], mapped_column(PointsType)]
Words = Annotated[tuple[str, ...], mapped_column(WordsType)]
Structures = Annotated[tuple[Structure, ...], mapped_column(StructuresType)]
IdKey = Annotated[int, mapped_column(primary_key=True, sort_order=-3)]
Position = Annotated[int, mapped_column(primary_key=True, autoincrement=False, sort_order=-1)]
"""The place of a row among its siblings, from 0."""


class Base(DeclarativeBase):
    """The root of all tables."""

    metadata = sa.MetaData(naming_convention=NAMING)
    type_annotation_map: ClassVar[dict[Any, Any]] = {
        Length: LengthType,
        datetime: UtcType,
        float: sa.Double,
        Decimal: MoneyType,
        Hand: HandType,
        enum.Enum: enum_type(),
    }


class Kept(Base):
    """A row with an id of its own and a version that every change raises by one."""

    __abstract__ = True

    id: Mapped[IdKey]
    version: Mapped[int] = mapped_column(sort_order=1)


class Named(Kept):
    """A kept row people call by its name."""

    __abstract__ = True

    name: Mapped[str] = mapped_column(sort_order=-2)


class Sibling(Base):
    """A row that belongs to another and keeps its place among its siblings."""

    __abstract__ = True

    position: Mapped[Position]
