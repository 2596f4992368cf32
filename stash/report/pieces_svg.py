"""Pattern pieces as a drawing at true size that reads back as the same pieces."""

from __future__ import annotations

from html import escape
from math import ceil, dist
from typing import TYPE_CHECKING

from stash.garment.pattern import Grain, Role
from stash.geometry.edge_tick import edge_tick
from stash.geometry.ring import bounds
from stash.report.written import number

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.garment.pattern import Piece

GAP = 20
"""Millimetres between two pieces, and around them."""
TICK = 3.0
"""How far the mark of a notch reaches to either side of the edge, mm."""


def pieces_svg(pieces: Sequence[Piece]) -> str:
    """The pieces one below the other, each titled with how it is cut."""
    shapes = []
    wide, high = 0.0, float(GAP)
    for piece in pieces:
        _, _, right, top = bounds(piece.outline)
        shapes.append(_shape(piece, high))
        wide = max(wide, right)
        high += top + GAP
    wide, high = ceil(wide) + 2 * GAP, ceil(high)
    # Inches: readers take 96 dots for one exactly, but often a rounded number for a millimetre.
    size = f'width="{number(wide / 25.4)}in" height="{number(high / 25.4)}in"'
    view = f'viewBox="0 0 {wide} {high}"'
    look = 'fill="none" stroke="#333333" stroke-width="2"'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" {size} {view} {look}>'
    return "\n".join([head, *shapes, "</svg>", ""])


def _shape(piece: Piece, down: float) -> str:
    corners = " ".join(f"{number(x)},{number(y)}" for x, y in piece.outline)
    place = f'transform="translate({GAP},{number(down)})"'
    title = f"<title>{escape(piece_title(piece))}</title>"
    shape = f'  <path {place} d="M {corners} Z">{title}</path>'
    marks = [
        f'  <path {place} d="{_tick(piece, notch)}"><title>notch</title></path>'
        for notch in piece.notches
    ]
    if piece.match is not None:
        x, y = (number(v) for v in piece.match)
        marks.append(f'  <circle {place} cx="{x}" cy="{y}" r="2"><title>match</title></circle>')
    return "\n".join([shape, *marks])


def _tick(piece: Piece, notch: tuple[float, float]) -> str:
    """A short mark across the edge, the notch in its middle."""
    (x1, y1), (x2, y2) = edge_tick(piece.outline, notch, 2 * TICK)
    span = dist((x1, y1), (x2, y2)) or 1.0
    dx, dy = round((x2 - x1) / span * TICK, 3), round((y2 - y1) / span * TICK, 3)
    x, y = notch
    return f"M {number(x - dx)},{number(y - dy)} {number(x + dx)},{number(y + dy)}"


def piece_title(piece: Piece) -> str:
    """`front | cut 2 | size M | grain crosswise | rib | view A, B`."""
    how = " on fold" if piece.on_fold else "" if piece.mirrored else " alike"
    words = [piece.name, f"cut {piece.copies}{how}"]
    if piece.size:
        words.append(f"size {piece.size}")
    if piece.grain is not Grain.LENGTHWISE:
        words.append(f"grain {piece.grain.value}")
    if piece.tolerance:
        words.append(f"tolerance {piece.tolerance}")
    if piece.seam is not None:
        words.append(f"seam {number(piece.seam)}")
    if piece.role is not Role.MAIN:
        words.append(piece.role.value)
    if piece.views:
        words.append(f"view {', '.join(piece.views)}")
    return " | ".join(words)
