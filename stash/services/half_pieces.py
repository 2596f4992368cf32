"""A half that is no longer cut on the fold: of one copy only half a garment is left."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.garment.draft.piece import FAMILIES

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.garment.pattern import Pattern, Piece


def half_words(before: Pattern, now: Pattern) -> str:
    """Which halves just kept make no whole pieces, and what to type; empty: none.

    A piece that was changed stands in its old place, one that was added at the end.
    """
    return " ".join(_told(before, now))


def _told(before: Pattern, now: Pattern) -> Iterator[str]:
    for place, piece in enumerate(now.pieces):
        if piece in before.pieces:
            continue
        old = before.pieces[place] if len(before.pieces) == len(now.pieces) else None
        if not _only_halves(old, piece):
            continue
        halves = "one half" if piece.copies == 1 else f"{piece.copies} halves"
        way = ", all the same way round" if piece.copies > 1 and not piece.mirrored else ""
        was_folded = old is not None and old.on_fold
        wanted = 2 * old.copies if old and was_folded else piece.copies + piece.copies % 2
        yield (
            f"Only {halves} of {piece.name} {'is' if piece.copies == 1 else 'are'} cut now{way}. "
            f'For both halves: stash pattern edit-part "{now.name}" {place + 1} '
            f"copies={wanted} mirrored=yes"
        )


def _only_halves(old: Piece | None, piece: Piece) -> bool:
    """It is half of a piece, and was just taken off the fold without its other half."""
    drafted_half = piece.family in FAMILIES and FAMILIES[piece.family].on_fold
    was_folded = old is not None and old.on_fold
    if piece.on_fold or not (was_folded or drafted_half):
        return False
    if old is not None and _cut(old) == _cut(piece):
        return False  # said when it was
    paired = piece.mirrored and piece.copies % 2 == 0
    return not paired or (old is not None and was_folded and piece.copies == old.copies)


def _cut(piece: Piece) -> tuple[int, bool, bool]:
    return piece.copies, piece.on_fold, piece.mirrored
