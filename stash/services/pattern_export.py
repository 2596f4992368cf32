"""The pieces of a pattern written to a drawing that other programs read."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.report.sheet_out import write_bytes
from stash.services.known import known_size
from stash.store import patterns as store

if TYPE_CHECKING:
    from pathlib import Path

    from stash.garment.pattern import Pattern, Piece
    from stash.services.stash import Stash


def export_pieces(stash: Stash, ref: str, file: Path, size: str = "") -> Pattern:
    """Write the pieces of a pattern to an .svg or .dxf file at true size.

    Args:
        stash: The stash.
        ref: The pattern.
        file: Where to write; an old file is replaced.
        size: Only what some view is cut from in this size; empty: everything.

    Returns:
        The pattern with only the pieces that were written.

    Raises:
        BadInputError: There are no pieces, no such size, or the file cannot be written.
    """
    with stash.read() as session:
        pattern = store.find_pattern(session, ref)
    known_size(pattern, size)
    pieces = _in_size(pattern, size) if size else pattern.pieces
    if not pieces:
        raise BadInputError(
            f"{pattern.name} has no pieces to draw.", "Draft one: stash pattern piece."
        )
    ending = file.suffix.lower()
    if ending == ".svg":
        from stash.report.pieces_svg import pieces_svg

        text = pieces_svg(pieces)
    elif ending == ".dxf":
        from stash.report.pieces_dxf import pieces_dxf

        text = pieces_dxf(pieces, pattern.name)
    else:
        raise BadInputError(f"{file.name} is no drawing.", "End it in .svg or .dxf.")
    write_bytes(file, text.encode("utf-8"))
    return replace(pattern, pieces=pieces)


def _in_size(pattern: Pattern, size: str) -> tuple[Piece, ...]:
    drawn = [p for view in pattern.views or ("",) for p in pattern.drawn_for(view, size)]
    return tuple(p for p in pattern.pieces if p in drawn)
