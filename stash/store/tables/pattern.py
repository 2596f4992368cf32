"""Patterns and everything printed on them or cut out of them."""

from typing import Annotated

from sqlalchemy import ForeignKey, ForeignKeyConstraint
from sqlalchemy.orm import Mapped, mapped_column, relationship

from stash.cloth.record import Hand
from stash.garment.pattern import Grain, Kind, Role
from stash.store.tables.base import KEEP_IDS, Named, Point, Points, Sibling, Structures, Words
from stash.units.length import Length

OfPattern = Annotated[
    int,
    mapped_column(ForeignKey("pattern.id", ondelete="CASCADE"), primary_key=True, sort_order=-2),
]
KeyPart = Annotated[int, mapped_column(primary_key=True, autoincrement=False, sort_order=-2)]


class ViewRow(Sibling):
    """One view of a pattern."""

    __tablename__ = "pattern_view"

    pattern_id: Mapped[OfPattern]
    name: Mapped[str]


class SizeMeasureRow(Sibling):
    """One measure of a size: of the body, or of the finished garment."""

    __tablename__ = "pattern_size_measure"
    __table_args__ = (
        ForeignKeyConstraint(
            ["pattern_id", "size_position"],
            ["pattern_size.pattern_id", "pattern_size.position"],
            ondelete="CASCADE",
        ),
    )

    pattern_id: Mapped[KeyPart]
    size_position: Mapped[KeyPart]
    finished: Mapped[bool]
    name: Mapped[str]
    length: Mapped[Length]


class SizeRow(Sibling):
    """One row of the size table."""

    __tablename__ = "pattern_size"

    pattern_id: Mapped[OfPattern]
    label: Mapped[str]

    measures: Mapped[list[SizeMeasureRow]] = relationship(
        cascade="all, delete-orphan", order_by=SizeMeasureRow.position, lazy="raise"
    )


class PieceRow(Sibling):
    """One piece of one size."""

    __tablename__ = "pattern_piece"

    pattern_id: Mapped[OfPattern]
    name: Mapped[str]
    outline: Mapped[Points]
    copies: Mapped[int]
    on_fold: Mapped[bool]
    mirrored: Mapped[bool]
    grain: Mapped[Grain]
    role: Mapped[Role]
    size: Mapped[str]
    views: Mapped[Words]
    tolerance: Mapped[int]
    match: Mapped[Point | None]
    seam: Mapped[float | None]
    notches: Mapped[Points]
    family: Mapped[str]
    typed: Mapped[Words]


class ChartCellRow(Sibling):
    """One cell of the envelope's table of amounts."""

    __tablename__ = "pattern_chart"

    pattern_id: Mapped[OfPattern]
    role: Mapped[Role]
    view: Mapped[str]
    size: Mapped[str]
    width: Mapped[Length]
    amount: Mapped[Length]
    with_nap: Mapped[bool]
    rounded: Mapped[bool]


class AsksRow(Sibling):
    """What one role asks of its cloth."""

    __tablename__ = "pattern_asks"

    pattern_id: Mapped[OfPattern]
    role: Mapped[Role]
    structures: Mapped[Structures]
    stretch_across: Mapped[float | None]
    stretch_along: Mapped[float | None]
    recovery: Mapped[float | None]
    weight_low: Mapped[float | None]
    weight_high: Mapped[float | None]
    hand_low: Mapped[Hand | None]
    hand_high: Mapped[Hand | None]
    nap_allowed: Mapped[bool]
    fibres: Mapped[Words]
    avoid: Mapped[Words]


class NotionRow(Sibling):
    """Something small to have ready."""

    __tablename__ = "pattern_notion"

    pattern_id: Mapped[OfPattern]
    name: Mapped[str]
    view: Mapped[str]
    size: Mapped[str]
    amount: Mapped[int]
    length: Mapped[Length]
    note: Mapped[str]


class PatternRow(Named):
    """A design one can make; see `stash.garment.pattern.Pattern`."""

    __tablename__ = "pattern"
    __table_args__ = KEEP_IDS

    kind: Mapped[Kind]
    form: Mapped[str]
    kept_in: Mapped[str]
    picture: Mapped[str]
    traced: Mapped[Words]
    fullness: Mapped[float]
    child: Mapped[bool]
    tested: Mapped[bool]
    liked: Mapped[int]
    notes: Mapped[str]

    views: Mapped[list[ViewRow]] = relationship(
        cascade="all, delete-orphan", order_by=ViewRow.position, lazy="raise"
    )
    sizes: Mapped[list[SizeRow]] = relationship(
        cascade="all, delete-orphan", order_by=SizeRow.position, lazy="raise"
    )
    pieces: Mapped[list[PieceRow]] = relationship(
        cascade="all, delete-orphan", order_by=PieceRow.position, lazy="raise"
    )
    charts: Mapped[list[ChartCellRow]] = relationship(
        cascade="all, delete-orphan", order_by=ChartCellRow.position, lazy="raise"
    )
    asks: Mapped[list[AsksRow]] = relationship(
        cascade="all, delete-orphan", order_by=AsksRow.position, lazy="raise"
    )
    notions: Mapped[list[NotionRow]] = relationship(
        cascade="all, delete-orphan", order_by=NotionRow.position, lazy="raise"
    )
