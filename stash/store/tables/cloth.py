"""Cloths, their fibres and their flaws."""

from datetime import date
from decimal import Decimal
from typing import Annotated

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column, relationship

from stash.cloth.record import Hand, Structure
from stash.store.tables.base import KEEP_IDS, Named, Points, Sibling
from stash.units.length import Length

OfCloth = Annotated[
    int,
    mapped_column(ForeignKey("cloth.id", ondelete="CASCADE"), primary_key=True, sort_order=-2),
]


class FibreRow(Sibling):
    """One fibre of a cloth."""

    __tablename__ = "cloth_fibre"

    cloth_id: Mapped[OfCloth]
    fibre: Mapped[str]
    percent: Mapped[float]


class FlawRow(Sibling):
    """One flaw of a cloth."""

    __tablename__ = "cloth_flaw"

    cloth_id: Mapped[OfCloth]
    x: Mapped[float]
    y: Mapped[float]
    radius: Mapped[float]
    what: Mapped[str]
    points: Mapped[Points]


class ClothRow(Named):
    """One piece on the shelf; see `stash.cloth.record.Cloth`."""

    __tablename__ = "cloth"
    __table_args__ = KEEP_IDS

    structure: Mapped[Structure]
    width: Mapped[Length]
    selvedge: Mapped[Length]
    bought: Mapped[Length]
    left: Mapped[Length]
    washed: Mapped[bool]
    shrink_length: Mapped[float | None]
    shrink_width: Mapped[float | None]
    weight: Mapped[float | None]
    stretch_across: Mapped[float | None]
    stretch_along: Mapped[float | None]
    recovery: Mapped[float | None]
    hand: Mapped[Hand | None]
    bending_length: Mapped[float | None]
    drape: Mapped[float | None]
    nap: Mapped[bool]
    raised: Mapped[bool]
    sheer: Mapped[bool]
    repeat_length: Mapped[Length]
    repeat_width: Mapped[Length]
    half_drop: Mapped[bool]
    colour: Mapped[str]
    colour_name: Mapped[str]
    print: Mapped[str]
    outline: Mapped[Points]
    loved: Mapped[int]
    price: Mapped[Decimal | None]
    again: Mapped[bool]
    care: Mapped[str]
    place: Mapped[str]
    got: Mapped[date | None]
    notes: Mapped[str]

    fibres: Mapped[list[FibreRow]] = relationship(
        cascade="all, delete-orphan", order_by=FibreRow.position, lazy="raise"
    )
    flaws: Mapped[list[FlawRow]] = relationship(
        cascade="all, delete-orphan", order_by=FlawRow.position, lazy="raise"
    )
