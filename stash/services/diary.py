"""The diary: what happened, day by day."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.garment.make import DiaryEntry, DiaryKind
from stash.services.names import SessionNames
from stash.services.remarks import Remark, unsaid
from stash.store import cloths, makes
from stash.store import diary as store

if TYPE_CHECKING:
    from datetime import date

    from sqlalchemy.orm import Session

    from stash.services.stash import Stash


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """An entry with the names of what it is about; each empty if it is about none."""

    entry: DiaryEntry
    cloth: str
    make: str

    @property
    def about(self) -> str:
        """Both in words."""
        return ", ".join(name for name in (self.make, self.cloth) if name)


def add_entry(
    stash: Stash,
    kind: DiaryKind,
    text: str,
    *,
    cloth_ref: str = "",
    make_ref: str = "",
    day: date | None = None,
    remark: Remark = unsaid,
) -> DiaryEntry:
    """Write a line into the diary; the day is today if none is given.

    A line changes no cloth: of one washed that still counts as unwashed `remark` is told.

    Raises:
        BadInputError: The text is empty.
    """
    if not text.strip():
        raise BadInputError("A line of the diary says something.", "Type what happened.")
    with stash.write(f"write into the diary: {kind.value}") as session:
        cloth = cloths.find_cloth(session, cloth_ref) if cloth_ref else None
        if kind is DiaryKind.WASHED and cloth is not None and not cloth.washed:
            remark(
                f"{cloth.name} still counts as unwashed. Once measured: "
                f'stash cloth edit "{cloth.name}" --washed --length … --width …'
            )
        entry = DiaryEntry(
            day=day or stash.today(),
            kind=kind,
            text=text.strip(),
            cloth_id=cloth.id if cloth else None,
            make_id=makes.find_make(session, make_ref).id if make_ref else None,
        )
        return store.add_entry(session, entry)


def entries(stash: Stash, *, cloth_ref: str = "", make_ref: str = "") -> tuple[DiaryEntry, ...]:
    """The diary, of one cloth or make if given, the latest line first."""
    with stash.read() as session:
        return _entries(session, cloth_ref, make_ref)


def lines(stash: Stash, *, cloth_ref: str = "", make_ref: str = "") -> tuple[Line, ...]:
    """The same with the names of what each line is about."""
    with stash.read() as session:
        names = SessionNames(session)
        return tuple(
            Line(
                entry=entry,
                cloth=names.name_of("cloth", entry.cloth_id) if entry.cloth_id else "",
                make=names.name_of("make", entry.make_id) if entry.make_id else "",
            )
            for entry in _entries(session, cloth_ref, make_ref)
        )


def _entries(session: Session, cloth_ref: str, make_ref: str) -> tuple[DiaryEntry, ...]:
    return store.entries(
        session,
        cloth_id=cloths.find_cloth(session, cloth_ref).id if cloth_ref else None,
        make_id=makes.find_make(session, make_ref).id if make_ref else None,
    )
