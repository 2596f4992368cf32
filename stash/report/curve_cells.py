"""The width curve in terminal cells: the need as a stepped line, the cloths as letters.

Usable width runs to the right, length upwards from nothing. A cloth's letter is a capital when
there is enough of it; cloths past the alphabet are drawn as full or empty circles.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.config import System
from stash.pairing.judgement import Sureness
from stash.pairing.width_curve import need_at
from stash.report.cell_sheet import NONE
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.pairing.width_curve import CurveDot, WidthCurve

MARGIN = 7
"""Cells left of the plot: the lengths."""
FOOT = 2
"""Rows under the plot: the widths."""
ROOM = 1.5
"""How many times the greatest need the plot reaches up to, if a cloth is that long."""
ENOUGH, SHORT = "●", "○"
ESTIMATE, CHARTED = "╌", "◆"


@dataclass(frozen=True, slots=True)
class Axes:
    """Units of a plot: steps between marks and the unit they are written in, in mm."""

    across: tuple[float, ...]
    across_unit: float
    across_sign: str
    up: tuple[float, ...]
    up_unit: float
    up_sign: str


AXES: dict[System, Axes] = {
    System.METRIC: Axes((100, 200, 500), 10.0, "cm", (100, 200, 500, 1000, 2000), 1000.0, "m"),
    System.IMPERIAL: Axes(
        (127.0, 254.0, 508.0), 25.4, "in", (114.3, 228.6, 457.2, 914.4, 1828.8), 914.4, "yd"
    ),
}


@dataclass(frozen=True, slots=True)
class CurveCell:
    """One cell: what stands in it, and the place in the curve's dots of the cloth it shows."""

    char: str = " "
    dot: int = NONE


@dataclass(frozen=True, slots=True)
class CurveFrame:
    """What a plot shows, in mm: widths from `left` to `right`, lengths up to `top`."""

    left: float
    right: float
    top: float


def frame_of(curve: WidthCurve) -> CurveFrame:
    """Every point and every dot across; lengths as far as the curve makes them of interest."""
    across = [point.usable.mm for point in curve.points] + [dot.at.mm for dot in curve.dots]
    need = max(point.need.mm for point in curve.points if point.need is not None)
    free = max((dot.pairing.have.mm for dot in curve.dots), default=0.0)
    return CurveFrame(min(across), max(across), max(need * 1.05, min(free, need * ROOM)))


def draw_curve(
    curve: WidthCurve, columns: int, rows: int, system: System, chosen: int = NONE
) -> tuple[tuple[CurveCell, ...], ...]:
    """Draw `curve` into `columns` x `rows` cells, axes included; `chosen` lies on top."""
    across, up = max(20, columns - MARGIN), max(5, rows - FOOT)
    frame = frame_of(curve)
    chars = _line(curve, frame, across, up)
    dots = [[NONE] * across for _ in range(up)]
    order = [index for index in range(len(curve.dots)) if index != chosen]
    for index in (*order, *([chosen] if chosen != NONE else [])):
        dot = curve.dots[index]
        column, row = _column(dot.at.mm, frame, across), _row(dot.pairing.have.mm, frame, up)
        chars[row][column], dots[row][column] = mark(dot), index
    beside = _beside(frame, up, AXES[system])
    body = [
        (
            *_text(beside[row]),
            *map(CurveCell, chars[row], dots[row]),
        )
        for row in range(up)
    ]
    return (*body, *map(_text, _under(frame, across, AXES[system])))


def mark(dot: CurveDot) -> str:
    """How a cloth is drawn: its letter, a capital if there is enough; a circle past z."""
    enough = is_enough(dot)
    if len(dot.letter) > 1:
        return ENOUGH if enough else SHORT
    return dot.letter.upper() if enough else dot.letter


def is_enough(dot: CurveDot) -> bool:
    """There is as much of the cloth as it needs."""
    spare = dot.pairing.spare
    return spare is not None and spare.nm >= 0


def step_of(steps: Sequence[float], least: float) -> float:
    """The smallest step between marks that is not under `least`; the largest if all are."""
    return next((step for step in steps if step >= least), steps[-1])


def _line(curve: WidthCurve, frame: CurveFrame, columns: int, rows: int) -> list[list[str]]:
    """The curve as a line of steps; it comes down from the top where pieces begin to fit."""
    chars = [[" "] * columns for _ in range(rows)]
    before: int | None = None
    for column in range(columns):
        at = frame.left + (frame.right - frame.left) * column / (columns - 1)
        point = need_at(curve.points, Length.from_mm(at))
        if point is None or point.need is None:
            continue
        row = _row(point.need.mm, frame, rows)
        if before == row or (before is None and column == 0):
            chars[row][column] = ESTIMATE if point.sureness is Sureness.ESTIMATED else "─"
        else:
            chars[row][column] = "╰"
            for between in range(0 if before is None else before + 1, row):
                chars[between][column] = "│"
            if before is not None:
                chars[before][column] = "╮"
        before = row
    for point in curve.points:
        if point.sureness is Sureness.CHARTED and point.need is not None:
            row, column = _row(point.need.mm, frame, rows), _column(point.usable.mm, frame, columns)
            chars[row][column] = CHARTED
    return chars


def _column(at: float, frame: CurveFrame, columns: int) -> int:
    return round((at - frame.left) / (frame.right - frame.left) * (columns - 1))


def _row(length: float, frame: CurveFrame, rows: int) -> int:
    """The row of a length from the bottom; what is longer than the plot stands at its top."""
    return rows - 1 - round(min(length, frame.top) / frame.top * (rows - 1))


def _text(text: str) -> tuple[CurveCell, ...]:
    return tuple(CurveCell(char) for char in text)


def _beside(frame: CurveFrame, rows: int, axes: Axes) -> list[str]:
    """Lengths and ticks, a text for each row."""
    texts = [" " * (MARGIN - 1) + "│"] * rows
    step = step_of(axes.up, frame.top / (rows - 1) * 2)
    for count in range(int(frame.top / step) + 1):
        value = f"{count * step / axes.up_unit:.3f}".rstrip("0").rstrip(".")
        sign = f" {axes.up_sign}" if count == 0 else ""
        texts[_row(count * step, frame, rows)] = f"{value + sign:>{MARGIN - 2}} ┤"
    return texts


def _under(frame: CurveFrame, columns: int, axes: Axes) -> tuple[str, str]:
    """Ticks and widths under the plot."""
    step = step_of(axes.across, (frame.right - frame.left) / (columns - 1) * 6)
    ticks = ["─"] * columns
    words = [" "] * (columns + MARGIN)
    words[MARGIN - 4 : MARGIN - 2] = axes.across_sign
    for count in range(-int(-frame.left // step), int(frame.right // step) + 1):
        column = _column(count * step, frame, columns)
        label = f"{count * step / axes.across_unit:.0f}"
        start = min(MARGIN + column - len(label) // 2, len(words) - len(label))
        ticks[column] = "┬"
        words[start : start + len(label)] = label
    return " " * (MARGIN - 1) + "└" + "".join(ticks), "".join(words).rstrip()
