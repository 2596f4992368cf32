"""A lay as an SVG drawing at true scale: printed at 100 %, a millimetre is a millimetre.

Length runs to the right, width downwards; one unit of the drawing is one millimetre.
"""

from __future__ import annotations

from math import cos, radians, sin
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape, quoteattr

from stash.report.ink import ink_on, tint
from stash.report.lay_labels import WIDE, label_of
from stash.report.lay_marks import (
    cut_words,
    end_of_layers,
    flaws_of,
    folds_of,
    is_on_fold,
    layer_edges,
    match_points,
    repeat_lines,
)
from stash.report.lay_notches import notch_ticks
from stash.report.lay_words import bound_words, fold_words, size_words, wash_words
from stash.report.svg_marks import ruler_across, ruler_along, text
from stash.units.format_length import Measure, show_length
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.config import System
    from stash.lay.problem import Problem, Ring
    from stash.lay.result import Lay, Placement
    from stash.report.lay_labels import Label
    from stash.report.lay_marks import Stretch
    from stash.report.records import LaidOut

MARGIN = 60.0
"""Room around the cloth for the ruler and the words."""
HEAD = 165.0
"""Room above the cloth for the title."""
PLAIN = "#808080"
"""The colour of a bare width."""
PAPER = 0.72
"""How much lighter than the cloth a piece is drawn."""
SMALLEST = 6.0
"""Type below this size in mm is not written."""
CROSS = 9.0
"""Half an arm of the cross that marks a match point, mm."""


def lay_svg(laid: LaidOut, lay: Lay, system: System) -> str:
    """The drawing of one lay.

    Args:
        laid: What is laid on what.
        lay: Its lay.
        system: Units of the ruler and the words.
    """
    edge = _selvedge(laid)
    head = _head(laid, lay, system)
    words = max(size * len(line) for line, size in head)
    remnant = laid.problem.outline if laid.problem is not None else ()
    reach = max((x for x, _ in remnant), default=0.0)
    wide = max(lay.need, reach, WIDE * words) + 2 * MARGIN
    high = lay.width + 2 * edge + HEAD + 2 * MARGIN
    top = HEAD + edge
    colour = laid.cloth.colour if laid.cloth is not None else PLAIN
    body = [
        f'<rect width="{wide:.1f}" height="{high:.1f}" fill="#ffffff"/>',
        *_written(head),
        f'<g transform="translate({MARGIN:g} {top:g})">',
        *(_remnant(remnant, colour) if remnant else _ground(lay, edge, colour)),
        *_repeat(lay, laid.problem, colour),
        *(_piece(p, colour) for p in lay.placements),
        *_notches(laid, lay, colour),
        *_folds(lay, colour),
        *(line for p in lay.placements for line in _words(p, lay, laid.problem, colour)),
        *_matches(lay, laid.problem, colour),
        *_flaws(laid.problem),
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


def _head(laid: LaidOut, lay: Lay, system: System) -> list[tuple[str, float]]:
    """What stands over the drawing, each line with the height of its type."""

    def shown(length: Length, measure: Measure) -> str:
        return show_length(length, system, measure)

    drawn = shown(Length.from_mm(lay.need), Measure.NEED)
    size = f", {words}" if (words := size_words(laid)) else ""
    width = shown(laid.usable_width, Measure.USABLE)
    facts = f"{drawn} of {width} {laid.width_words}, {lay.kind}, {laid.nap_words}{size}"
    bound = shown(Length.from_mm(laid.least_mm or 0.0), Measure.LEAST)
    lines = [
        (laid.title, 30.0),
        (facts, 22.0),
        (f"Cannot be shorter than {bound}: {bound_words(laid, lay)}.", 16.0),
    ]
    need = laid.need.length
    if need is not None and abs(need.mm - lay.need) > 1:
        lines.append((f"Needed in all: {shown(need, Measure.NEED)}. {laid.need.why}", 16.0))
    more = (*wash_words(laid, system), *fold_words(lay, system))
    lines += [(" ".join(words.split()), 16.0) for words in more]
    return lines


def _written(head: list[tuple[str, float]]) -> Iterator[str]:
    y = 12.0
    for words, size in head:
        y += 1.35 * size if size < 30 else size
        yield text(MARGIN, y, words, size, "#111111", "start")


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


def _remnant(outline: Ring, colour: str) -> Iterator[str]:
    """The shape of a remnant; nobody says which of its edges is a selvedge."""
    yield (
        f'<polygon class="remnant" points="{_points(outline)}" fill="{colour}" '
        f'stroke="#333333" stroke-width="2"/>'
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
        label = label_of(ring, ("flaw", ""), 0.0)
        yield _line_of_words(label, label.name, "flaw", min(14.0, label.size), "#b00020")


def _piece(placement: Placement, colour: str) -> str:
    fill = _fill(placement, colour)
    dash = ' stroke-dasharray="8 5"' if placement.waste else ""
    return (
        f'<g class="piece" data-name={quoteattr(placement.name)}>'
        f'<polygon points="{_points(placement.polygon)}" fill="{fill}" stroke="{ink_on(fill)}" '
        f'stroke-width="1.2"{dash} stroke-linejoin="round"/></g>'
    )


def _fill(placement: Placement, colour: str) -> str:
    return tint(colour, PAPER if not placement.waste else 0.35)


def _words(placement: Placement, lay: Lay, problem: Problem | None, colour: str) -> Iterator[str]:
    """Its name, how often it is cut, and its grain line."""
    fill = _fill(placement, colour)
    ink = ink_on(fill)
    copies = sum(1 for p in lay.placements if p.shape == placement.shape and not p.waste)
    name = placement.name
    if copies > 1 and not placement.waste:
        name = f"{name} {placement.copy}/{copies}"
    cut = cut_words(placement, lay, problem)
    label = label_of(_free_of_folds(placement, lay), (name, cut), placement.turn)
    yield f'<g class="words" data-name={quoteattr(placement.name)}>'
    yield _line_of_words(label, label.name, name, label.size, ink, fill)
    yield _line_of_words(label, label.second, cut, label.small, ink, fill)
    yield _grain(*label.grain, label.half, placement.turn, ink)
    yield "</g>"


def _line_of_words(
    label: Label, at: tuple[float, float], words: str, size: float, ink: str, paper: str = ""
) -> str:
    """A line that stays legible where another one runs under it, turned as its label is."""
    halo = f'stroke="{paper}" stroke-width="{size / 5:.1f}" paint-order="stroke"' if paper else ""
    turn = f'transform="rotate(-90 {at[0]:.1f} {at[1]:.1f})"' if label.upright else ""
    return text(*at, words, size, ink, "middle", " ".join(filter(None, (halo, turn))))


def _matches(lay: Lay, problem: Problem | None, colour: str) -> Iterator[str]:
    """A cross at every point that meets the print."""
    ink = ink_on(tint(colour, PAPER))
    for x, y in match_points(lay, problem):
        arms = f"M{x - CROSS:.2f} {y:.2f}h{2 * CROSS:g}M{x:.2f} {y - CROSS:.2f}v{2 * CROSS:g}"
        yield f'<path class="match" d="{arms}" stroke="{ink}" stroke-width="1.6"/>'
        yield f'<circle cx="{x:.2f}" cy="{y:.2f}" r="4" stroke="{ink}" fill="none"/>'


def _notches(laid: LaidOut, lay: Lay, colour: str) -> Iterator[str]:
    """A short mark inwards at every notch."""
    ink = ink_on(tint(colour, PAPER))
    for line in notch_ticks(laid, lay):
        yield _line("notch", line, ink, 'stroke-width="1.6"')


def _free_of_folds(placement: Placement, lay: Lay) -> Ring:
    """Where its words may stand: a piece on a fold keeps them off the line, in its lower half."""
    if not is_on_fold(placement, lay):
        return placement.polygon
    ys = [y for _, y in placement.polygon]
    middle = (min(ys) + max(ys)) / 2
    return tuple((x, max(y, middle)) for x, y in placement.polygon)


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
        told = "folded-in selvedge" if len(lay.folds) == 1 else "selvedges meet"
        yield from _tag(line.x1 + 4, max(line.y1 - 5, 15), told, colour)
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
