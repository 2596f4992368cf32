"""Pattern pieces drawn small in braille cells, all to one scale, the grain upright."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from stash.report.cell_sheet import BLANK, DOTS, line_dots

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.garment.pattern import Piece

    Ring = Sequence[tuple[float, float]]


def draw(outline: Ring, scale: float, *, closed: bool = True) -> list[str]:
    """Lines of braille for one outline; `scale` is millimetres per dot. Grain runs down."""
    left, top = min(y for _, y in outline), min(x for x, _ in outline)
    dots = set()
    corners = [((y - left) / scale, (x - top) / scale) for x, y in outline]
    ring = [*corners, corners[0]] if closed else corners
    for start, end in pairwise(ring):
        dots.update(line_dots(start, end))
    columns = max(dx for dx, _ in dots) // 2 + 1
    rows = max(dy for _, dy in dots) // 4 + 1
    cells = [[BLANK] * columns for _ in range(rows)]
    for dx, dy in dots:
        cells[dy // 4][dx // 2] |= DOTS[dy % 4][dx % 2]
    return ["".join(map(chr, row)) for row in cells]


def fitted(piece: Piece, columns: int, rows: int) -> list[str]:
    """One piece as large as it goes into these cells, the fold, if any, marked on its left."""
    fold = "┊" if piece.on_fold else ""
    lines = draw(piece.outline, _scale(piece.outline, max(2, columns - len(fold)), rows))
    return [f"{fold}{line}" for line in lines]


def as_drawn(line: Ring, columns: int, rows: int, *, closed: bool) -> list[str]:
    """A line of a sheet, its gap left open: x to the right and y down, as large as it goes."""
    turned = [(y, x) for x, y in line]
    return draw(turned, _scale(turned, columns, rows), closed=closed)


def sheet(pieces: Sequence[Piece], columns: int, cell_width: int = 12, rows: int = 6) -> list[str]:
    """All pieces side by side within `columns` cells, each under its name and count."""
    if not pieces:
        return []
    scale = max(_scale(piece.outline, cell_width - 1, rows) for piece in pieces)
    per_line = max(1, columns // cell_width)
    lines: list[str] = []
    for first in range(0, len(pieces), per_line):
        lines += _row(pieces[first : first + per_line], scale, cell_width)
    return lines


def _scale(outline: Ring, columns: int, rows: int) -> float:
    """Millimetres per dot at which the outline just fits into these cells."""
    across = max(y for _, y in outline) - min(y for _, y in outline)
    along = max(x for x, _ in outline) - min(x for x, _ in outline)
    return max(across / (columns * 2 - 1), along / (rows * 4 - 1), 0.1)


def _row(pieces: Sequence[Piece], scale: float, cell_width: int) -> list[str]:
    drawn = [draw(piece.outline, scale) for piece in pieces]
    height = max(len(lines) for lines in drawn)
    rows = [
        "".join(_cut(piece.name, cell_width) for piece in pieces).rstrip(),
        "".join(_cut(_count(piece), cell_width) for piece in pieces).rstrip(),
    ]
    for line in range(height):
        parts = [lines[line] if line < len(lines) else "" for lines in drawn]
        rows.append("".join(part.ljust(cell_width) for part in parts).rstrip())
    return [*rows, ""]


def _cut(text: str, width: int) -> str:
    short = text if len(text) < width else text[: width - 2] + "…"
    return short.ljust(width)


def _count(piece: Piece) -> str:
    return f"cut {piece.copies}" + (" on fold" if piece.on_fold else "")
