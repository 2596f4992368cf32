"""Why a lay cannot be made, in words for the person at the table."""

from __future__ import annotations

import math

from stash.errors import BadInputError


class LayError(BadInputError):
    """The pieces or the cloth make no lay possible."""


class TooNarrowError(LayError):
    """A piece is wider than the cloth, or than one of its two layers if `doubled`. `piece` names
    it, `across` is what it wants in mm, `width` what there is; shown rounded up and down, so
    never alike."""

    def __init__(self, piece: str, across: float, width: float, doubled: bool = False) -> None:
        cloth = "one of the two layers" if doubled else "the cloth"
        super().__init__(
            f"{piece} is {math.ceil(across) / 10:.1f} cm across"
            f" and {cloth} only {math.floor(width) / 10:.1f} cm.",
            "Lay this cloth open."
            if doubled
            else "Choose a wider cloth, or cut that piece in two with a seam.",
        )
        self.piece = piece
        self.across = across
        self.width = width
        self.doubled = doubled


class NoRoomError(LayError):
    """The pieces do not all fit on a remnant."""

    def __init__(self, piece: str) -> None:
        super().__init__(
            f"There is no room left on this remnant for {piece}.",
            "Choose a larger cloth for it.",
        )
        self.piece = piece


class BadOutlineError(LayError):
    """An outline is not a piece: it crosses itself, has no area, or is the wrong size.
    `what` goes on after the name of the piece."""

    def __init__(self, piece: str, what: str, hint: str) -> None:
        super().__init__(f"{piece} {what}", hint)
        self.piece = piece
        self.what = what
