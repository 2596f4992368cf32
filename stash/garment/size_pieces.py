"""Which pieces a size is cut from, and which it lacks because they are drawn in others only."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from stash.garment.pattern import Pattern, Piece, Role


def of_size(pieces: Iterable[Piece], size: str) -> tuple[Piece, ...]:
    """Those of one view that are cut in this size.

    A piece of the size itself takes the place of its namesake for every size.
    """
    found = tuple(p for p in pieces if p.size in ("", size))
    own = {(p.name.lower(), p.role) for p in found if p.size}
    return tuple(p for p in found if p.size or (p.name.lower(), p.role) not in own)


def lacking(pieces: Iterable[Piece], size: str) -> tuple[Piece, ...]:
    """Those of one view and role that are drawn in other sizes and in no way in this one.

    Without them the garment would be cut without its front.
    """
    pieces = tuple(pieces)
    here = [p for p in pieces if p.size in ("", size)]
    plain = {p.name for p in here}
    others = [p for p in pieces if p.size not in ("", size) and p.name not in plain]
    if not others:  # the usual case, and a plan asks often
        return ()
    known = {name for p in here for name in _names(p.name, p.size)}
    return tuple(p for p in others if known.isdisjoint(_names(p.name, p.size)))


def _names(name: str, size: str) -> tuple[str, ...]:
    """What a piece goes by: `front 42` of size 42 is the front."""
    whole = name.lower()
    bare = " ".join(word for word in whole.split() if word != size.lower())
    return (whole, bare) if size and bare and bare != whole else (whole,)


def lacking_words(pattern: Pattern, view: str, size: str, role: Role | None = None) -> str:
    """`front in size 42, only in size 40`: what this size lacks; empty: nothing."""
    lacked = pattern.lacking(view, size, role)
    if not lacked:
        return ""
    names = list({p.name.lower(): p.name for p in lacked}.values())
    sizes = dict.fromkeys(p.size for p in lacked)
    where = f"in size {size}" if size else "without a size"
    return f"{', '.join(names)} {where}, only in size {', '.join(sizes)}"
