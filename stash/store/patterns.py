"""Patterns in the stash, with everything that belongs to them."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple, TypeVar

from sqlalchemy import select
from sqlalchemy.orm import selectinload

from stash.garment.pattern import Asks, ChartRow, Notion, Pattern, Piece, Size
from stash.store.kept import find_id, locked, missing, new_row, numbered, refuse_if_used, to_change
from stash.store.rows import by_name, copy_onto, field_names, fit, read_children, read_records
from stash.store.tables.make import MakeRow
from stash.store.tables.pattern import (
    AsksRow,
    ChartCellRow,
    NotionRow,
    PatternRow,
    PieceRow,
    SizeMeasureRow,
    SizeRow,
    ViewRow,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from sqlalchemy.orm import Session

    from stash.store.tables.base import Sibling
    from stash.units.length import Length

T = TypeVar("T")
Children = dict[int, tuple[T, ...]]


class SizeMeasure(NamedTuple):
    """One measure of a size as it is kept."""

    finished: bool
    name: str
    length: Length


class View(NamedTuple):
    """One view as it is kept."""

    name: str


NOUN = "pattern"
CHILDREN = ("views", "sizes", "pieces", "charts", "asks", "notions")
COLUMNS = field_names(Pattern, but=CHILDREN)
TYPED = tuple(name for name in COLUMNS if name not in ("id", "version"))
PIECE = field_names(Piece)
CHART = field_names(ChartRow)
ASKS = field_names(Asks)
NOTION = field_names(Notion)
WITH_CHILDREN = (
    selectinload(PatternRow.views),
    selectinload(PatternRow.sizes).selectinload(SizeRow.measures),
    selectinload(PatternRow.pieces),
    selectinload(PatternRow.charts),
    selectinload(PatternRow.asks),
    selectinload(PatternRow.notions),
)


def all_patterns(session: Session) -> tuple[Pattern, ...]:
    """Every pattern, by name and then by id."""
    return by_name(_read(session, None))


def get_pattern(session: Session, pattern_id: int) -> Pattern:
    """One pattern. Raises NotFoundError."""
    for pattern in _read(session, pattern_id):
        return pattern
    raise missing(NOUN, pattern_id)


def find_pattern(session: Session, ref: str, *, hold: bool = False) -> Pattern:
    """The pattern meant by an id, a name or a part of one. Raises NotFoundError.

    With `hold` it is to be changed: nobody else does so before the session ends.
    """
    return get_pattern(session, find_id(session, PatternRow, NOUN, ref, hold=hold))


def insert_pattern(session: Session, pattern: Pattern, *, numbers: bool = False) -> Pattern:
    """Keep a new pattern; returns it with its id, with `numbers` the one it has."""
    row = _write(new_row(PatternRow, pattern, numbered=numbers), pattern)
    session.add(row)
    session.flush()
    return numbered(pattern, row)


def update_pattern(session: Session, pattern: Pattern) -> Pattern:
    """Keep changes. Raises RefusedError if it was changed since `pattern` was read."""
    row = _write(to_change(session, PatternRow, NOUN, pattern, *WITH_CHILDREN), pattern)
    session.flush()
    return numbered(pattern, row)


def delete_pattern(session: Session, pattern_id: int) -> None:
    """Remove a pattern no make uses. Raises RefusedError naming the makes that do."""
    row = locked(session, PatternRow, NOUN, pattern_id, *WITH_CHILDREN)
    refuse_if_used(
        f"{row.name} is the pattern of makes",
        session.scalars(select(MakeRow.name).where(MakeRow.pattern_id == pattern_id)),
        "Remove these makes first.",
    )
    session.delete(row)
    session.flush()


def _read(session: Session, one: int | None) -> Iterator[Pattern]:
    def read(row: type[Sibling], names: tuple[str, ...], make: Callable[..., T]) -> Children[T]:
        return read_children(session, row, "pattern_id", names, make, one)

    views = read(ViewRow, View._fields, View)
    sizes = _read_sizes(session, one)
    pieces = read(PieceRow, PIECE, _by_name(PIECE, Piece))
    charts = read(ChartCellRow, CHART, _by_name(CHART, ChartRow))
    asks = read(AsksRow, ASKS, _by_name(ASKS, Asks))
    notions = read(NotionRow, NOTION, _by_name(NOTION, Notion))
    for values in read_records(session, PatternRow, COLUMNS, one):
        kept_id = values["id"]
        yield Pattern(
            views=tuple(view.name for view in views.get(kept_id, ())),
            sizes=sizes.get(kept_id, ()),
            pieces=pieces.get(kept_id, ()),
            charts=charts.get(kept_id, ()),
            asks=asks.get(kept_id, ()),
            notions=notions.get(kept_id, ()),
            **values,
        )


def _by_name(names: tuple[str, ...], make: Callable[..., T]) -> Callable[..., T]:
    """The records of a pattern take their fields by name only."""
    return lambda *values: make(**dict(zip(names, values, strict=True)))


def _read_sizes(session: Session, one: int | None) -> dict[int, tuple[Size, ...]]:
    query = select(SizeRow).options(selectinload(SizeRow.measures))
    if one is not None:
        query = query.where(SizeRow.pattern_id == one)
    found: dict[int, tuple[Size, ...]] = {}
    for row in session.scalars(query.order_by(SizeRow.pattern_id, SizeRow.position)):
        body = tuple((m.name, m.length) for m in row.measures if not m.finished)
        finished = tuple((m.name, m.length) for m in row.measures if m.finished)
        size = Size(label=row.label, body=body, finished=finished)
        found[row.pattern_id] = (*found.get(row.pattern_id, ()), size)
    return found


def _write(row: PatternRow, pattern: Pattern) -> PatternRow:
    copy_onto(row, pattern, TYPED)
    fit(row.views, [View(name) for name in pattern.views], ViewRow, View._fields)
    fit(row.sizes, pattern.sizes, SizeRow, ("label",))
    for size_row, size in zip(row.sizes, pattern.sizes, strict=True):
        fit(size_row.measures, _measures(size), SizeMeasureRow, SizeMeasure._fields)
    fit(row.pieces, pattern.pieces, PieceRow, PIECE)
    fit(row.charts, pattern.charts, ChartCellRow, CHART)
    fit(row.asks, pattern.asks, AsksRow, ASKS)
    fit(row.notions, pattern.notions, NotionRow, NOTION)
    return row


def _measures(size: Size) -> list[SizeMeasure]:
    body = [SizeMeasure(False, name, length) for name, length in size.body]
    return body + [SizeMeasure(True, name, length) for name, length in size.finished]
