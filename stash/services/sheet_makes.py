"""The queue as a table, one make a row."""

from __future__ import annotations

from dataclasses import fields as attributes
from dataclasses import replace
from typing import TYPE_CHECKING

from stash.garment.make import Make
from stash.services import ready_fields as ready
from stash.services.make_fields import MAKE_FIELDS
from stash.services.makes import checked
from stash.services.sheet_kind import SheetKind, Values
from stash.store import makes as store
from stash.store import patterns

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from sqlalchemy.orm import Session

_TESTED = "muslin_for"


class MakeSheet(SheetKind):
    """One make a row. The make that a muslin tests may stand in the same table, so by name."""

    key, noun, records = "makes", "make", "make"
    fields = tuple(
        ready.text(_TESTED, field.label, field.hint) if field.key == _TESTED else field
        for field in MAKE_FIELDS
    )
    same = ("name", "pattern_id", "size", "view")
    shown = ("name", "pattern", "view", "size", "person", "state")

    def kept(self, session: Session) -> Iterable[Values]:
        """Every make, by name."""
        every = store.all_makes(session)
        titles = {make.id: make.name for make in every}
        names = [attribute.name for attribute in attributes(Make)]
        for make in every:
            values = {name: getattr(make, name) for name in names}
            yield values | {_TESTED: titles.get(make.muslin_for or 0, "")}

    def check(self, session: Session, values: Values) -> None:
        """A view and a size the pattern has; the only ones it has are filled in."""
        make = _record(session, values)
        values.update(view=make.view, size=make.size)

    def keep(self, session: Session, rows: Sequence[Values]) -> None:
        """All of them into the queue, and only then what tests what."""
        kept = [store.insert_make(session, _record(session, values)) for values in rows]
        for make, values in zip(kept, rows, strict=True):
            if values[_TESTED]:
                tested = store.find_make(session, values[_TESTED])
                store.update_make(session, replace(make, muslin_for=tested.id))


def _record(session: Session, values: Values) -> Make:
    make = Make(**(values | {_TESTED: None}))
    return checked(make, patterns.get_pattern(session, make.pattern_id))
