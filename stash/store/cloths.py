"""Cloths in the stash."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import select
from sqlalchemy.orm import selectinload

from stash.cloth.record import Cloth, FibreShare, Flaw
from stash.store.kept import find_id, locked, missing, new_row, numbered, refuse_if_used, to_change
from stash.store.rows import by_name, copy_onto, field_names, fit, read_children, read_records
from stash.store.tables.cloth import ClothRow, FibreRow, FlawRow
from stash.store.tables.make import DiaryRow, MakeRow, PromiseRow

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from sqlalchemy.orm import Session

NOUN = "cloth"
CHILDREN = ("fibres", "flaws")
COLUMNS = field_names(Cloth, but=CHILDREN)
TYPED = tuple(name for name in COLUMNS if name not in ("id", "version"))
FIBRE = field_names(FibreShare)
FLAW = field_names(Flaw)
WITH_CHILDREN = (selectinload(ClothRow.fibres), selectinload(ClothRow.flaws))


def all_cloths(session: Session) -> tuple[Cloth, ...]:
    """Every cloth, by name and then by id."""
    return by_name(_read(session, None))


def get_cloth(session: Session, cloth_id: int) -> Cloth:
    """One cloth. Raises NotFoundError."""
    for cloth in _read(session, cloth_id):
        return cloth
    raise missing(NOUN, cloth_id)


def find_cloth(session: Session, ref: str, *, hold: bool = False) -> Cloth:
    """The cloth meant by an id, a name or a part of one. Raises NotFoundError.

    With `hold` it is to be changed: nobody else does so before the session ends.
    """
    return get_cloth(session, find_id(session, ClothRow, NOUN, ref, hold=hold))


def insert_cloth(session: Session, cloth: Cloth) -> Cloth:
    """Keep a new cloth; returns it with its id."""
    return insert_cloths(session, [cloth])[0]


def insert_cloths(
    session: Session, cloths: Iterable[Cloth], *, numbers: bool = False
) -> tuple[Cloth, ...]:
    """Keep many new cloths at once; returns them with their ids, in the same order.

    With `numbers` their ids are those they have already.
    """
    kept = [(c, _write(new_row(ClothRow, c, numbered=numbers), c)) for c in cloths]
    session.add_all(row for _, row in kept)
    session.flush()
    return tuple(numbered(cloth, row) for cloth, row in kept)


def update_cloth(session: Session, cloth: Cloth) -> Cloth:
    """Keep changes. Raises RefusedError if it was changed since `cloth` was read."""
    row = to_change(session, ClothRow, NOUN, cloth, *WITH_CHILDREN)
    _write(row, cloth)
    session.flush()
    return numbered(cloth, row)


def delete_cloth(session: Session, cloth_id: int) -> None:
    """Remove a cloth that is promised to nothing; its diary lines stay.

    What was cut from it goes with it: the makes stay cut.

    Raises RefusedError naming the makes that hold some of it.
    """
    row = locked(session, ClothRow, NOUN, cloth_id, *WITH_CHILDREN)
    holders = session.execute(
        select(MakeRow.name, PromiseRow.role)
        .join(PromiseRow, PromiseRow.make_id == MakeRow.id)
        .where(PromiseRow.cloth_id == cloth_id, PromiseRow.cut.is_(False))
    )
    refuse_if_used(
        f"{row.name} is promised to makes",
        (f"{name} ({role.value})" for name, role in holders),
        "Release these promises first: stash release MAKE",
    )
    for line in session.scalars(select(DiaryRow).where(DiaryRow.cloth_id == cloth_id)):
        line.cloth_id = None
    for cut in session.scalars(select(PromiseRow).where(PromiseRow.cloth_id == cloth_id)):
        session.delete(cut)
    session.flush()
    session.delete(row)
    session.flush()


def _read(session: Session, cloth_id: int | None) -> Iterator[Cloth]:
    fibres = read_children(session, FibreRow, "cloth_id", FIBRE, FibreShare, cloth_id)
    flaws = read_children(session, FlawRow, "cloth_id", FLAW, Flaw, cloth_id)
    for values in read_records(session, ClothRow, COLUMNS, cloth_id):
        kept_id = values["id"]
        yield Cloth(fibres=fibres.get(kept_id, ()), flaws=flaws.get(kept_id, ()), **values)


def _write(row: ClothRow, cloth: Cloth) -> ClothRow:
    copy_onto(row, cloth, TYPED)
    fit(row.fibres, cloth.fibres, FibreRow, FIBRE)
    fit(row.flaws, cloth.flaws, FlawRow, FLAW)
    return row
