"""What the program keeps for itself: laid results, and the journal of changes."""

from datetime import datetime

from sqlalchemy import ForeignKey, Text
from sqlalchemy.orm import Mapped, mapped_column

from stash.store.tables.base import KEEP_IDS, Base, IdKey


class LayRow(Base):
    """A lay that was worked out once: `key` stands for everything that went into it."""

    __tablename__ = "lay_result"

    key: Mapped[str] = mapped_column(primary_key=True)
    engine: Mapped[str]
    text: Mapped[str] = mapped_column(Text)


class JournalRow(Base):
    """One change of the stash: when, by whom, what in words, and every row before and after."""

    __tablename__ = "journal"
    __table_args__ = KEEP_IDS

    id: Mapped[IdKey]
    at: Mapped[datetime]
    who: Mapped[str]
    what: Mapped[str]
    changes: Mapped[str] = mapped_column(Text)
    undoes: Mapped[int | None] = mapped_column(ForeignKey("journal.id"), index=True)
