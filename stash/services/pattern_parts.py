"""Everything that hangs on a pattern, part by part: pieces, sizes, chart rows, asks, notions."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from stash.errors import BadInputError, NotFoundError
from stash.garment.pattern import Asks, ChartRow, Notion, Piece, Role, Size
from stash.pairing.case import asks_of
from stash.services.fields import read_record, texts_of
from stash.services.known import known_ranges, known_size, known_view
from stash.services.names import context
from stash.services.part_words import part_words
from stash.services.pattern_fields import ASKS_FIELDS, CHART_FIELDS, NOTION_FIELDS, SIZE_FIELDS
from stash.services.piece_outline import refuse_unfoldable
from stash.services.pieces import changed_piece, piece_fields, piece_texts
from stash.services.row_numbers import parse_rows
from stash.services.used_sizes import refuse_lost_sizes, refuse_used
from stash.store import patterns as store
from stash.store.changes import tell

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Mapping

    from stash.garment.pattern import Pattern
    from stash.services.fields import Context, Field
    from stash.services.stash import Stash

Value = Piece | Size | ChartRow | Asks | Notion


class PartKind(StrEnum):
    """What may hang on a pattern, in the order it is listed."""

    PIECE = "piece"
    SIZE = "size"
    CHART = "chart row"
    ASKS = "asks"
    NOTION = "notion"


HOLDS = {
    PartKind.PIECE: "pieces",
    PartKind.SIZE: "sizes",
    PartKind.CHART: "charts",
    PartKind.NOTION: "notions",
}
FIELDS = {
    PartKind.SIZE: SIZE_FIELDS,
    PartKind.CHART: CHART_FIELDS,
    PartKind.ASKS: ASKS_FIELDS,
    PartKind.NOTION: NOTION_FIELDS,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One part, as it is listed."""

    number: int
    """From 1, in the order of the list."""
    kind: PartKind
    value: Value
    title: str
    words: str
    own: bool = True
    """False: asks nobody typed, usual for the garment kind."""


def parts_of(stash: Stash, pattern: Pattern) -> tuple[Part, ...]:
    """Every part of a pattern, numbered."""
    with stash.read() as session:
        known = context(stash, session)
    found: list[tuple[PartKind, Any, bool]] = []
    for kind in PartKind:
        if kind is PartKind.ASKS:
            own = {asks.role for asks in pattern.asks}
            found += [(kind, asks_of(pattern, role), role in own) for role in _roles(pattern)]
        else:
            found += [(kind, value, True) for value in getattr(pattern, HOLDS[kind])]
    parts = []
    for number, (kind, value, own_words) in enumerate(found, 1):
        title, words = part_words(value, known)
        if not own_words:
            words = f"usual for {pattern.kind}: {words}"
        parts.append(
            Part(number=number, kind=kind, value=value, title=title, words=words, own=own_words)
        )
    return tuple(parts)


def _roles(pattern: Pattern) -> tuple[Role, ...]:
    """Roles of any view and size, and those that are asked something; main always."""
    wanted = {Role.MAIN, *(p.role for p in pattern.pieces), *(c.role for c in pattern.charts)}
    wanted |= {asks.role for asks in pattern.asks}
    return tuple(role for role in Role if role in wanted)


def get_part(stash: Stash, ref: str, number: int) -> tuple[Pattern, Part]:
    """A pattern and the part listed under a number. Raises NotFoundError."""
    with stash.read() as session:
        pattern = store.find_pattern(session, ref)
    return pattern, _numbered(stash, pattern, number)


def _numbered(stash: Stash, pattern: Pattern, number: int) -> Part:
    parts = parts_of(stash, pattern)
    if not 1 <= number <= len(parts):
        raise NotFoundError(
            f"{pattern.name} has no part number {number}.",
            f'Its parts are numbered to {len(parts)}: stash pattern parts "{pattern.name}"',
        )
    return parts[number - 1]


def part_fields(part: Part) -> tuple[Field, ...]:
    """What may be changed of a part."""
    if isinstance(part.value, Piece):
        return piece_fields(part.value)
    return FIELDS[part.kind]


def part_texts(stash: Stash, part: Part) -> dict[str, str]:
    """The texts of its fields."""
    with stash.read() as session:
        known = context(stash, session)
    if isinstance(part.value, Piece):
        return piece_texts(part.value, known)
    return texts_of(FIELDS[part.kind], part.value, known)


def edit_part(
    stash: Stash, ref: str, part: Part, texts: Mapping[str, str], *, base: Pattern
) -> Pattern:
    """Change what was typed of one part of the pattern as it was read.

    Raises:
        BadInputError: A text is not understood, or two parts would be the same.
        RefusedError: The pattern was changed meanwhile.
    """
    with stash.write(f"edit {part.kind} {part.title} of pattern {ref}") as session:
        tell(session, f"edit {part.kind} {part.title} of pattern {base.name}")
        new = _changed(base, part, texts, context(stash, session))
        if isinstance(new, Asks):
            kept = tuple(asks for asks in base.asks if asks.role != new.role)
            return store.update_pattern(session, replace(base, asks=(*kept, new)))
        held = HOLDS[part.kind]
        rows: tuple[Value, ...] = tuple(
            new if row is part.value else row for row in getattr(base, held)
        )
        _refuse_twins(base, part, rows)
        if isinstance(new, Size) and isinstance(part.value, Size):
            refuse_used(session, base, {part.value.label} - {new.label})
        return store.update_pattern(session, _renamed(base, part, new, {held: rows}))


def _changed(base: Pattern, part: Part, texts: Mapping[str, str], known: Context) -> Value:
    if isinstance(part.value, Piece):
        piece = changed_piece(base, part.value, texts, known)
        refuse_unfoldable(piece)
        return piece
    kind: Callable[..., Any] = type(part.value)
    new: Any = read_record(FIELDS[part.kind], texts, part.value, kind, known)
    if isinstance(new, (ChartRow, Notion)):
        known_size(base, new.size)
        known_view(base, new.view)
    if isinstance(new, Asks):
        known_ranges(new, known)
    changed: Value = new
    return changed


def _refuse_twins(base: Pattern, part: Part, rows: tuple[Value, ...]) -> None:
    keys = [_key(row) for row in rows]
    if len(set(keys)) < len(keys):
        raise BadInputError(
            f"{base.name} would have two of this {part.kind}.", "Change or remove the other one."
        )


def _key(row: Value) -> tuple[object, ...]:
    match row:
        case Piece():
            return row.name.lower(), row.size, row.views
        case Size():
            return (row.label,)
        case ChartRow():
            return row.role, row.view, row.size, row.width, row.with_nap
        case Notion():
            return row.name.lower(), row.view, row.size
    return (row.role,)


def _renamed(base: Pattern, part: Part, new: Value, held: dict[str, Any]) -> Pattern:
    """With a size under a new label, everything that names it follows."""
    changed = replace(base, **held)
    if not isinstance(new, Size) or not isinstance(part.value, Size):
        return changed
    old, label = part.value.label, new.label

    def follow(rows: tuple[Any, ...]) -> tuple[Any, ...]:
        return tuple(replace(row, size=label) if row.size == old else row for row in rows)

    return replace(
        changed,
        pieces=follow(changed.pieces),
        charts=follow(changed.charts),
        notions=follow(changed.notions),
        traced=tuple(label if one == old else one for one in changed.traced),
    )


def remove_parts(stash: Stash, ref: str, typed: str) -> tuple[Pattern, tuple[Part, ...]]:
    """Take parts out by their numbers, `2` or `3,5-7`; asks go back to what is usual.

    Returns:
        The pattern now, and what was taken out.
    """
    with stash.read() as session:
        base = store.find_pattern(session, ref)
    parts = [_numbered(stash, base, number) for number in sorted(parse_rows(typed, "parts"))]
    return take_out(stash, base, parts), tuple(parts)


def take_out(stash: Stash, base: Pattern, parts: Collection[Part]) -> Pattern:
    """The pattern as it was read without some parts.

    Raises:
        BadInputError: A size that something else still names, or asks that are usual already.
        RefusedError: The pattern was changed meanwhile.
    """
    titles = ", ".join(f"{part.kind} {part.title}" for part in parts)
    for part in parts:
        if not part.own:
            raise BadInputError(
                f"{base.name} asks nothing of its own of {part.title}.",
                "This is what is usual for its kind; change it instead.",
            )
    gone = [part.value for part in parts]
    held: dict[str, Any] = {
        name: tuple(row for row in getattr(base, name) if not any(row is one for one in gone))
        for name in (*HOLDS.values(), "asks")
    }
    left = replace(base, **held)
    with stash.write(f"remove {titles} of pattern {base.name}") as session:
        refuse_lost_sizes(session, base, left)
        return store.update_pattern(session, left)
