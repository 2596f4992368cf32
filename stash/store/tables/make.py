"""Makes, the people they are for, promises of cloth, and the diary."""

from datetime import date

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column, relationship

from stash.garment.make import DiaryKind, State
from stash.garment.pattern import Role
from stash.store.tables.base import KEEP_IDS, Base, IdKey, Kept, Named, Sibling
from stash.units.length import Length


class PersonMeasureRow(Sibling):
    """One body measure of a person."""

    __tablename__ = "person_measure"

    person_id: Mapped[int] = mapped_column(
        ForeignKey("person.id", ondelete="CASCADE"), primary_key=True, sort_order=-2
    )
    name: Mapped[str]
    length: Mapped[Length]


class PersonRow(Named):
    """Someone sewn for."""

    __tablename__ = "person"
    __table_args__ = KEEP_IDS

    child_age: Mapped[int | None]
    measured_on: Mapped[date | None]
    notes: Mapped[str]

    measures: Mapped[list[PersonMeasureRow]] = relationship(
        cascade="all, delete-orphan", order_by=PersonMeasureRow.position, lazy="raise"
    )


class MakeRow(Named):
    """A garment someone means to sew or has sewn."""

    __tablename__ = "make"
    __table_args__ = KEEP_IDS

    pattern_id: Mapped[int] = mapped_column(ForeignKey("pattern.id"), index=True)
    view: Mapped[str]
    size: Mapped[str]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("person.id"), index=True)
    muslin: Mapped[bool]
    muslin_for: Mapped[int | None] = mapped_column(ForeignKey("make.id"), index=True)
    state: Mapped[State]
    priority: Mapped[int]
    due: Mapped[date | None]
    notes: Mapped[str]


class PromiseRow(Kept):
    """Some of a cloth held for a role of a make, or cut for it."""

    __tablename__ = "promise"
    __table_args__ = KEEP_IDS

    make_id: Mapped[int] = mapped_column(ForeignKey("make.id"), index=True)
    role: Mapped[Role]
    cloth_id: Mapped[int] = mapped_column(ForeignKey("cloth.id"), index=True)
    length: Mapped[Length]
    pinned: Mapped[bool]
    cut: Mapped[bool]


class DiaryRow(Base):
    """One dated line of the diary; it outlives the cloth and the make it speaks of."""

    __tablename__ = "diary"
    __table_args__ = KEEP_IDS

    id: Mapped[IdKey]
    day: Mapped[date] = mapped_column(index=True)
    kind: Mapped[DiaryKind]
    text: Mapped[str]
    cloth_id: Mapped[int | None] = mapped_column(
        ForeignKey("cloth.id", ondelete="SET NULL"), index=True
    )
    make_id: Mapped[int | None] = mapped_column(
        ForeignKey("make.id", ondelete="SET NULL"), index=True
    )
