"""A lay drawn to scale in terminal cells: outlines in braille dots, names, grain, fold, ruler.

Length runs to the right, width downwards; `lay_frame` says what part is seen and how large.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.report.cell_sheet import DOTS, NONE, Cell, Sheet, line_dots, spans
from stash.report.lay_frame import MARGIN, WHOLE, beside, edge, frame_of, over, side
from stash.report.lay_marks import end_of_layers, flaws_of, folds_of, layer_edges, repeat_lines

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from stash.config import System
    from stash.lay.problem import Problem, Ring
    from stash.lay.result import Lay, Placement
    from stash.report.lay_frame import Frame, View
    from stash.report.lay_marks import Stretch

FLAW = "✗"
NOTCH = "◆"
LETTERS = {0: "→", 1: "↘", 2: "↓", 3: "↙", 4: "←", 5: "↖", 6: "↑", 7: "↗"}
"""Arrows by eighths of a turn."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """Rows of cells, what the signs mean with the names too long for their pieces, what is seen."""

    rows: tuple[tuple[Cell, ...], ...]
    legend: tuple[str, ...]
    frame: Frame


def draw_lay(
    lay: Lay,
    columns: int,
    rows: int,
    system: System,
    *,
    problem: Problem | None = None,
    notches: Sequence[Stretch] = (),
    view: View = WHOLE,
) -> Drawing:
    """Draw `lay` into `columns` x `rows` cells, rulers and edges included.

    Args:
        lay: The lay.
        columns: Room across.
        rows: Room down; the legend is not counted.
        system: Units of the rulers.
        problem: What was laid, for its flaws, the remnant's outline and the print's repeat.
        notches: What `lay_notches` finds; a sign stands where each begins.
        view: What part of it, and how large; the whole as large as fits by default.
    """
    frame = frame_of(lay, columns, rows, view)
    sheet = Sheet.blank(frame)
    for index, placement in enumerate(lay.placements):
        _fill(placement.polygon, index, sheet)
        _outline(placement.polygon, index, sheet)
    if problem is not None and problem.outline:
        _outline(problem.outline, NONE, sheet)
    notched = (f"{NOTCH} notch",) if _notches(notches, sheet) else ()
    names = _names(lay, sheet)
    legend = ["→ grain, head first"]
    if _flaws(problem, sheet):
        legend.append(f"{FLAW} flaw")
    folded = _folds(lay, sheet)
    if _repeats(lay, problem, sheet):
        legend.append("· repeat")
    # Where there is room for a part of this only, the numbers of the pieces are wanted most.
    return Drawing(_framed(lay, sheet, system), (*legend, *names, *folded, *notched), frame)


def _fill(polygon: Ring, index: int, sheet: Sheet) -> None:
    for row, column in _inside(polygon, sheet.frame):
        sheet.fills[row][column] = index


def _inside(polygon: Ring, frame: Frame) -> Iterator[tuple[int, int]]:
    """The cells whose middle lies in the polygon, as far as they are seen."""
    for row in range(frame.rows):
        for left, right in spans(polygon, frame.top + (row + 0.5) * 4 * frame.dot):
            first = max(0, round(frame.across(left) / 2))
            last = min(frame.columns, round(frame.across(right) / 2))
            yield from ((row, column) for column in range(first, last))


def _outline(polygon: Ring, index: int, sheet: Sheet) -> None:
    """The outline in dots; what ends at the edge of the cloth is drawn just inside it."""
    frame = sheet.frame
    whole = frame.beyond
    corners = [(frame.across(x), frame.down(y)) for x, y in polygon]
    for start, end in zip(corners, [*corners[1:], corners[0]], strict=True):
        for across, down in line_dots(start, end):
            dx = across if whole[1] else min(across, frame.columns * 2 - 1)
            dy = down if whole[3] else min(down, frame.rows * 4 - 1)
            if sheet.holds(dy // 4, dx // 2):
                sheet.bits[dy // 4][dx // 2] |= DOTS[dy % 4][dx % 2]
                sheet.lines[dy // 4][dx // 2] = index


def _flaws(problem: Problem | None, sheet: Sheet) -> bool:
    """Mark the flaws, each with one sign at least; True if any is seen."""
    frame = sheet.frame
    cells: set[tuple[int, int]] = set()
    for ring in flaws_of(problem):
        x = (min(x for x, _ in ring) + max(x for x, _ in ring)) / 2
        y = (min(y for _, y in ring) + max(y for _, y in ring)) / 2
        cells |= {(frame.row(y), frame.column(x)), *_inside(ring, frame)}
    return _sign(cells, FLAW, sheet)


def _notches(notches: Sequence[Stretch], sheet: Sheet) -> bool:
    """Mark the notches on the outlines; True if any is seen."""
    # A little inside the piece, or rounding may put it beyond the edge of the cloth.
    places = [((3 * n.x1 + n.x2) / 4, (3 * n.y1 + n.y2) / 4) for n in notches]
    cells = {(sheet.frame.row(y), sheet.frame.column(x)) for x, y in places}
    return _sign(cells, NOTCH, sheet)


def _sign(cells: set[tuple[int, int]], sign: str, sheet: Sheet) -> bool:
    """Put a sign into these cells, over what stands there; True if any is seen."""
    seen = [(row, column) for row, column in cells if sheet.holds(row, column)]
    for row, column in seen:
        sheet.signs[row][column] = sign
    return bool(seen)


def _folds(lay: Lay, sheet: Sheet) -> list[str]:
    """Mark the folds, the selvedges that are folded in, the end of layers; what the signs mean."""
    frame = sheet.frame
    for line in folds_of(lay):
        _line_of(line, sheet, "╌" if line.y1 == line.y2 else "╎")
    meant = []
    for line in layer_edges(lay):
        _line_of(line, sheet, "┄")
        meant.append("┄ selvedge" if len(lay.folds) == 1 else "┄ selvedges")
    end = end_of_layers(lay)
    if end is not None and frame.column(end.x1) < frame.columns - 1:
        _line_of(end, sheet, "┊")
        meant.append("┊ single layer beyond")
    return meant


def _line_of(line: Stretch, sheet: Sheet, sign: str) -> None:
    """A level or an upright line."""
    frame = sheet.frame
    first, last = max(0, frame.column(line.x1)), min(frame.columns - 1, frame.column(line.x2))
    top, bottom = max(0, frame.row(line.y1)), min(frame.rows - 1, frame.row(line.y2))
    for row in range(top, bottom + 1):
        for column in range(first, last + 1):
            sheet.mark(row, column, sign)


def _repeats(lay: Lay, problem: Problem | None, sheet: Sheet) -> bool:
    """Mark where lines of the print's repeat meet the cloth, lightly; True if there are any."""
    lines = repeat_lines(lay, problem)
    for line in lines:
        if line.x1 == line.x2:
            _line_of(line, sheet, "·")
    return bool(lines)


def _names(lay: Lay, sheet: Sheet) -> tuple[str, ...]:
    """Write each name where its piece is roomiest; a number where it does not fit."""
    legend: dict[int, str] = {}
    for index, placement in enumerate(lay.placements):
        found = _roomiest(index, sheet, placement)
        if found is None:
            continue
        row, first, room = found
        number = placement.shape + 1
        label = next(
            (text for text in _labels(placement, lay) if len(text) <= room - 2), str(number)
        )
        if label == str(number):
            legend[number] = f"{number} {placement.name}"
        start = first + max(0, (room - len(label)) // 2)
        for offset, letter in enumerate(label[: sheet.frame.columns - start]):
            sheet.signs[row][start + offset] = letter
    return tuple(legend[number] for number in sorted(legend))


def _labels(placement: Placement, lay: Lay) -> tuple[str, ...]:
    """What may be written into a piece, the fullest first."""
    copies = sum(1 for p in lay.placements if p.shape == placement.shape and not p.waste)
    name = placement.name
    if placement.waste:
        return (f"{name} (not needed)", f"({name})", name)
    counted = f"{name} {placement.copy}/{copies}" if copies > 1 else name
    return (f"{counted} {arrow(placement)}", f"{name} {arrow(placement)}", name)


def arrow(placement: Placement) -> str:
    """Which way the piece's own grain line points on the cloth, to an eighth of a turn."""
    return LETTERS[round(placement.turn / 45) % 8]


def _roomiest(index: int, sheet: Sheet, placement: Placement) -> tuple[int, int, int] | None:
    """Row, first column and length of the longest stretch of the piece, nearest its middle.

    None where nothing of the piece is seen.
    """
    frame = sheet.frame
    ys = [y for _, y in placement.polygon]
    low, high = max(0, frame.row(min(ys))), min(frame.rows - 1, frame.row(max(ys)))
    middle = min(max(frame.row((min(ys) + max(ys)) / 2), 0), frame.rows - 1)
    xs = [x for x, _ in placement.polygon]
    column = frame.column((min(xs) + max(xs)) / 2)
    best = (middle, column, 0)
    for row in range(low, high + 1):
        first, length = _longest_run(sheet.fills[row], index)
        if (length, -abs(row - middle)) > (best[2], -abs(best[0] - middle)):
            best = (row, first, length)
    return best if best[2] or frame.is_whole else None


def _longest_run(row: Sequence[int], index: int) -> tuple[int, int]:
    best, start = (0, 0), 0
    for column in range(len(row) + 1):
        if column < len(row) and row[column] == index:
            continue
        if column - start > best[1]:
            best = (start, column - start)
        start = column + 1
    return best


def _framed(lay: Lay, sheet: Sheet, system: System) -> tuple[tuple[Cell, ...], ...]:
    """The cloth between its edges, with a ruler over it and one beside it."""
    frame = sheet.frame
    left = beside(frame, system)
    for y in lay.folds:
        if 0 <= frame.row(y) < frame.rows:
            left[frame.row(y)] = "fold ╪"
    end = Cell(side(frame))
    body = [(*_cells(left[row]), *cells, end) for row, cells in enumerate(sheet.cells())]
    numbers, ticks = over(frame, system)
    upper = _upper(lay, _cells(edge(frame, below=False)), frame)
    return (_cells(numbers), _cells(ticks), upper, *body, _cells(edge(frame, below=True)))


def _upper(lay: Lay, line: tuple[Cell, ...], frame: Frame) -> tuple[Cell, ...]:
    """The upper edge, with the fold across the cloth named where it starts."""
    if lay.cross_fold is None or not 0 <= frame.column(lay.cross_fold) < frame.columns:
        return line
    at = MARGIN + frame.column(lay.cross_fold)
    mark = _cells("╪" + ("fold" if at + 5 < len(line) else ""))
    return (*line[:at], *mark, *line[at + len(mark) :])


def _cells(text: str) -> tuple[Cell, ...]:
    return tuple(Cell(char) for char in text)
