"""Which ways only take cloth away from a need, so that a lay made without them still serves."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.trade.ways import WayKind

if TYPE_CHECKING:
    from collections.abc import Iterable

    from stash.pairing.ways.cut import Way

FREER = frozenset(
    {
        *(WayKind.ALTERATION, WayKind.LAY, WayKind.CROSSWISE, WayKind.DONOR, WayKind.SEAM),
        *(WayKind.LENGTH, WayKind.NAP, WayKind.MARGIN),
    }
)
"""Pieces become smaller, fewer, or freer to turn. A seam or another size is none of these."""


def only_freer(fewer: Iterable[Way], more: Iterable[Way]) -> bool:
    """Whatever `more` does on top of `fewer` only takes cloth away from the need.

    A larger step of the same shortening counts as more of it.
    """
    changed = {way.group: way for way in more}
    for way in fewer:
        after = changed.pop(way.group, None)
        same = after is not None and (after.kind, after.name) == (way.kind, way.name)
        if same:
            continue
        if after is None or way.kind is not WayKind.LENGTH or after.kind is not WayKind.LENGTH:
            return False
        if after.cost < way.cost:
            return False
    return all(way.kind in FREER for way in changed.values())
