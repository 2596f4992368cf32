"""Patterns: finding, adding, editing and removing them, and their pieces and tables."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.errors import BadInputError, RefusedError
from stash.garment.alike import near_names, same_name
from stash.garment.pattern import Asks, ChartRow, Notion, Pattern, Role, Size
from stash.pairing.case import asks_of
from stash.services.clashes import Kind, as_seen, keep_edit
from stash.services.fields import read_record, read_values, texts_of
from stash.services.known import known_ranges, known_size, known_view
from stash.services.names import context
from stash.services.pattern_fields import (
    ASKS_FIELDS,
    CHART_FIELDS,
    NOTION_FIELDS,
    PATTERN_FIELDS,
    SIZE_FIELDS,
)
from stash.services.used_sizes import refuse_lost_sizes
from stash.services.used_views import refuse_lost_views
from stash.store import makes
from stash.store import patterns as store
from stash.store.changes import tell

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sqlalchemy.orm import Session

    from stash.services.stash import Stash

PATTERN = Kind("pattern", PATTERN_FIELDS, store.get_pattern, store.update_pattern)


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternRow:
    """A pattern and how much is known of it."""

    pattern: Pattern
    roles: tuple[Role, ...]
    pieces: int
    """How many pieces have an outline, all sizes together."""
    makes: int
    """How many makes use it."""

    @property
    def sureness(self) -> str:
        """What an amount will rest on."""
        if self.pieces:
            return "laid out"
        return "charted" if self.pattern.charts else "unknown"


def all_patterns(stash: Stash, query: str = "") -> tuple[PatternRow, ...]:
    """The patterns whose name or kind contains every word, by name."""
    words = query.lower().split()
    with stash.read() as session:
        used = [make.pattern_id for make in makes.all_makes(session)]
        return tuple(
            _row(pattern, used.count(pattern.id))
            for pattern in store.all_patterns(session)
            if all(word in f"{pattern.name} {pattern.kind}".lower() for word in words)
        )


def _row(pattern: Pattern, used: int) -> PatternRow:
    labels = tuple(size.label for size in pattern.sizes) or ("",)
    found = {
        role
        for view in (pattern.views or ("",))
        for size in labels
        for role in pattern.roles(view, size)
    }
    roles = tuple(role for role in Role if role in found)
    return PatternRow(pattern=pattern, roles=roles, pieces=len(pattern.pieces), makes=used)


def get_pattern(stash: Stash, ref: str) -> Pattern:
    """The pattern meant by a name, part of a name or number."""
    with stash.read() as session:
        return store.find_pattern(session, ref)


def pattern_texts(stash: Stash, pattern: Pattern) -> dict[str, str]:
    """The text of every field of the header, for a form or for showing."""
    with stash.read() as session:
        return texts_of(PATTERN_FIELDS, pattern, context(stash, session))


def add_pattern(stash: Stash, texts: Mapping[str, str]) -> Pattern:
    """Keep a pattern, described by the texts of `PATTERN_FIELDS`.

    What its kind usually asks of a cloth counts until `set_asks` says otherwise.

    Raises:
        BadInputError: A text is not understood.
        RefusedError: There is a pattern of that name already.
    """
    with stash.write(f"add pattern {texts.get('name', '').strip()}") as session:
        pattern = read_record(PATTERN_FIELDS, texts, None, Pattern, context(stash, session))
        _refuse_same_name(session, pattern)
        return store.insert_pattern(session, _with_known_sizes(pattern))


def near_ones(stash: Stash, pattern: Pattern) -> str:
    """A sentence on patterns named much like this one; empty where there are none."""
    with stash.read() as session:
        others = {p.name: p.id for p in store.all_patterns(session) if p.id != pattern.id}
    found = [f"{name} (number {others[name]})" for name in near_names(pattern.name, others)]
    if not found:
        return ""
    return f"Its name is much like that of {', '.join(found)}: is it the same pattern?"


def _refuse_same_name(session: Session, pattern: Pattern) -> None:
    for other in store.all_patterns(session):
        if other.id != pattern.id and same_name(other.name, pattern.name):
            raise RefusedError(
                f"There is a pattern called {other.name} already, number {other.id}.",
                "Give this one another name, or change the other.",
            )


def _with_known_sizes(pattern: Pattern) -> Pattern:
    """The pattern, if what is traced are sizes it has."""
    for label in pattern.traced:
        known_size(pattern, label)
    return pattern


def edit_pattern(
    stash: Stash,
    ref: str,
    texts: Mapping[str, str],
    *,
    base: Pattern | None = None,
    seen: int | None = None,
) -> Pattern:
    """Change what was typed of the header; `base` and `seen` as in `edit_cloth`."""
    with stash.write(f"edit pattern {ref}") as session:
        old = base or as_seen(session, PATTERN, store.find_pattern(session, ref, hold=True), seen)
        tell(session, f"edit pattern {old.name}")
        context_now = context(stash, session)
        new = read_record(PATTERN_FIELDS, texts, old, Pattern, context_now)
        known = {size.label: size for size in old.sizes}
        sizes = tuple(known.get(size.label, size) for size in new.sizes)
        if not same_name(old.name, new.name):
            _refuse_same_name(session, new)
        changed = _with_known_sizes(replace(new, sizes=sizes))
        refuse_lost_sizes(session, old, changed)
        refuse_lost_views(session, old, changed)
        return keep_edit(session, PATTERN, old, changed, context_now)


def remove_pattern(stash: Stash, ref: str) -> Pattern:
    """Forget a pattern; RefusedError while a make uses it."""
    with stash.write(f"remove pattern {ref}") as session:
        pattern = store.find_pattern(session, ref, hold=True)
        tell(session, f"remove pattern {pattern.name}")
        store.delete_pattern(session, pattern.id)
        return pattern


def add_piece(stash: Stash, ref: str, family: str, texts: Mapping[str, str]) -> Pattern:
    """Draft a piece from a few measures and add it (see `pieces.families`).

    Raises:
        BadInputError: A measure is missing or makes no piece; nothing is kept then.
    """
    from stash.services.pieces import draft

    with stash.write(f"add a piece to pattern {ref}") as session:
        pattern = store.find_pattern(session, ref, hold=True)
        piece = draft(pattern, family, texts, context(stash, session))
        key = (piece.name.lower(), piece.size)
        taken = [p.name for p in pattern.pieces if (p.name.lower(), p.size) == key]
        if taken:
            raise BadInputError(
                f"{pattern.name} already has a piece called {taken[0]!r} in this size.",
                "Give the new piece another name, or remove the old one first.",
            )
        return store.update_pattern(session, replace(pattern, pieces=(*pattern.pieces, piece)))


def add_size(stash: Stash, ref: str, texts: Mapping[str, str]) -> Pattern:
    """Add a row of the size table, or change what was typed of the one with that label."""
    with stash.write(f"add a size to pattern {ref}") as session:
        pattern = store.find_pattern(session, ref, hold=True)
        known = context(stash, session)
        size = Size(**read_values(SIZE_FIELDS, texts, known, only_given=False))
        labels = [one.label for one in pattern.sizes]
        if size.label not in labels:
            return store.update_pattern(session, replace(pattern, sizes=(*pattern.sizes, size)))
        old = pattern.sizes[labels.index(size.label)]
        new = read_record(SIZE_FIELDS, texts, old, Size, known)
        sizes = tuple(new if one is old else one for one in pattern.sizes)
        return store.update_pattern(session, replace(pattern, sizes=sizes))


def add_chart_row(stash: Stash, ref: str, texts: Mapping[str, str]) -> Pattern:
    """Add a row of the envelope's table, or replace the one for the same cell."""
    with stash.write(f"add a chart row to pattern {ref}") as session:
        pattern = store.find_pattern(session, ref, hold=True)
        values = read_values(CHART_FIELDS, texts, context(stash, session), only_given=False)
        row = ChartRow(**values)
        known_size(pattern, row.size)
        known_view(pattern, row.view)
        cell = (row.role, row.view, row.size, row.width, row.with_nap)
        kept = tuple(
            c for c in pattern.charts if (c.role, c.view, c.size, c.width, c.with_nap) != cell
        )
        return store.update_pattern(session, replace(pattern, charts=(*kept, row)))


def set_asks(stash: Stash, ref: str, texts: Mapping[str, str]) -> Pattern:
    """Change what one role asks of its cloth; what is not typed stays as it counts now.

    A role nobody said anything of yet begins with what its garment kind usually asks.
    """
    with stash.write(f"say what pattern {ref} asks") as session:
        pattern = store.find_pattern(session, ref, hold=True)
        known = context(stash, session)
        typed = read_values(ASKS_FIELDS, texts, known, only_given=True)
        old = asks_of(pattern, typed.get("role", Role.MAIN))
        new = known_ranges(read_record(ASKS_FIELDS, texts, old, Asks, known), known)
        kept = tuple(a for a in pattern.asks if a.role != new.role)
        return store.update_pattern(session, replace(pattern, asks=(*kept, new)))


def add_notion(stash: Stash, ref: str, texts: Mapping[str, str]) -> Pattern:
    """Add a notion, or replace the one of the same name, view and size."""
    with stash.write(f"add a notion to pattern {ref}") as session:
        pattern = store.find_pattern(session, ref, hold=True)
        values = read_values(NOTION_FIELDS, texts, context(stash, session), only_given=False)
        notion = Notion(**values)
        known_size(pattern, notion.size)
        known_view(pattern, notion.view)
        same = (notion.name.lower(), notion.view, notion.size)
        kept = tuple(n for n in pattern.notions if (n.name.lower(), n.view, n.size) != same)
        return store.update_pattern(session, replace(pattern, notions=(*kept, notion)))
