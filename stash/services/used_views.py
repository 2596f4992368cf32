"""A view goes only when nothing names it any more."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.errors import BadInputError, RefusedError
from stash.services.part_words import titled
from stash.store import makes

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sqlalchemy.orm import Session

    from stash.garment.pattern import Pattern


def refuse_lost_views(session: Session, old: Pattern, new: Pattern) -> None:
    """Refuse a change that takes a view away which is still named.

    Raises:
        BadInputError: By a piece, a chart row or a notion of the pattern; it names them.
        RefusedError: By a make.
    """
    for view in old.views:
        if view in new.views:
            continue
        beside = ", ".join(dict.fromkeys((*old.views, *new.views)))
        way = f'stash pattern edit "{old.name}" --views "{beside}"' if new.views else ""
        first = f"To rename it, have both views ({way}), then " if way else "First "
        if named := ", ".join(_named(new, view)):
            raise BadInputError(
                f"View {view} of {old.name} is still that of {named}.",
                f'{first}give these another view, or remove them: stash pattern parts "{old.name}"',
            )
        users = [make.name for make in makes.makes_of_pattern(session, old.id) if make.view == view]
        if users:
            raise RefusedError(
                f"{old.name} is sewn in view {view}: {', '.join(users)}.",
                f"{first}give these makes another view: stash make edit MAKE --view …",
            )


def _named(pattern: Pattern, view: str) -> Iterator[str]:
    """The parts that name this view."""
    for piece in pattern.pieces:
        if view in piece.views:
            yield f"piece {titled(piece.name, piece.size)}"
    rows = [row for row in pattern.charts if row.view == view]
    if rows:
        yield f"{len(rows)} chart row{'s' * (len(rows) > 1)}"
    for notion in pattern.notions:
        if notion.view == view:
            yield f"notion {titled(notion.name, notion.size)}"
