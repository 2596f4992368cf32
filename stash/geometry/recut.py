"""Cutting an outline another way: a strip added, a length taken out, a seam across. Millimetres."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pyclipper

from stash.geometry.ring import (
    FloatRing,
    anticlockwise,
    bounds,
    clean,
    open_out,
    shift,
    signed_area,
    turn,
)

if TYPE_CHECKING:
    from collections.abc import Callable

FINE = 1000
"""Clipping is done in whole micrometres."""
BAND = (0.4, 0.6)
"""The share of a length that is taken up when it is shortened: its middle, where neither an
armhole nor a hem lies, whichever way up it is drawn."""
LEAST_PART = 30.0
"""A part of a piece shorter than this is no piece any more."""


def with_strip(ring: FloatRing, by: float) -> FloatRing:
    """A ring above y = 0 with a strip `by` wide added below its longest edge on y = 0.

    The strip begins at y = 0; everything else moves up. Raises ValueError when no edge lies
    on y = 0.
    """
    ring = clean(ring)
    place = _bottom(ring)
    (start, _), (end, _) = ring[place - 1], ring[place]
    moved = shift(ring, 0.0, by)
    return clean((*moved[:place], (start, 0.0), (end, 0.0), *moved[place:]))


def _bottom(ring: FloatRing) -> int:
    """Index of the point at which the longest edge on y = 0 ends."""
    best, longest = -1, 0.0
    for place, (x, y) in enumerate(ring):
        before, height = ring[place - 1]
        if y == 0 and height == 0 and x - before > longest:
            best, longest = place, x - before
    if best < 0:
        raise ValueError("no edge lies on y = 0")
    return best


def shortener(ring: FloatRing, by: float) -> Callable[[float], float] | None:
    """Where each x of the ring goes when it is made `by` shorter; None: it is too short for it.

    The middle of its length is drawn together evenly, so that its sides stay smooth.
    """
    low, _, high, _ = bounds(ring)
    start, end = (low + share * (high - low) for share in BAND)
    if by >= (end - start) * 0.9:
        return None
    rate = (end - start - by) / (end - start)

    def moved(x: float) -> float:
        if x <= start:
            return x
        return x - by if x >= end else start + (x - start) * rate

    return moved


def shortened(ring: FloatRing, by: float) -> FloatRing | None:
    """The ring made `by` shorter in x, see `shortener`; None: it is too short for it."""
    moved = shortener(ring, by)
    if moved is None:
        return None
    low, _, high, _ = bounds(ring)
    lines = tuple(low + share * (high - low) for share in BAND)
    # Corners on the two lines keep the map straight between corners, so nothing can cross.
    cornered = _with_corners(ring, lines)
    return clean(tuple((moved(x), y) for x, y in cornered))


def _with_corners(ring: FloatRing, lines: tuple[float, ...]) -> FloatRing:
    points: list[tuple[float, float]] = []
    for (x0, y0), (x1, y1) in zip(ring[-1:] + ring[:-1], ring, strict=True):
        cut = [line for line in lines if min(x0, x1) < line < max(x0, x1)]
        for line in sorted(cut, reverse=x1 < x0):
            points.append((line, y0 + (line - x0) * (y1 - y0) / (x1 - x0)))
        points.append((x1, y1))
    return tuple(points)


def trimmed(ring: FloatRing, by: float, *, on_fold: bool) -> FloatRing | None:
    """The ring with `by` cut away all round; with `on_fold` not along its fold edge on y = 0.

    None when nothing whole is left of it.
    """
    whole = open_out(ring) if on_fold else ring
    offset = pyclipper.PyclipperOffset(miter_limit=10.0)
    offset.AddPath(_fine(whole), pyclipper.JT_MITER, pyclipper.ET_CLOSEDPOLYGON)
    left = offset.Execute(-by * FINE)
    if len(left) != 1 or len(left[0]) < 3:
        return None
    inner = _coarse(left[0])
    if not on_fold:
        return inner
    low_x, _, high_x, high_y = bounds(inner)
    half = _within(inner, (low_x - 1, 0.0, high_x + 1, high_y + 1))
    return half if half is not None and _edge_on_fold(half) else None


def _edge_on_fold(ring: FloatRing) -> bool:
    return any(a[1] == 0 and b[1] == 0 for a, b in zip(ring, ring[1:] + ring[:1], strict=True))


def in_two(ring: FloatRing, by: float) -> tuple[FloatRing, FloatRing] | None:
    """Both parts of the ring cut across the middle of its length, `by` added to each at the cut.

    None where the cut would not fall into two whole parts.
    """
    low, bottom, high, top = bounds(ring)
    middle = (low + high) / 2
    first = _within(ring, (low - 1, bottom - 1, middle, top + 1))
    second = _within(ring, (middle, bottom - 1, high + 1, top + 1))
    if first is None or second is None or middle - low < LEAST_PART:
        return None
    middle = round(middle, 3)
    parts = []
    for part, way in ((first, 270), (second, 90)):
        # The cut edge is turned on to y = 0, the part above it.
        turned = turn(shift(part, -middle, 0.0), way)
        try:
            wider = with_strip(turned, by)
        except ValueError:
            return None
        if sum(1 for _, y in turned if y == 0) != 2:
            return None
        parts.append(_placed(turn(wider, 360 - way)))
    return parts[0], parts[1]


def _placed(ring: FloatRing) -> FloatRing:
    low, bottom, _, _ = bounds(ring)
    return tuple((x - low + 0.0, y - bottom + 0.0) for x, y in ring)


def _within(ring: FloatRing, box: tuple[float, float, float, float]) -> FloatRing | None:
    """The part of the ring in a box; None when it falls into several or is nothing."""
    x0, y0, x1, y1 = box
    clip = pyclipper.Pyclipper()
    clip.AddPath(_fine(ring), pyclipper.PT_SUBJECT, True)
    clip.AddPath(_fine(((x0, y0), (x1, y0), (x1, y1), (x0, y1))), pyclipper.PT_CLIP, True)
    found = clip.Execute(pyclipper.CT_INTERSECTION, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO)
    if len(found) != 1:
        return None
    inner = _coarse(found[0])
    return inner if len(inner) >= 3 and signed_area(inner) > 1 else None


def _fine(ring: FloatRing) -> list[tuple[int, int]]:
    return [(round(x * FINE), round(y * FINE)) for x, y in ring]


def _coarse(path: list[list[int]]) -> FloatRing:
    return clean(anticlockwise(tuple((x / FINE, y / FINE) for x, y in path)))
