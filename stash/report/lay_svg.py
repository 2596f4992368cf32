"""A lay as an SVG drawing at true scale: printed at 100 %, a millimetre is a millimetre.

Length runs to the right, width downwards; one unit of the drawing is one millimetre.
"""

from __future__ import annotations

from math import cos, radians, sin
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape, quoteattr

from stash.report.cell_sheet import spans
from stash.report.ink import ink_on, tint
from stash.report.lay_marks import (
    cut_words,
    end_of_layers,
    flaws_of,
    folds_of,
    is_on_fold,
    layer_edges,
    repeat_lines,
)
from stash.report.svg_marks import ruler_across, ruler_along, text
from stash.units.format_length import Measure, show_length
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.config import System
    from stash.lay.problem import Problem, Ring
    from stash.lay.result import Lay, Placement
    from stash.report.lay_marks import Stretch
    from stash.report.records import LaidOut

MARGIN = 60.0
"""Room around the cloth for the ruler and the words."""
HEAD = 110.0
"""Room above the cloth for the title."""
PLAIN = "#808080"
"""The colour of a bare width."""
PAPER = 0.72
"""How much lighter than the cloth a piece is drawn."""
SMALLEST = 6.0
"""Type below this size in mm is not written."""


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
        f'<rect width="{wide:.1f}" height="{high:.1f}" fill="#ffffff"/>',
        *_head(laid, lay, system),
        f'<g transform="translate({MARGIN:g} {top:g})">',
        *_ground(lay, edge, colour),
        *_remnant(laid.problem, colour),
        *_repeat(lay, laid.problem, colour),
        *(line for p in lay.placements for line in _piece(p, lay, laid.problem, colour)),
        *_flaws(laid.problem),
        *_folds(lay, colour),
        *ruler_along(lay, edge, system),
        *ruler_across(lay, system),
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
    if laid.keeps_selvedges:
        return 0.0
    if laid.cloth is None:
        return 10.0
    return laid.cloth.selvedge.mm * (1 - laid.shrinkage[1] / 100)


def _head(laid: LaidOut, lay: Lay, system: System) -> Iterator[str]:
    need = show_length(Length.from_mm(lay.need), system, Measure.NEED)
    width = show_length(laid.usable_width, system, Measure.WIDTH)
    size = f", size {laid.size}" if laid.size else ""
    facts = f"{need} of {width} {laid.width_words}, {lay.kind}, {laid.nap_words}{size}"
    yield text(MARGIN, 40, laid.title, 30, "#111111", "start")
    yield text(MARGIN, 75, facts, 22, "#333333", "start")


def _ground(lay: Lay, edge: float, colour: str) -> Iterator[str]:
    yield (
        f'<rect class="cloth" x="0" y="{-edge:g}" width="{lay.need:.2f}" '
        f'height="{lay.width + 2 * edge:.2f}" fill="{colour}" stroke="#333333" stroke-width="1"/>'
    )
    fill = tint(colour, 0.35)
    for y in (-edge, lay.width):
        yield (
            f'<rect class="selvedge" x="0" y="{y:.2f}" width="{lay.need:.2f}" '
            f'height="{edge:.2f}" fill="{fill}"/>'
        )
        if edge >= SMALLEST:
            size = min(12.0, edge)
            yield text(8, y + (edge + 0.7 * size) / 2, "selvedge", size, ink_on(fill), "start")


def _remnant(problem: Problem | None, colour: str) -> Iterator[str]:
    """The shape of the cloth where it is a remnant."""
    if problem is not None and problem.outline:
        yield (
            f'<polygon class="remnant" points="{_points(problem.outline)}" fill="none" '
            f'stroke="{ink_on(colour)}" stroke-width="2.5"/>'
        )


def _repeat(lay: Lay, problem: Problem | None, colour: str) -> Iterator[str]:
    """The lines of the print's repeat, lightly."""
    for line in repeat_lines(lay, problem):
        yield _line("repeat", line, ink_on(colour), 'stroke-width="0.8" stroke-opacity="0.35"')


def _flaws(problem: Problem | None) -> Iterator[str]:
    """What is to be kept clear, on top of all: round ones as circles, the others as drawn."""
    if problem is None:
        return
    style = (
        'fill="#ffffff" fill-opacity="0.85" stroke="#b00020" stroke-width="2" '
        'stroke-dasharray="6 4"'
    )
    for spot in problem.spots:
        yield (
            f'<circle class="flaw" cx="{spot.x:.1f}" cy="{spot.y:.1f}" r="{spot.radius:.1f}" '
            f"{style}/>"
        )
    for ring in problem.patches:
        yield f'<polygon class="flaw" points="{_points(ring)}" {style}/>'
    for ring in flaws_of(problem):
        left, right = min(x for x, _ in ring), max(x for x, _ in ring)
        low, high = min(y for _, y in ring), max(y for _, y in ring)
        size = min(14.0, (right - left) / 2.6)
        if size >= SMALLEST:
            x, y = (left + right) / 2, (low + high + 0.7 * size) / 2
            yield text(x, y, "flaw", size, "#b00020", "middle")


def _piece(placement: Placement, lay: Lay, problem: Problem | None, colour: str) -> Iterator[str]:
    """Outline, name, how often it is cut, and its grain line."""
    fill = tint(colour, PAPER if not placement.waste else 0.35)
    ink = ink_on(fill)
    dash = ' stroke-dasharray="8 5"' if placement.waste else ""
    copies = sum(1 for p in lay.placements if p.shape == placement.shape and not p.waste)
    name = placement.name
    if copies > 1 and not placement.waste:
        name = f"{name} {placement.copy}/{copies}"
    cut = cut_words(placement, lay, problem)
    x, y, room = roomiest(_free_of_folds(placement, lay))
    tall = _tall(placement.polygon, x, y)
    size = max(SMALLEST, min(26.0, room / len(name) * 1.5, tall / 3.2))
    small = max(SMALLEST, min(0.7 * size, room / len(cut) * 1.5))
    yield f'<g class="piece" data-name={quoteattr(placement.name)}>'
    yield (
        f'<polygon points="{_points(placement.polygon)}" fill="{fill}" stroke="{ink}" '
        f'stroke-width="1.2"{dash} stroke-linejoin="round"/>'
    )
    upright = abs(sin(radians(placement.turn)))
    half = min((0.3 - 0.1 * upright) * (tall if upright > 0.5 else room), 90.0)
    y -= half * upright
    yield text(x, y - 0.55 * size, name, size, ink, "middle")
    yield text(x, y - 0.55 * size + 1.1 * small, cut, small, ink, "middle")
    yield _grain(x, y + 0.7 * size + half * upright, half, placement.turn, ink)
    yield "</g>"


def _free_of_folds(placement: Placement, lay: Lay) -> Ring:
    """Where its words may stand: a piece on a fold keeps them off the line, in its lower half."""
    if not is_on_fold(placement, lay):
        return placement.polygon
    ys = [y for _, y in placement.polygon]
    middle = (min(ys) + max(ys)) / 2
    return tuple((x, max(y, middle)) for x, y in placement.polygon)


def _tall(polygon: Ring, x: float, y: float) -> float:
    """How long the upright line through a point inside the polygon is."""
    turned = tuple((b, a) for a, b in polygon)
    return next((high - low for low, high in spans(turned, x) if low <= y <= high), 0.0)


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


def _folds(lay: Lay, colour: str) -> Iterator[str]:
    """Folds, the edge of a layer that covers part of the width, and where layers end."""
    ink = ink_on(colour)
    for line in folds_of(lay):
        yield _line("fold", line, ink, 'stroke-width="2" stroke-dasharray="18 6 4 6"')
        yield from _tag(line.x1 + 4, max(line.y1 - 5, 15), "fold", colour)
    for line in layer_edges(lay):
        yield _line("layer-edge", line, ink, 'stroke-width="1" stroke-dasharray="10 5"')
        yield from _tag(line.x1 + 4, max(line.y1 - 5, 15), "folded-in selvedge", colour)
    end = end_of_layers(lay)
    if end is not None:
        yield _line("fold-end", end, ink, 'stroke-width="1" stroke-dasharray="4 6"')
        yield from _tag(end.x1 + 6, 17, "single layer", colour)


def _tag(x: float, y: float, words: str, colour: str) -> Iterator[str]:
    """Words that stay legible wherever they come to lie."""
    yield (
        f'<rect x="{x - 3:.1f}" y="{y - 12:.1f}" width="{7.6 * len(words) + 6:.1f}" height="16" '
        f'fill="{colour}" fill-opacity="0.85"/>'
    )
    yield text(x, y, words, 14, ink_on(colour), "start")


def _line(name: str, line: Stretch, ink: str, style: str) -> str:
    return (
        f'<line class="{name}" x1="{line.x1:.2f}" y1="{line.y1:.2f}" x2="{line.x2:.2f}" '
        f'y2="{line.y2:.2f}" stroke="{ink}" {style}/>'
    )


def _points(ring: Ring) -> str:
    return " ".join(f"{x:.2f},{y:.2f}" for x, y in ring)


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
