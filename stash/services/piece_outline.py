"""What a lay would say of a piece later: that it can be laid, and folded where it is half."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.errors import BadInputError

if TYPE_CHECKING:
    from stash.garment.pattern import Piece


def outline_fault(piece: Piece) -> str:
    """What goes on after the name of a piece no lay would take; empty: it is a piece."""
    from stash.lay.errors import BadOutlineError
    from stash.lay.problem import Shape
    from stash.lay.validate import check_outline

    try:
        check_outline(Shape(piece.name, piece.outline, piece.copies, piece.on_fold))
    except BadOutlineError as error:
        return error.what
    return ""


def refuse_unfoldable(piece: Piece) -> None:
    """Refuse to fold a piece that has nothing to fold at; else its whole pattern has no lay.

    Raises:
        BadInputError: It is on the fold without one straight edge for it.
    """
    if piece.on_fold and (fault := outline_fault(piece)):
        raise BadInputError(
            f"{piece.name}: it {fault}",
            "Leave it off the fold (on_fold=no), or draw the half with its fold straight.",
        )
