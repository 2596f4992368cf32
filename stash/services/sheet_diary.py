"""The diary as a table, one line a row."""

from __future__ import annotations

from dataclasses import fields as attributes
from typing import TYPE_CHECKING

from stash.garment.make import DiaryEntry, DiaryKind
from stash.services import readers as r
from stash.services import ready_fields as ready
from stash.services.fields import REQUIRED, Field
from stash.services.sheet_kind import SheetKind, Values
from stash.store import diary as store

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from sqlalchemy.orm import Session


class DiarySheet(SheetKind):
    """One dated line a row."""

    key, noun = "diary", "line"
    fields = (
        Field(
            key="day",
            label="Day",
            hint="2026-10-31",
            read=r.read_day,
            show=r.show_text,
            empty=REQUIRED,
        ),
        ready.one_of(
            DiaryKind,
            "kind",
            "Kind",
            "bought, washed, cut, started, finished, fitting or note",
            empty=DiaryKind.NOTE,
        ),
        ready.record("cloth", "cloth", "Cloth", "Name of a cloth", name="cloth_id"),
        ready.record("make", "make", "Make", "Name of a make", name="make_id"),
        ready.text("text", "Text", "What happened", empty=REQUIRED),
    )
    same = ("day", "kind", "cloth_id", "make_id", "text")
    notes = "text"
    shown = ("text", "day", "kind", "cloth", "make")

    def kept(self, session: Session) -> Iterable[Values]:
        """Every line, the oldest first."""
        names = [attribute.name for attribute in attributes(DiaryEntry)]
        for entry in reversed(store.entries(session)):
            yield {name: getattr(entry, name) for name in names}

    def check(self, session: Session, values: Values) -> None:
        """A line is right when its fields are."""

    def keep(self, session: Session, rows: Sequence[Values]) -> None:
        """All of them into the diary."""
        for values in rows:
            store.add_entry(session, DiaryEntry(**values))
