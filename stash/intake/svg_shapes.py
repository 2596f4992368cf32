"""One shape of an SVG as strokes in mm, curves made straight."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from svgelements import (
    Arc,
    Circle,
    Close,
    CubicBezier,
    Ellipse,
    Move,
    Path,
    Polygon,
    Polyline,
    QuadraticBezier,
    Rect,
    SimpleLine,
)

from stash.errors import BadInputError
from stash.geometry.flatten import cubic, inner_points
from stash.intake.drawn import Stroke
from stash.intake.svg_text import because, local_name

if TYPE_CHECKING:
    from collections.abc import Iterator
    from xml.etree.ElementTree import Element

    from stash.geometry.affine import Affine

FLAT_MM = 0.2
"""A curve may stray this far from the straight lines that replace it."""
_KINDS = {
    "rect": Rect,
    "circle": Circle,
    "ellipse": Ellipse,
    "line": SimpleLine,
    "polygon": Polygon,
    "polyline": Polyline,
}
SHAPES = frozenset({"path", *_KINDS})
_SIZED = ("x", "y", "width", "height", "rx", "ry", "cx", "cy", "r", "x1", "y1", "x2", "y2")


def shape_strokes(element: Element, place: Affine, label: str) -> Iterator[Stroke]:
    """The strokes of a shape, one for each part of its path.

    Raises:
        BadInputError: Its numbers make no shape.
    """
    try:
        path = _path(element)
        strokes = list(_strokes(path, place, label))
    except (
        *(ValueError, ArithmeticError, TypeError, IndexError, AttributeError, RecursionError),
    ) as error:
        # svgelements raises whatever its arithmetic meets in a malformed attribute.
        raise BadInputError(
            f"the shape {label or local_name(element)} cannot be read{because(error)}.",
            "Draw it as a plain path.",
        ) from error
    for stroke in strokes:
        if not all(math.isfinite(v) for p in stroke.points for v in p):
            raise BadInputError(
                f"the shape {label or local_name(element)} holds a number that is none.",
                "Draw it as a plain path.",
            )
        yield stroke


def _path(element: Element) -> Path:
    name = local_name(element)
    if name == "path":
        return Path(element.get("d", ""))
    if name in ("polygon", "polyline"):
        return Path(_KINDS[name](element.get("points", "")))
    values = {key: element.get(key) for key in _SIZED if element.get(key)}
    shape = _KINDS[name](values)
    shape.render(ppi=96)
    return Path(shape)


def _strokes(path: Path, place: Affine, label: str) -> Iterator[Stroke]:
    points: list[tuple[float, float]] = []
    for segment in path:
        if isinstance(segment, Move):
            if len(points) > 1:
                yield Stroke(tuple(points), label=label)
            points = [_mapped(place, segment.end)]
            continue
        if segment.end is None:
            continue
        end = _mapped(place, segment.end)
        for start, one, two, last in _cubics(segment):
            bends = [_mapped(place, p) for p in (start, one, two, last)]
            points += inner_points(cubic(*bends), FLAT_MM)
            # The last one ends where the segment does, which is kept below.
            points += [bends[3]] if last != segment.end else []
        if isinstance(segment, Close):
            closed = points[:-1] if len(points) > 1 and points[-1] == end else points
            yield Stroke(tuple(closed), closed=True, label=label)
            # A path may go on from where it was closed.
            points = [end]
        else:
            points.append(end)
    if len(points) > 1:
        yield Stroke(tuple(points), label=label)


def _cubics(segment: object) -> Iterator[tuple[complex, complex, complex, complex]]:
    """A curve as Bézier curves of the third degree; an affine map of their points maps them."""
    if isinstance(segment, CubicBezier):
        yield segment.start, segment.control1, segment.control2, segment.end
    elif isinstance(segment, QuadraticBezier):
        start, bend, end = segment.start, segment.control, segment.end
        yield start, start + (bend - start) * (2 / 3), end + (bend - end) * (2 / 3), end
    elif isinstance(segment, Arc):
        # Over a twelfth of a turn a Bézier curve strays less than a millionth of the radius.
        count = max(1, math.ceil(abs(segment.sweep) / (math.tau / 12)))
        for part in segment.as_cubic_curves(count):
            yield part.start, part.control1, part.control2, part.end


def _mapped(place: Affine, point: complex) -> tuple[float, float]:
    x, y = place((float(point.real), float(point.imag)))
    return x, y
