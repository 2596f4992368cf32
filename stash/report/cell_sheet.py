"""A sheet of terminal cells to draw on: outlines in braille dots, fills, signs over them."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stash.lay.problem import Ring
    from stash.report.lay_frame import Frame

DOTS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
"""Bits of a braille cell by dot row and dot column (Unicode block U+2800)."""
BLANK = 0x2800
NONE = -1


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell: what stands in it, whose line it is, and whose cloth it is cut from.

    `line` and `fill` are places in the lay's placements, or NONE.
    """

    char: str = " "
    line: int = NONE
    fill: int = NONE


@dataclass(slots=True)
class Sheet:
    """The cells being drawn: dots, whose line and whose cloth, and signs over them."""

    frame: Frame
    bits: list[list[int]]
    lines: list[list[int]]
    fills: list[list[int]]
    signs: list[list[str]]

    @classmethod
    def blank(cls, frame: Frame) -> Sheet:
        """Nothing drawn yet."""
        rows = range(frame.rows)
        return cls(
            frame,
            [[BLANK] * frame.columns for _ in rows],
            [[NONE] * frame.columns for _ in rows],
            [[NONE] * frame.columns for _ in rows],
            [[""] * frame.columns for _ in rows],
        )

    def holds(self, row: int, column: int) -> bool:
        """The cell is in the drawing."""
        return 0 <= row < self.frame.rows and 0 <= column < self.frame.columns

    def mark(self, row: int, column: int, sign: str) -> None:
        """Put a sign where nothing is drawn yet."""
        if self.holds(row, column) and not self.char(row, column):
            self.signs[row][column] = sign

    def char(self, row: int, column: int) -> str:
        """What stands in a cell; empty where nothing does."""
        if self.signs[row][column]:
            return self.signs[row][column]
        return chr(self.bits[row][column]) if self.bits[row][column] != BLANK else ""

    def cells(self) -> list[tuple[Cell, ...]]:
        """The cells, ready."""
        return [
            tuple(
                Cell(
                    self.char(row, column) or " ", self.lines[row][column], self.fills[row][column]
                )
                for column in range(self.frame.columns)
            )
            for row in range(self.frame.rows)
        ]


def spans(polygon: Ring, y: float) -> list[tuple[float, float]]:
    """Stretches of the line at height `y` that lie inside the polygon, left to right."""
    crossings = sorted(
        a[0] + (y - a[1]) * (b[0] - a[0]) / (b[1] - a[1])
        for a, b in zip(polygon, (*polygon[1:], polygon[0]), strict=True)
        if (a[1] <= y) != (b[1] <= y)
    )
    return list(zip(crossings[::2], crossings[1::2], strict=True))


def line_dots(start: tuple[float, float], end: tuple[float, float]) -> list[tuple[int, int]]:
    """The dots of a straight line between two points in dots."""
    steps = max(1, ceil(max(abs(end[0] - start[0]), abs(end[1] - start[1]))))
    shares = [step / steps for step in range(steps + 1)]
    return [
        (
            floor(start[0] + (end[0] - start[0]) * share),
            floor(start[1] + (end[1] - start[1]) * share),
        )
        for share in shares
    ]
