"""The part of a lay that is drawn in terminal cells, and the rulers and edges around it.

A cell is taken as twice as high as wide, so that a braille dot (two across, four down in a
cell) is square.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor
from typing import TYPE_CHECKING

from stash.config import System

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.lay.result import Lay

MARGIN = 6
"""Cells left of the cloth: the ruler across the width."""
RULERS: dict[System, tuple[tuple[float, ...], float, str]] = {
    System.METRIC: ((10, 20, 50, 100, 200, 500, 1000), 10.0, "cm"),
    System.IMPERIAL: ((25.4, 50.8, 152.4, 304.8, 457.2, 914.4), 25.4, "in"),
}
"""Steps of the ruler in mm, millimetres in its unit, the unit's sign."""


@dataclass(frozen=True, slots=True)
class View:
    """What of a lay is wanted: how many times as large as fits, and mm at its top left."""

    times: float = 1.0
    x: float = 0.0
    y: float = 0.0


WHOLE = View()


@dataclass(frozen=True, slots=True)
class Frame:
    """What is seen of the cloth, in cells, at a scale of `dot` millimetres for a braille dot."""

    dot: float
    columns: int
    rows: int
    left: float
    top: float
    length: float
    width: float

    @property
    def wide(self) -> float:
        """Millimetres seen along the cloth."""
        return self.columns * 2 * self.dot

    @property
    def high(self) -> float:
        """Millimetres seen across the cloth."""
        return self.rows * 4 * self.dot

    @property
    def is_whole(self) -> bool:
        """Nothing of the cloth lies outside."""
        return not any(self.beyond)

    @property
    def beyond(self) -> tuple[bool, bool, bool, bool]:
        """Whether there is more of the cloth to the left, right, top and bottom."""
        return (
            self.left > self.dot / 2,
            self.left + self.wide < self.length - self.dot / 2,
            self.top > self.dot / 2,
            self.top + self.high < self.width - self.dot / 2,
        )

    def across(self, x: float) -> float:
        """Dots from the left edge of what is seen."""
        return (x - self.left) / self.dot

    def down(self, y: float) -> float:
        """Dots from the top edge of what is seen."""
        return (y - self.top) / self.dot

    def column(self, x: float) -> int:
        """The column of x, or a number out of range; the end of the cloth is its last column."""
        last = self.columns - 1 if x <= self.length else self.columns
        column = floor(self.across(x) / 2)
        return min(column, last) if self.left + self.wide >= self.length else column

    def row(self, y: float) -> int:
        """The row of y, or a number out of range; the edge of the cloth is its last row."""
        last = self.rows - 1 if y <= self.width else self.rows
        row = floor(self.down(y) / 4)
        return min(row, last) if self.top + self.high >= self.width else row


def frame_of(lay: Lay, columns: int, rows: int, view: View = WHOLE) -> Frame:
    """What fits into `columns` x `rows` cells, rulers and edges included; never past the cloth."""
    room = max(8, columns - MARGIN - 2), max(3, rows - 4)
    dot = max(lay.need / (room[0] * 2), lay.width / (room[1] * 4), 1e-6) / view.times
    wide = min(room[0], max(1, ceil(lay.need / dot / 2 - 1e-9)))
    high = min(room[1], max(1, ceil(lay.width / dot / 4 - 1e-9)))
    left = _whole(view.x, lay.need - wide * 2 * dot, 2 * dot)
    top = _whole(view.y, lay.width - high * 4 * dot, 4 * dot)
    return Frame(dot, wide, high, left, top, lay.need, lay.width)


def _whole(at: float, most: float, cell: float) -> float:
    """The place in whole cells, so that nothing shimmers when the view is moved; up to `most`."""
    return max(0.0, min(round(at / cell), ceil(most / cell - 1e-9)) * cell)


def seen(frame: Frame, system: System) -> str:
    """What part of the cloth is seen: `40-110 of 212 cm along, 20-75 of 138 cm across`."""
    _, unit, sign = RULERS[system]
    right, bottom = min(frame.length, frame.left + frame.wide), frame.top + frame.high
    along = f"{frame.left / unit:.0f}–{right / unit:.0f} of {frame.length / unit:.0f} {sign} along"
    low = min(frame.width, bottom) / unit
    return f"{along}, {frame.top / unit:.0f}–{low:.0f} of {frame.width / unit:.0f} {sign} across"


def over(frame: Frame, system: System) -> tuple[str, str]:
    """Numbers and ticks along the length."""
    steps, unit, sign = RULERS[system]
    step = _step(steps, 7 * frame.dot * 2)
    numbers = [" "] * (frame.columns + MARGIN + 8)
    ticks = [" "] * (frame.columns + MARGIN)
    first = ceil(frame.left / step - 1e-9)
    count = first
    while (column := round(frame.across(count * step) / 2)) < frame.columns:
        ticks[MARGIN + column] = "╷"
        label = f"{count * step / unit:.0f}" + (f" {sign}" if count == first else "")
        for offset, letter in enumerate(label):
            numbers[MARGIN + column + offset] = letter
        count += 1
    return "".join(numbers).rstrip(), "".join(ticks).rstrip()


def beside(frame: Frame, system: System) -> list[str]:
    """Numbers and ticks across the width, one text for each row."""
    steps, unit, _ = RULERS[system]
    step = _step(steps, 2 * frame.dot * 4)
    side = "◂" if frame.beyond[0] else "│"
    texts = [" " * (MARGIN - 1) + side] * frame.rows
    count = ceil(frame.top / step - 1e-9)
    while (row := round(frame.down(count * step) / 4)) < frame.rows:
        tick = side if frame.beyond[0] else "┤"
        texts[row] = f"{count * step / unit:>{MARGIN - 2}.0f} {tick}"
        count += 1
    return texts


def edge(frame: Frame, *, below: bool) -> str:
    """The upper or lower edge; arrows where the cloth goes on beyond it."""
    goes_on = frame.beyond[3 if below else 2]
    line = ("▾ " if below else "▴ ") * frame.columns if goes_on else "─" * frame.columns
    left, right = ("├", "┤") if not goes_on else (" ", " ")
    return " " * (MARGIN - 1) + left + line[: frame.columns] + right


def side(frame: Frame) -> str:
    """What ends every row: the end of the cloth, or an arrow where it goes on."""
    return "▸" if frame.beyond[1] else "│"


def _step(steps: Sequence[float], least: float) -> float:
    return next((step for step in steps if step >= least), steps[-1])
