"""A lay as an SVG drawing at true scale: printed at 100 %, a millimetre is a millimetre.

Length runs to the right, width downwards; one unit of the drawing is one millimetre.
"""

from __future__ import annotations

from math import cos, radians, sin
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape, quoteattr

from stash.config import System
from stash.report.ink import ink_on, tint
from stash.report.lay_cells import spans
from stash.units.format_length import Measure, show_length
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.lay.problem import Ring
    from stash.lay.result import Lay, Placement
    from stash.report.records import LaidOut

MARGIN = 60.0
"""Room around the cloth for the ruler and the words."""
HEAD = 110.0
"""Room above the cloth for the title."""
PLAIN = "#808080"
"""The colour of a bare width."""
PAPER = 0.72
"""How much lighter than the cloth a piece is drawn."""
RULERS = {System.METRIC: (100.0, 10.0, "cm"), System.IMPERIAL: (114.3, 25.4, "in")}
"""Millimetres between marks, millimetres in the unit written, its sign."""


def lay_svg(laid: LaidOut, lay: Lay, system: System) -> str:
    """The drawing of one lay.

    Args:
        laid: What is laid on what.
        lay: Its lay.
        system: Units of the ruler and the words.
    """
    edge = _selvedge(laid)
    wide, high = lay.need + 2 * MARGIN, lay.width + 2 * edge + HEAD + 2 * MARGIN
    top = HEAD + edge
    colour = laid.cloth.colour if laid.cloth is not None else PLAIN
    body = [
        *_head(laid, lay, system),
        f'<g transform="translate({MARGIN:g} {top:g})">',
        *_ground(lay, edge, colour),
        *_flaws(laid),
        *(line for placement in lay.placements for line in _piece(placement, lay, colour)),
        *_fold(lay, colour),
        *_ruler(lay, edge, system),
        "</g>",
    ]
    size = f'width="{wide:.1f}mm" height="{high:.1f}mm" viewBox="0 0 {wide:.1f} {high:.1f}"'
    lines = (
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} font-family="sans-serif">',
        f"<title>{escape(laid.title)}</title>",
        *body,
        "</svg>",
    )
    return "\n".join(lines) + "\n"


def _selvedge(laid: LaidOut) -> float:
    """Width of each selvedge once washed, in mm."""
    if laid.cloth is None:
        return 10.0
    return laid.cloth.selvedge.mm * (1 - laid.shrinkage[1] / 100)


def _head(laid: LaidOut, lay: Lay, system: System) -> Iterator[str]:
    need = show_length(Length.from_mm(lay.need), system, Measure.NEED)
    width = show_length(laid.usable_width, system, Measure.WIDTH)
    size = f", size {laid.size}" if laid.size else ""
    facts = f"{need} of {width} usable width, {lay.kind}, {laid.nap_words}{size}"
    yield _text(MARGIN, 40, laid.title, 30, "#111111", "start")
    yield _text(MARGIN, 75, facts, 22, "#333333", "start")


def _ground(lay: Lay, edge: float, colour: str) -> Iterator[str]:
    yield (
        f'<rect x="0" y="{-edge:g}" width="{lay.need:.2f}" height="{lay.width + 2 * edge:.2f}" '
        f'fill="{colour}" stroke="#333333" stroke-width="1"/>'
    )
    for y in (-edge, lay.width):
        yield (
            f'<rect class="selvedge" x="0" y="{y:.2f}" width="{lay.need:.2f}" '
            f'height="{edge:.2f}" fill="{tint(colour, 0.35)}"/>'
        )


def _flaws(laid: LaidOut) -> Iterator[str]:
    if laid.problem is None:
        return
    for spot in laid.problem.spots:
        yield (
            f'<circle class="flaw" cx="{spot.x:.1f}" cy="{spot.y:.1f}" r="{spot.radius:.1f}" '
            'fill="#ffffff" stroke="#b00020" stroke-width="2" stroke-dasharray="6 4"/>'
        )


def _piece(placement: Placement, lay: Lay, colour: str) -> Iterator[str]:
    fill = tint(colour, PAPER if not placement.waste else 0.35)
    ink = ink_on(fill)
    points = " ".join(f"{x:.2f},{y:.2f}" for x, y in placement.polygon)
    dash = ' stroke-dasharray="8 5"' if placement.waste else ""
    copies = sum(1 for p in lay.placements if p.shape == placement.shape and not p.waste)
    name = f"{placement.name} {placement.copy}/{copies}" if copies > 1 else placement.name
    if placement.waste:
        name = f"{placement.name} (not needed)"
    x, y, room = roomiest(placement.polygon)
    size = max(6.0, min(26.0, room / max(1, len(name)) * 1.5))
    yield f'<g class="piece" data-name={quoteattr(placement.name)}>'
    yield (
        f'<polygon points="{points}" fill="{fill}" stroke="{ink}" stroke-width="1.2"'
        f'{dash} stroke-linejoin="round"/>'
    )
    yield _text(x, y - 0.3 * size, name, size, ink, "middle")
    yield _grain(x, y + 0.6 * size, min(0.3 * room, 90.0), placement.turn, ink)
    yield "</g>"


def _grain(x: float, y: float, half: float, turn: int, ink: str) -> str:
    """An arrow along the piece's own grain line, pointing to its head end."""
    dx, dy = cos(radians(turn)), sin(radians(turn))
    tip = (x + half * dx, y + half * dy)
    barb = min(8.0, half / 2)
    wings = []
    for side in (150, -150):
        wx, wy = cos(radians(turn + side)), sin(radians(turn + side))
        wings.append((tip[0] + barb * wx, tip[1] + barb * wy))
    path = f"M{x - half * dx:.1f} {y - half * dy:.1f}L{tip[0]:.1f} {tip[1]:.1f}"
    path += "".join(f"M{tip[0]:.1f} {tip[1]:.1f}L{wx:.1f} {wy:.1f}" for wx, wy in wings)
    return f'<path class="grain" d="{path}" stroke="{ink}" stroke-width="1.2" fill="none"/>'


def _fold(lay: Lay, colour: str) -> Iterator[str]:
    ink = ink_on(colour)
    ends = [((0.0, y), (lay.folded_to, y)) for y in lay.folds]
    if lay.cross_fold is not None:
        ends.append(((lay.cross_fold, 0.0), (lay.cross_fold, lay.width)))
    for (x1, y1), (x2, y2) in ends:
        yield (
            f'<line class="fold" x1="{x1:.2f}" y1="{y1:.2f}" x2="{x2:.2f}" y2="{y2:.2f}" '
            f'stroke="{ink}" stroke-width="2" stroke-dasharray="18 6 4 6"/>'
        )
        yield _text(x1 + 4, max(y1 - 4, 14), "fold", 14, ink, "start")
    if ends and lay.folded_to < lay.need:
        yield (
            f'<line class="fold-end" x1="{lay.folded_to:.2f}" y1="0" x2="{lay.folded_to:.2f}" '
            f'y2="{lay.width:.2f}" stroke="{ink}" stroke-width="1" stroke-dasharray="4 6"/>'
        )
        yield _text(lay.folded_to + 6, 16, "single layer", 14, ink, "start")


def _ruler(lay: Lay, edge: float, system: System) -> Iterator[str]:
    step, unit, sign = RULERS[system]
    base = lay.width + edge + 14
    yield (
        f'<line x1="0" y1="{base:.1f}" x2="{lay.need:.1f}" y2="{base:.1f}" stroke="#333333" '
        'stroke-width="1"/>'
    )
    for count in range(int(lay.need / step) + 1):
        x = count * step
        yield (
            f'<line class="tick" x1="{x:.1f}" y1="{base:.1f}" x2="{x:.1f}" y2="{base + 8:.1f}" '
            'stroke="#333333" stroke-width="1"/>'
        )
        label = f"{x / unit:g}" + ("" if count else f" {sign}")
        yield _text(x, base + 24, label, 14, "#333333", "middle")


def _text(x: float, y: float, words: str, size: float, ink: str, anchor: str) -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size:.1f}" fill="{ink}" '
        f'text-anchor="{anchor}">{escape(words)}</text>'
    )


def roomiest(polygon: Ring) -> tuple[float, float, float]:
    """A point well inside a polygon and about how long the level line through it is."""
    low, high = min(y for _, y in polygon), max(y for _, y in polygon)
    best = (polygon[0][0], polygon[0][1], 0.0)
    middle = (low + high) / 2
    for step in range(1, 21):
        y = low + (high - low) * step / 21
        for left, right in spans(polygon, y):
            near = 1 - 0.5 * abs(y - middle) / (high - low)
            if (right - left) * near > best[2]:
                best = ((left + right) / 2, y, (right - left) * near)
    return best
