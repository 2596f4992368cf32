"""The width curve as a self-contained SVG drawing: true axes, every cloth labelled."""

from __future__ import annotations

import math
from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape, quoteattr

from stash.pairing.judgement import Sureness
from stash.report.columns import wrapped
from stash.report.curve_cells import AXES, frame_of, is_enough, mark, step_of
from stash.report.curve_text import exceptions, how_found, reading, verdict_words
from stash.units.format_length import Measure, show_length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.config import System
    from stash.pairing.width_curve import CurveDot, WidthCurve
    from stash.report.curve_cells import CurveFrame

WIDE, HIGH = 1080.0, 560.0
"""Size of the plot itself."""
LEFT, TOP, RIGHT, FOOT = 70.0, 80.0, 30.0, 60.0
"""Room around the plot for the title and the axes."""
ROW, COLUMNS = 22.0, 2
"""Height of a line of the legend, and columns of it."""
NOTE = 150
"""Characters in a line of the notes."""
DOT = 5.5
FARTHER = (0.0, 12.0, 26.0, 42.0)
"""How much farther off its dot a letter may stand in a crowd."""
INK, GREY, LINE = "#111111", "#d8d8d8", "#1f4e79"
Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class _Scale:
    """Millimetres of cloth to units of the drawing."""

    frame: CurveFrame

    def x(self, width: float) -> float:
        span = self.frame.right - self.frame.left
        return LEFT + (width - self.frame.left) / span * WIDE

    def y(self, length: float) -> float:
        return TOP + HIGH - min(length, self.frame.top) / self.frame.top * HIGH


def curve_svg(curve: WidthCurve, system: System) -> str:
    """The drawing of one curve, in the units of `system`."""
    scale = _Scale(frame_of(curve))
    notes = [how_found(curve), *reading(curve, system), exceptions(curve)]
    notes = [line for note in notes for line in wrapped(note, NOTE).splitlines()]
    lines = ceil(len(curve.dots) / COLUMNS)
    wide = LEFT + WIDE + RIGHT
    legend = TOP + HIGH + FOOT + ROW
    high = legend + (lines + 1) * ROW + len(notes) * ROW
    body = [
        _text(LEFT, 34, curve.title, 24, "start"),
        *_axes(scale, system),
        *_curve(curve, scale),
        *_dots(curve, scale),
        *_legend(curve, system, legend),
        *(
            _text(LEFT, legend + (lines + 1 + place) * ROW, note, 13, "start")
            for place, note in enumerate(notes)
        ),
    ]
    size = f'width="{wide:g}" height="{high:g}" viewBox="0 0 {wide:g} {high:g}"'
    head = (
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} font-family="sans-serif">',
        f"<title>{escape(curve.title)}</title>",
        f'<rect width="{wide:g}" height="{high:g}" fill="#ffffff"/>',
    )
    return "\n".join((*head, *body, "</svg>")) + "\n"


def _axes(scale: _Scale, system: System) -> Iterator[str]:
    """Lines and figures at round widths and lengths."""
    axes, frame = AXES[system], scale.frame
    step = step_of(axes.up, frame.top / 14)
    for count in range(int(frame.top / step) + 1):
        y = scale.y(count * step)
        yield _rule("length", LEFT, y, LEFT + WIDE, y)
        value = f"{count * step / axes.up_unit:.3f}".rstrip("0").rstrip(".")
        yield _text(LEFT - 8, y + 5, value, 14, "end")
    step = step_of(axes.across, (frame.right - frame.left) / 16)
    for count in range(-int(-frame.left // step), int(frame.right // step) + 1):
        x = scale.x(count * step)
        yield _rule("width", x, TOP, x, TOP + HIGH)
        yield _text(x, TOP + HIGH + 20, f"{count * step / axes.across_unit:g}", 14, "middle")
    yield _text(LEFT - 8, TOP - 14, f"length, {axes.up_sign}", 14, "start")
    across = f"usable width, {axes.across_sign}"
    yield _text(LEFT + WIDE, TOP + HIGH + 44, across, 14, "end")


def _curve(curve: WidthCurve, scale: _Scale) -> Iterator[str]:
    """Steps: level as far as the next width, then down; from the top where pieces first fit.

    Broken where a chart is read, with a diamond at each amount of its own.
    """
    parts: list[str] = []
    for point in curve.points:
        if point.need is None:
            continue
        x, y = scale.x(point.usable.mm), scale.y(point.need.mm)
        if not parts:
            above = y if point is curve.points[0] else TOP
            parts.append(f"M{x:.2f} {above:.2f}V{y:.2f}")
        else:
            parts.append(f"H{x:.2f}V{y:.2f}")
    parts.append(f"H{LEFT + WIDE:.2f}")
    dash = ' stroke-dasharray="9 5"' if curve.by_chart else ""
    yield (
        f'<path class="curve" d="{"".join(parts)}" fill="none" stroke="{LINE}" '
        f'stroke-width="2.5" stroke-linejoin="round"{dash}/>'
    )
    for point in curve.points:
        if point.sureness is Sureness.CHARTED and point.need is not None:
            x, y = scale.x(point.usable.mm), scale.y(point.need.mm)
            path = f"M{x - 7:.2f} {y:.2f}l7 -7l7 7l-7 7z"
            yield f'<path class="charted" d="{path}" fill="{LINE}"/>'


def _dots(curve: WidthCurve, scale: _Scale) -> Iterator[str]:
    """A disc in the cloth's colour where there is enough, else a cross; and its letter."""
    places = [(scale.x(dot.at.mm), scale.y(dot.pairing.have.mm)) for dot in curve.dots]
    taken: list[Box] = [(x - DOT, y - DOT, x + DOT, y + DOT) for x, y in places]
    for dot, (x, y) in zip(curve.dots, places, strict=True):
        kind = "enough" if is_enough(dot) else "short"
        yield f'<g class="dot {kind}" data-cloth={quoteattr(dot.cloth.name)}>'
        yield f"<title>{escape(dot.cloth.name)}</title>"
        yield _disc(x, y, dot.cloth.colour) if kind == "enough" else _cross(x, y)
        letter = _letter(dot)
        box = _free_place(x, y, 8.0 * len(letter), taken)
        taken.append(box)
        yield _leader(x, y, box)
        yield _text((box[0] + box[2]) / 2, box[3] - 1.5, letter, 13, "middle")
        yield "</g>"


def _disc(x: float, y: float, colour: str) -> str:
    return (
        f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{DOT:g}" fill="{colour}" stroke="{INK}" '
        'stroke-width="1.4"/>'
    )


def _cross(x: float, y: float) -> str:
    arm = DOT - 1
    low, high, left, right = y - arm, y + arm, x - arm, x + arm
    path = f"M{left:.2f} {low:.2f}L{right:.2f} {high:.2f}"
    path += f"M{left:.2f} {high:.2f}L{right:.2f} {low:.2f}"
    return f'<path d="{path}" stroke="{INK}" stroke-width="1.8" fill="none"/>'


def _free_place(x: float, y: float, wide: float, taken: list[Box]) -> Box:
    """Room for a letter beside its dot, else farther off, clear of what is there."""
    half = 6.0
    boxes: list[Box] = []
    for away in FARTHER:
        beside, over = DOT + 2 + away + wide / 2, DOT + 2 + away + half
        near = [(beside, 0.0), (-beside, 0.0), (0.0, -over), (0.0, over)]
        if away:
            near += [(dx, dy) for dx in (beside, -beside) for dy in (-over, over)]
        boxes += [
            (x + dx - wide / 2, y + dy - half, x + dx + wide / 2, y + dy + half) for dx, dy in near
        ]
    return next(
        (box for box in boxes if not any(_overlap(box, other) for other in taken)), boxes[0]
    )


def _leader(x: float, y: float, box: Box) -> str:
    """A hair line from a dot to its letter, where that stands farther off; else nothing."""
    at = min(max(x, box[0]), box[2]), min(max(y, box[1]), box[3])
    far = math.dist((x, y), at)
    if far <= DOT + 3:
        return ""
    start = x + (at[0] - x) * DOT / far, y + (at[1] - y) * DOT / far
    return (
        f'<line class="leader" x1="{start[0]:.1f}" y1="{start[1]:.1f}" x2="{at[0]:.1f}" '
        f'y2="{at[1]:.1f}" stroke="{INK}" stroke-width="0.8"/>'
    )


def _overlap(one: Box, other: Box) -> bool:
    across = one[0] < other[2] and other[0] < one[2]
    return across and one[1] < other[3] and other[1] < one[3]


def _legend(curve: WidthCurve, system: System, top: float) -> Iterator[str]:
    """Every cloth with its figures, in columns read downwards."""
    lines = ceil(len(curve.dots) / COLUMNS) or 1
    for place, dot in enumerate(curve.dots):
        x = LEFT + place // lines * (WIDE / COLUMNS)
        y = top + place % lines * ROW
        width = show_length(dot.at, system, Measure.WIDTH)
        free = show_length(dot.pairing.have, system, Measure.SPARE)
        words = f"{dot.cloth.name}: {width}, {free} free, {verdict_words(dot, system)}"
        yield (
            f'<rect x="{x + 34:.1f}" y="{y - 11:.1f}" width="14" height="14" '
            f'fill="{dot.cloth.colour}" stroke="{INK}" stroke-width="0.6"/>'
        )
        yield _text(x, y, _letter(dot) + ("*" if dot.apart else ""), 13, "start")
        yield _text(x + 54, y, words, 13, "start")


def _letter(dot: CurveDot) -> str:
    return dot.letter if len(dot.letter) > 1 else mark(dot)


def _rule(kind: str, x1: float, y1: float, x2: float, y2: float) -> str:
    return (
        f'<line class="{kind}" x1="{x1:.2f}" y1="{y1:.2f}" x2="{x2:.2f}" y2="{y2:.2f}" '
        f'stroke="{GREY}" stroke-width="1"/>'
    )


def _text(x: float, y: float, words: str, size: float, anchor: str) -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size:g}" fill="{INK}" '
        f'text-anchor="{anchor}">{escape(words)}</text>'
    )
