"""Pattern pieces drawn in SVG: closed, titled shapes at true size, grain from left to right.

Every shape is a piece and carries a title such as `front | cut 2` or
`back | cut 1 on fold | size M`; groups may carry the words common to their pieces
(`size M`, `rib`). Shapes in a group titled `notes` are not read. A piece on the fold has
its fold as its straight upper edge. A small shape titled `match` inside a piece marks, with
its middle, the point on the stitching line that has to meet the repeat of a print; a short
mark titled `notch` at the edge of a piece is, with its middle, a notch.
"""

from __future__ import annotations

import io
import math
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING
from xml.etree import ElementTree

from shapely.geometry import Point, Polygon
from svgelements import SVG, Arc, Close, CubicBezier, Move, Path, QuadraticBezier, Shape

from stash.errors import BadInputError
from stash.garment.pattern import Piece
from stash.geometry.flatten import inner_points
from stash.geometry.ring import anticlockwise, bounds
from stash.intake.drawn_notches import REACH_MM
from stash.intake.drawn_place import refuse_unlayable
from stash.intake.svg_text import because, local_name, read_svg_tree
from stash.intake.svg_titles import Said, read_group_title, read_piece_title
from stash.lay.problem import Shape as LayShape

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path as FilePath

    from shapely.geometry import LinearRing

MM_PER_PX = 25.4 / 96
"""A CSS pixel is 1/96 inch."""
FLAT_MM = 0.3
"""A curve may stray this far from the straight lines that replace it."""
SAME_MM = 0.05
"""Points nearer than this are one point: a path is closed when its ends are."""
SMALLEST_MM2, SHORTEST_FOLD_MM = 25.0, 10.0

_SHAPES = {"path", "rect", "circle", "ellipse", "polygon", "polyline", "line"}
_UNDRAWN = {"defs", "clipPath", "mask", "marker", "pattern", "symbol", "metadata"}
_LABEL = "{http://www.inkscape.org/namespaces/inkscape}label"
_NUMBER = "stash-piece"
_Ring = tuple[tuple[float, float], ...]


def read_svg_pieces(path: FilePath) -> tuple[Piece, ...]:
    """The pieces drawn in an SVG file, in the order they stand there.

    Raises:
        NotFoundError: no such file.
        BadInputError: the file or one of its pieces cannot be used; it says which and why.
    """
    root = read_svg_tree(path)
    try:
        said = _number_pieces(root)
        drawn = SVG.parse(io.BytesIO(ElementTree.tostring(root)), ppi=96, reify=True)
        shapes = [
            (shape, said[int(shape.values[_NUMBER])])
            for shape in drawn.elements()
            if isinstance(shape, Shape) and _NUMBER in shape.values
        ]
        pieces = _pieces(shapes)
    except BadInputError as error:
        raise BadInputError(f"{path.name}: {error.message}", error.hint) from error
    except (
        *(ValueError, ArithmeticError, TypeError, IndexError, AttributeError, RecursionError),
    ) as error:
        # svgelements raises whatever its arithmetic meets in a malformed attribute.
        raise BadInputError(
            f"{path.name} holds a shape that cannot be read{because(error)}.",
            "Draw it as a plain path.",
        ) from error
    if not pieces:
        raise BadInputError(f"{path.name} holds no pieces.", "Draw each as a closed, titled path.")
    return pieces


def _number_pieces(root: ElementTree.Element) -> list[Said]:
    """Mark every shape with a number and return what its titles say, by number."""
    found: list[Said] = []
    waiting = [(root, Said())]
    while waiting:
        group, common = waiting.pop()
        title = _title(group)
        element_says = read_group_title(title, common)
        if title.strip().lower() == "notes":
            continue
        children = [child for child in group if local_name(child) not in _UNDRAWN]
        for child in children:
            if local_name(child) in _SHAPES:
                child.set(_NUMBER, str(len(found)))
                found.append(_said_of(child, element_says))
        waiting.extend((c, element_says) for c in children if local_name(c) not in _SHAPES)
    return found


def _said_of(shape: ElementTree.Element, common: Said) -> Said:
    title = _title(shape) or shape.get(_LABEL, "")
    if not title:
        name = shape.get("id", f"a {local_name(shape)}")
        raise BadInputError(
            f"the shape {name} has no title.",
            "Title it like 'front | cut 2', or put it in a group titled 'notes'.",
        )
    return read_piece_title(title, common)


def _title(element: ElementTree.Element) -> str:
    for child in element:
        if local_name(child) == "title":
            return "".join(child.itertext()).strip()
    return ""


def _pieces(shapes: list[tuple[Shape, Said]]) -> tuple[Piece, ...]:
    """The pieces, each with the match point marked inside it and the notches at its edge."""
    marks = [_middle(shape) for shape, said in shapes if said.is_mark]
    drawn = [
        (_ring(Path(shape), said.name), said)
        for shape, said in shapes
        if not (said.is_mark or said.is_notch)
    ]
    inside = [[m for m in marks if Polygon(ring).covers(Point(m))] for ring, _ in drawn]
    for mark in marks:
        if sum(mark in found for found in inside) != 1:
            raise BadInputError(
                f"a match point at {mark[0]:.0f} x {mark[1]:.0f} mm is not in one piece.",
                "Draw it inside the piece it belongs to.",
            )
    notches = _notches(shapes, [Polygon(ring).exterior for ring, _ in drawn])
    pieces = []
    for (ring, said), found, edge in zip(drawn, inside, notches, strict=True):
        if len(found) > 1:
            raise BadInputError(
                f"the piece '{said.name}' has {len(found)} match points.", "Mark one of them."
            )
        left, low, _, _ = bounds(ring)
        cut = tuple((round(float(x - left), 3), round(float(y - low), 3)) for x, y in edge)
        pieces.append(replace(_piece(ring, said, found[0] if found else None), notches=cut))
    return tuple(pieces)


def _notches(
    shapes: list[tuple[Shape, Said]], edges: list[LinearRing]
) -> list[list[tuple[float, float]]]:
    """The notches at each of the edges."""
    found: list[list[tuple[float, float]]] = [[] for _ in edges]
    for place in [_middle(shape) for shape, said in shapes if said.is_notch]:
        off = [edge.distance(Point(place)) for edge in edges]
        if not off or min(off) > REACH_MM:
            raise BadInputError(
                f"a notch at {place[0]:.0f} x {place[1]:.0f} mm is at the edge of no piece.",
                "Draw it across the edge of the piece it belongs to.",
            )
        found[off.index(min(off))].append(place)
    return found


def _middle(shape: Shape) -> tuple[float, float]:
    box = Path(shape).bbox()
    if box is None or not all(math.isfinite(v) for v in box):
        raise BadInputError("a match point or notch is no shape.", "Draw it as a small circle.")
    left, low, right, high = (float(v) * MM_PER_PX for v in box)
    return (left + right) / 2, (low + high) / 2


def _piece(ring: _Ring, said: Said, mark: tuple[float, float] | None) -> Piece:
    left, low, _, _ = bounds(ring)
    # svgelements lets numpy numbers through; plain ones are kept.
    placed = tuple((round(float(x - left), 3), round(float(y - low), 3)) for x, y in ring)
    if said.on_fold:
        placed = _on_fold(placed, said.name)
    shape = LayShape(said.name, placed, said.copies, said.on_fold)
    refuse_unlayable(shape, f"the piece '{said.name}'")
    return Piece(
        name=said.name,
        outline=anticlockwise(placed),
        copies=said.copies,
        on_fold=said.on_fold,
        mirrored=said.mirrored,
        grain=said.grain,
        role=said.role,
        size=said.size,
        views=said.views,
        tolerance=said.tolerance,
        seam=said.seam,
        match=mark and (round(float(mark[0] - left), 3), round(float(mark[1] - low), 3)),
    )


def _ring(path: Path, name: str) -> _Ring:
    points = list(_points(path, name))
    kept = [p for i, p in enumerate(points) if i == 0 or math.dist(p, points[i - 1]) > SAME_MM]
    if not all(math.isfinite(v) and abs(v) < 1e7 for p in kept for v in p):
        raise BadInputError(f"the piece '{name}' is not of this world.", "Check its numbers.")
    closed = len(kept) > 1 and math.dist(kept[0], kept[-1]) <= SAME_MM
    if not closed:
        raise BadInputError(
            f"the piece '{name}' is not closed.", "Close its path: end it where it began."
        )
    ring = tuple(kept[:-1])
    shape = Polygon(ring) if len(ring) >= 3 else Polygon()
    if shape.convex_hull.area < SMALLEST_MM2:
        raise BadInputError(f"the piece '{name}' has no area.", "Draw it at its true size.")
    if not shape.is_valid:
        raise BadInputError(
            f"the outline of '{name}' crosses itself.", "Redraw it so that it never does."
        )
    return ring


def _points(path: Path, name: str) -> Iterator[tuple[float, float]]:
    """Points in mm along the one subpath of `path`, curves made straight within FLAT_MM."""
    started = False
    for segment in path:
        if isinstance(segment, Move):
            if started:
                raise BadInputError(
                    f"the piece '{name}' is drawn in several parts.", "Draw one closed path each."
                )
            yield _mm(segment.end)
            continue
        if segment.end is None:
            continue
        started = not isinstance(segment, Close) or started
        if isinstance(segment, (CubicBezier, QuadraticBezier, Arc)):
            yield from inner_points(partial(_at, segment), FLAT_MM)
        yield _mm(segment.end)


def _at(segment: CubicBezier | QuadraticBezier | Arc, t: float) -> tuple[float, float]:
    return _mm(segment.point(t))


def _mm(point: complex) -> tuple[float, float]:
    return float(point.real) * MM_PER_PX, float(point.imag) * MM_PER_PX


def _on_fold(ring: _Ring, name: str) -> _Ring:
    """The ring with its fold exactly on y = 0."""
    ring = tuple((x, 0.0 if y <= SAME_MM else y) for x, y in ring)
    for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
        if a[1] == b[1] == 0.0 and abs(a[0] - b[0]) > SHORTEST_FOLD_MM:
            return ring
    raise BadInputError(
        f"the piece '{name}' is on the fold but has no straight upper edge to fold at.",
        "Draw the half with its fold as the upper edge, along the grain from left to right.",
    )
