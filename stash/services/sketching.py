"""A piece as it is being typed: drawn as far as its measures are known."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.errors import StashError
from stash.services.names import context
from stash.services.pieces import doubts, draft, family_form

if TYPE_CHECKING:
    from collections.abc import Mapping

    from stash.garment.pattern import Pattern, Piece
    from stash.services.stash import Stash


@dataclass(frozen=True, slots=True)
class Sketch:
    """What can be drawn of a piece, and what is to be said about it."""

    piece: Piece | None
    """None: too little is known, or it makes no shape; `says` tells."""
    says: tuple[str, ...]
    """Questions about its measures, or what is missing or wrong."""


def sketch(stash: Stash, pattern: Pattern, family: str, texts: Mapping[str, str]) -> Sketch:
    """The piece these texts would draft; nothing is kept."""
    with stash.read() as session:
        known = context(stash, session)
    named = {**texts, "name": texts.get("name", "").strip() or family}
    fields = family_form(family).fields
    missing = [f.label.lower() for f in fields if f.required and not named.get(f.key, "").strip()]
    if missing:
        return Sketch(None, (f"Still to be typed: {', '.join(missing)}.",))
    try:
        piece = draft(pattern, family, named, known)
    except StashError as error:
        return Sketch(None, tuple(error.message.splitlines()))
    return Sketch(piece, doubts(piece, known))
