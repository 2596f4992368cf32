"""A lay drawn to scale in terminal cells: outlines in braille dots, names, grain, fold, ruler.

Length runs to the right, width downwards. A cell is taken as twice as high as wide, so that
a braille dot (two across, four down in a cell) is square.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from stash.config import System

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.lay.problem import Ring
    from stash.lay.result import Lay, Placement

DOTS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
"""Bits of a braille cell by dot row and dot column (Unicode block U+2800)."""
BLANK = 0x2800
MARGIN = 6
"""Cells left of the cloth: the ruler across the width."""
NONE = -1
RULERS: dict[System, tuple[tuple[float, ...], float, str]] = {
    System.METRIC: ((100, 200, 500, 1000), 10.0, "cm"),
    System.IMPERIAL: ((152.4, 304.8, 457.2, 914.4), 25.4, "in"),
}
"""Steps of the ruler in mm, millimetres in its unit, the unit's sign."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell: what stands in it, whose line it is, and whose cloth it is cut from.

    `line` and `fill` are places in the lay's placements, or NONE.
    """

    char: str = " "
    line: int = NONE
    fill: int = NONE


@dataclass(frozen=True, slots=True)
class Drawing:
    """Rows of cells, what the arrow means, and the names too long for their pieces, by number."""

    rows: tuple[tuple[Cell, ...], ...]
    legend: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Frame:
    """The cloth in cells at a scale of `dot` millimetres for a braille dot."""

    dot: float
    columns: int
    rows: int

    def column(self, x: float) -> int:
        return min(self.columns - 1, int(x / self.dot / 2))

    def row(self, y: float) -> int:
        return min(self.rows - 1, int(y / self.dot / 4))


def draw_lay(lay: Lay, columns: int, rows: int, system: System) -> Drawing:
    """Draw `lay` as large as fits into `columns` x `rows` cells, ruler and edges included."""
    room = max(8, columns - MARGIN - 2), max(3, rows - 4)
    dot = max(lay.need / (room[0] * 2), lay.width / (room[1] * 4), 1e-6)
    frame = _Frame(dot, max(1, ceil(lay.need / dot / 2)), max(1, ceil(lay.width / dot / 4)))
    fills = [[NONE] * frame.columns for _ in range(frame.rows)]
    bits = [[BLANK] * frame.columns for _ in range(frame.rows)]
    lines = [[NONE] * frame.columns for _ in range(frame.rows)]
    for index, placement in enumerate(lay.placements):
        _fill(placement.polygon, index, frame, fills)
        _outline(placement.polygon, index, frame, bits, lines)
    chars = [["" if bit == BLANK else chr(bit) for bit in row] for row in bits]
    _folds(lay, frame, chars)
    legend = _names(lay, frame, fills, chars)
    cells = [
        tuple(Cell(chars[y][x] or " ", lines[y][x], fills[y][x]) for x in range(frame.columns))
        for y in range(frame.rows)
    ]
    return Drawing(_framed(lay, cells, frame, system), legend)


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
            int(start[0] + (end[0] - start[0]) * share),
            int(start[1] + (end[1] - start[1]) * share),
        )
        for share in shares
    ]


def _fill(polygon: Ring, index: int, frame: _Frame, fills: list[list[int]]) -> None:
    for row in range(frame.rows):
        for left, right in spans(polygon, (row + 0.5) * 4 * frame.dot):
            first = round(left / frame.dot / 2)
            last = min(frame.columns, round(right / frame.dot / 2))
            for column in range(max(0, first), last):
                fills[row][column] = index


def _outline(
    polygon: Ring, index: int, frame: _Frame, bits: list[list[int]], lines: list[list[int]]
) -> None:
    corners = [(x / frame.dot, y / frame.dot) for x, y in polygon]
    for start, end in zip(corners, [*corners[1:], corners[0]], strict=True):
        for across, down in line_dots(start, end):
            dx = min(max(across, 0), frame.columns * 2 - 1)
            dy = min(max(down, 0), frame.rows * 4 - 1)
            bits[dy // 4][dx // 2] |= DOTS[dy % 4][dx % 2]
            lines[dy // 4][dx // 2] = index


def _folds(lay: Lay, frame: _Frame, chars: list[list[str]]) -> None:
    """Mark the fold lines, as far as the cloth is folded."""
    marks = [
        (frame.row(y), column, "╌")
        for y in lay.folds
        for column in range(frame.column(lay.folded_to) + 1)
    ]
    if lay.cross_fold is not None:
        marks += [(row, frame.column(lay.cross_fold), "╎") for row in range(frame.rows)]
    for row, column, mark in marks:
        if not chars[row][column]:
            chars[row][column] = mark


def _names(
    lay: Lay, frame: _Frame, fills: list[list[int]], chars: list[list[str]]
) -> tuple[str, ...]:
    """Write each name where its piece is roomiest; a number where it does not fit."""
    legend: dict[int, str] = {}
    for index, placement in enumerate(lay.placements):
        row, first, room = _roomiest(index, frame, fills, placement)
        label = f"{placement.name} {arrow(placement)}"
        if len(label) > room - 2:
            label = placement.name
        if len(label) > room - 2:
            number = placement.shape + 1
            legend[number] = f"{number} {placement.name}"
            label = str(number)
        start = first + max(0, (room - len(label)) // 2)
        for offset, letter in enumerate(label[: frame.columns - start]):
            chars[row][start + offset] = letter
    return ("→ grain, head first", *(legend[number] for number in sorted(legend)))


def arrow(placement: Placement) -> str:
    """Which way the piece's own grain line points on the cloth."""
    return {0: "→", 90: "↓", 180: "←", 270: "↑"}.get(placement.turn % 360, "↗")


def _roomiest(
    index: int, frame: _Frame, fills: list[list[int]], placement: Placement
) -> tuple[int, int, int]:
    """Row, first column and length of the longest stretch of the piece, nearest its middle."""
    ys = [y for _, y in placement.polygon]
    middle = frame.row((min(ys) + max(ys)) / 2)
    best = (middle, frame.column(min(x for x, _ in placement.polygon)), 0)
    for row in range(frame.row(min(ys)), frame.row(max(ys)) + 1):
        first, length = _longest_run(fills[row], index)
        if (length, -abs(row - middle)) > (best[2], -abs(best[0] - middle)):
            best = (row, first, length)
    return best


def _longest_run(row: Sequence[int], index: int) -> tuple[int, int]:
    best, start = (0, 0), 0
    for column in range(len(row) + 1):
        if column < len(row) and row[column] == index:
            continue
        if column - start > best[1]:
            best = (start, column - start)
        start = column + 1
    return best


def _framed(
    lay: Lay, cells: list[tuple[Cell, ...]], frame: _Frame, system: System
) -> tuple[tuple[Cell, ...], ...]:
    """The cloth between its edges, with a ruler over it and one beside it."""
    steps, unit, sign = RULERS[system]
    edge = _line(" " * (MARGIN - 1) + "├" + "─" * frame.columns + "┤")
    beside = _beside(frame, steps, unit)
    for y in lay.folds:
        beside[frame.row(y)] = "fold ╪"
    body = [(*_line(beside[row]), *cells[row], Cell("│")) for row in range(frame.rows)]
    over = _over(frame, steps, unit, sign)
    return (_line(over[0]), _line(over[1]), _edge(lay, edge, frame), *body, edge)


def _edge(lay: Lay, edge: tuple[Cell, ...], frame: _Frame) -> tuple[Cell, ...]:
    """The upper edge, with the fold across the cloth named where it starts."""
    if lay.cross_fold is None:
        return edge
    at = MARGIN + frame.column(lay.cross_fold)
    word = "fold" if at + 5 < len(edge) else ""
    mark = _line("╪" + word)
    return (*edge[:at], *mark, *edge[at + len(mark) :])


def _line(text: str) -> tuple[Cell, ...]:
    return tuple(Cell(char) for char in text)


def _over(frame: _Frame, steps: Sequence[float], unit: float, sign: str) -> tuple[str, str]:
    """Numbers and ticks along the length."""
    per_cell = frame.dot * 2
    step = next((step for step in steps if step / per_cell >= 7), steps[-1])
    numbers = [" "] * (frame.columns + MARGIN + 8)
    ticks = [" "] * (frame.columns + MARGIN)
    count = 0
    while (column := round(count * step / per_cell)) < frame.columns:
        ticks[MARGIN + column] = "╷"
        label = f"{count * step / unit:.0f}" + (f" {sign}" if count == 0 else "")
        for offset, letter in enumerate(label):
            numbers[MARGIN + column + offset] = letter
        count += 1
    return "".join(numbers).rstrip(), "".join(ticks).rstrip()


def _beside(frame: _Frame, steps: Sequence[float], unit: float) -> list[str]:
    """Numbers and ticks across the width, one text for each row."""
    per_cell = frame.dot * 4
    step = next((step for step in steps if step / per_cell >= 2), steps[-1])
    texts = [" " * (MARGIN - 1) + "│"] * frame.rows
    count = 0
    while (row := round(count * step / per_cell)) < frame.rows:
        texts[row] = f"{count * step / unit:>{MARGIN - 2}.0f} ┤"
        count += 1
    return texts
