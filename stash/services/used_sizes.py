"""A size goes only when nothing names it any more."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.errors import BadInputError, RefusedError
from stash.store import makes

if TYPE_CHECKING:
    from collections.abc import Collection

    from sqlalchemy.orm import Session

    from stash.garment.pattern import ChartRow, Notion, Pattern, Piece


def refuse_lost_sizes(session: Session, old: Pattern, new: Pattern) -> None:
    """Refuse a change that takes a size away which is still named.

    Raises:
        BadInputError: By a piece, an amount, a notion or a tracing of the pattern.
        RefusedError: By a make.
    """
    labels = {size.label for size in old.sizes} - {size.label for size in new.sizes}
    rows: tuple[Piece | ChartRow | Notion, ...] = (*new.pieces, *new.charts, *new.notions)
    named = sorted(labels & {*(row.size for row in rows), *new.traced})
    if named:
        raise BadInputError(
            f"Size {named[0]} of {old.name} still has pieces, amounts or a tracing.",
            "Remove those first, or give the size another name with edit-part.",
        )
    refuse_used(session, old, labels)


def refuse_used(session: Session, pattern: Pattern, labels: Collection[str]) -> None:
    """Refuse to take sizes away that a make is sewn in. Raises RefusedError naming the makes."""
    users = [
        make.name for make in makes.makes_of_pattern(session, pattern.id) if make.size in labels
    ]
    if users:
        raise RefusedError(
            f"{pattern.name} is sewn in that size: {', '.join(users)}.",
            "Give these makes another size first.",
        )
