"""The small things a make needs: its notions, elastic to measure, and thread."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from stash.garment.defaults import default_notions
from stash.garment.measures import by_name
from stash.garment.pattern import Notion, Role
from stash.pairing.case import asks_of
from stash.trade.notions import THREAD_RATIOS, thread_needed
from stash.units.format_length import Measure, show_length
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.config import System
    from stash.garment.make import Make, Person
    from stash.garment.pattern import Pattern, Piece

LOCKSTITCH, ZIGZAG, OVERLOCK = "301", "304", "504"

WAIST = ("waist", "waist girth")
"""Names a waist measure goes by; the second is that of ISO 8559-1."""

NOT_SEWN = (Role.INTERFACING,)
"""Roles whose pieces are pressed or caught in, so they add no seam of their own."""


def notions_of(
    make: Make, pattern: Pattern, system: System, person: Person | None = None
) -> tuple[Notion, ...]:
    """What to have ready: the pattern's own list, else what its kind usually takes, and thread.

    Waist elastic is cut to the person's waist where it is known. Thread is reckoned from the
    outlines and left out where there are none.
    """
    own = tuple(
        notion
        for notion in pattern.notions
        if notion.view in ("", make.view) and notion.size in ("", make.size)
    )
    found = own or default_notions(pattern.kind, _waist(person))
    thread = thread_of(make, pattern, system)
    return (*found, thread) if thread else found


def _waist(person: Person | None) -> Length | None:
    if person is None:
        return None
    measures = by_name(person.measures)
    return next((measures[name] for name in WAIST if name in measures), None)


def thread_of(make: Make, pattern: Pattern, system: System) -> Notion | None:
    """Thread from the cut edges of the pieces; None when no outlines are known.

    Every seam joins two cut edges, so the seams are half of all edges. Knits are taken as
    overlocked, wovens as lockstitched with both edges neatened in zigzag; ratios of thread to
    seam by stitch type and the waste at home are in `trade.notions`.
    """
    pieces = [p for p in pattern.pieces_for(make.view, make.size) if p.role not in NOT_SEWN]
    if not pieces:
        return None
    edges = Length.from_mm(sum(_edge(piece) * piece.copies for piece in pieces))
    seams = Length(edges.nm // 2)
    shown = show_length(seams, system, Measure.AMOUNT)
    if tuple(asks_of(pattern, Role.MAIN).structures) == ("knit",):
        total = thread_needed(seams, OVERLOCK)
        how = f"overlock, {float(THREAD_RATIOS[OVERLOCK]):g} times the seam"
    else:
        total = thread_needed(seams, LOCKSTITCH) + thread_needed(edges, ZIGZAG)
        how = (
            f"lockstitch, {float(THREAD_RATIOS[LOCKSTITCH]):g} times the seam, and zigzag on "
            f"every edge, {float(THREAD_RATIOS[ZIGZAG]):g} times"
        )
    whole_metres = Length.from_mm(1000).times(math.ceil(total.mm / 1000))
    return Notion(
        name="thread",
        length=whole_metres,
        note=f"about {shown} of seams in {how}, and a fifth more for ends",
    )


def _edge(piece: Piece) -> float:
    """Length of the cut edge of one copy in mm; an edge on the fold is not cut."""
    ring = piece.outline
    edges = zip(ring, ring[1:] + ring[:1], strict=True)
    cut = sum(math.dist(a, b) for a, b in edges if not (piece.on_fold and a[1] == b[1] == 0))
    return 2 * cut if piece.on_fold else cut
