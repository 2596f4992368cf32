"""Pages printed at home put together to one sheet, by their frames or by what was said."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import product
from typing import TYPE_CHECKING

from shapely.geometry import LineString, box

from stash.errors import BadInputError
from stash.geometry.affine import shifted
from stash.intake.drawn import Drawing
from stash.intake.pdf_pages import read_pdf_pages

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from stash.intake.drawn import Stroke
    from stash.intake.pdf_pages import Page

MEETS_MM = 1.0
"""Lines of two pages meet when their ends are this near along the edge."""
_ON_EDGE_MM = 0.3
_SURE_PART = 0.6
"""So many of the ends at inner edges have to meet."""
_APART_MM = 30.0

Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tiles:
    """How pages lie beside one another; what is None is guessed."""

    rows: int | None = None
    columns: int | None = None
    margin: float | None = None
    """Millimetres of each page's edge that are cut or folded away."""
    overlap: float = 0.0
    """Millimetres that two neighbours both show, within their margins."""


@dataclass(frozen=True, slots=True)
class _Tile:
    """What counts of a page, from its upper left corner."""

    strokes: tuple[Stroke, ...]
    page: Page
    corner: tuple[float, float]


def read_pdf_drawing(path: Path, tiles: Tiles) -> Drawing:
    """Every line and text of a PDF, its pages put together.

    Raises:
        NotFoundError: no such file.
        BadInputError: it is no PDF, draws nothing, or has other pages than was said.
    """
    pages = read_pdf_pages(path)
    drawing = Drawing(path.name)
    if not any(page.strokes for page in pages):
        raise BadInputError(
            f"{path.name} draws no lines: it may hold pictures of the pieces.",
            "Only drawn outlines can be read; draft the pieces from measures instead.",
        )
    if len(pages) == 1 and tiles.rows is None:
        _place(drawing, pages[0], pages[0].strokes, (0.0, 0.0), (0.0, 0.0))
        return drawing
    window, used = _window(drawing, pages, tiles)
    cut = [_cut(page, window, tiles.overlap) for page in used]
    step = (window[2] - window[0] - tiles.overlap, window[3] - window[1] - tiles.overlap)
    if step[0] <= 0 or step[1] <= 0:
        raise BadInputError("The margins and overlaps leave nothing of a page.", "Type less.")
    grid = _grid(drawing, cut, tiles, step)
    if grid is None:
        _side_by_side(drawing, pages)
        return drawing
    for tile, (column, row) in zip(cut[-len(grid) :], grid, strict=True):
        at = (column * step[0], row * step[1])
        _place(drawing, tile.page, tile.strokes, tile.corner, at)
    return drawing


def _window(drawing: Drawing, pages: Sequence[Page], tiles: Tiles) -> tuple[Box, list[Page]]:
    """The part of each page that counts, and the pages that have it."""
    if tiles.margin is not None:
        first = pages[-1]
        inset = tiles.margin
        return (inset, inset, first.width - inset, first.height - inset), list(pages)
    frames = [_frame(page) for page in pages]
    known = [frame for frame in frames if frame is not None]
    if not known:
        first = pages[-1]
        return (0.0, 0.0, first.width, first.height), list(pages)
    alike = [f for f in known if all(abs(a - b) <= 1 for a, b in zip(f, known[-1], strict=True))]
    used = [page for page, frame in zip(pages, frames, strict=True) if frame in alike]
    drawing.note(f"The frame on {len(used)} of {len(pages)} pages is taken for their edge")
    return known[-1], used


def _frame(page: Page) -> Box | None:
    """The largest upright rectangle that takes up most of a page but is not the page itself."""
    best: Box | None = None
    for stroke in page.strokes:
        xs, ys = zip(*stroke.points, strict=True)
        frame = min(xs), min(ys), max(xs), max(ys)
        wide, high = frame[2] - frame[0], frame[3] - frame[1]
        upright = len(stroke.points) in (4, 5) and all(
            min(abs(x - frame[0]), abs(x - frame[2])) < 0.1
            and min(abs(y - frame[1]), abs(y - frame[3])) < 0.1
            for x, y in stroke.points
        )
        large = wide > 0.6 * page.width and high > 0.6 * page.height
        whole = wide > 0.995 * page.width and high > 0.995 * page.height
        larger = best is None or wide * high > (best[2] - best[0]) * (best[3] - best[1])
        if upright and large and not whole and larger:
            best = frame
    return best


def _cut(page: Page, window: Box, overlap: float) -> _Tile:
    """The strokes of a page that lie in its window; the frame itself is left out."""
    left, top, right, low = window
    seen = box(left, top, right - overlap, low - overlap)
    strokes: list[Stroke] = []
    for stroke in page.strokes:
        ring = (*stroke.points, stroke.points[0]) if stroke.closed else stroke.points
        line = LineString(ring)
        if _on_border(line, window):
            continue
        if seen.covers(line):
            strokes.append(stroke)
            continue
        part = line.intersection(seen)
        for piece in getattr(part, "geoms", (part,)):
            if isinstance(piece, LineString) and piece.length > 0.01:
                points = tuple((float(x), float(y)) for x, y in piece.coords)
                strokes.append(replace(stroke, points=points, closed=False))
    return _Tile(tuple(strokes), page, (left, top))


def _on_border(line: LineString, window: Box) -> bool:
    border = box(*window).exterior
    return bool(border.buffer(_ON_EDGE_MM).covers(line))


def _grid(
    drawing: Drawing, cut: Sequence[_Tile], tiles: Tiles, step: tuple[float, float]
) -> list[tuple[int, int]] | None:
    """Column and row of each page, the last pages if there are more than places."""
    count = len(cut)
    if tiles.rows is not None and tiles.columns is not None:
        places = tiles.rows * tiles.columns
        if places > count:
            raise BadInputError(
                f"{drawing.file} has {count} pages of the pattern, not "
                f"{tiles.rows} x {tiles.columns}.",
                "Say how many rows and columns of pages there are.",
            )
        if places < count:
            drawing.note(f"The first {count - places} pages are left out: no place is left")
        return [(at % tiles.columns, at // tiles.columns) for at in range(places)]
    if count == 1:
        return [(0, 0)]
    best, sure, how = _best_grid(cut, step)
    if best is None or sure < _SURE_PART:
        drawing.note(
            "The pages could not be put together by their lines: say --tiles ROWSxCOLUMNS and "
            "--margin"
        )
        return None
    drawing.note(f"The pages are put together {how}, as their lines meet")
    return best


def _best_grid(
    cut: Sequence[_Tile], step: tuple[float, float]
) -> tuple[list[tuple[int, int]] | None, float, str]:
    """The arrangement in which most lines go on over the edges of the pages."""
    count = len(cut)
    ends = [_ends(tile, step) for tile in cut]
    best: tuple[float, list[tuple[int, int]] | None, str] = (0.0, None, "")
    for rows, down_first in product(range(1, count + 1), (False, True)):
        if count % rows:
            continue
        columns = count // rows
        grid = [
            (at // rows, at % rows) if down_first else (at % columns, at // columns)
            for at in range(count)
        ]
        score = _score(grid, ends)
        if score > best[0] + 1e-9:
            best = score, grid, f"in {rows} rows of {columns}"
    return best[1], best[0], best[2]


def _ends(tile: _Tile, step: tuple[float, float]) -> dict[str, list[float]]:
    """Where lines run out at each edge: the place along it."""
    found: dict[str, list[float]] = {"left": [], "right": [], "top": [], "low": []}
    for stroke in tile.strokes:
        if stroke.closed:
            continue
        for end in (stroke.points[0], stroke.points[-1]):
            x, y = end[0] - tile.corner[0], end[1] - tile.corner[1]
            for edge, off, along in (
                ("left", x, y),
                ("right", step[0] - x, y),
                ("top", y, x),
                ("low", step[1] - y, x),
            ):
                if abs(off) <= _ON_EDGE_MM:
                    found[edge].append(along)
    return found


def _score(grid: list[tuple[int, int]], ends: Sequence[dict[str, list[float]]]) -> float:
    """Of all line ends at edges, the part that meets one of the neighbour."""
    at = {place: number for number, place in enumerate(grid)}
    met = total = 0
    for (column, row), number in at.items():
        for edge, other_edge, dx, dy in (
            ("left", "right", -1, 0),
            ("right", "left", 1, 0),
            ("top", "low", 0, -1),
            ("low", "top", 0, 1),
        ):
            mine = ends[number][edge]
            total += len(mine)
            beside = at.get((column + dx, row + dy))
            theirs = ends[beside][other_edge] if beside is not None else []
            met += sum(any(abs(a - b) <= MEETS_MM for b in theirs) for a in mine)
    return met / total if total else 0.0


def _place(
    drawing: Drawing,
    page: Page,
    strokes: Sequence[Stroke],
    corner: tuple[float, float],
    at: tuple[float, float],
) -> None:
    move = shifted(at[0] - corner[0], at[1] - corner[1])
    for stroke in strokes:
        drawing.add(replace(stroke, points=tuple(map(move, stroke.points))))
    for writing in page.writings:
        drawing.writings.append(replace(writing, at=move(writing.at)))


def _side_by_side(drawing: Drawing, pages: Sequence[Page]) -> None:
    """Every page by itself."""
    across = 0.0
    for page in pages:
        _place(drawing, page, page.strokes, (0.0, 0.0), (across, 0.0))
        across += math.ceil(page.width) + _APART_MM
