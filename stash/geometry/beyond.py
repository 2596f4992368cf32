"""What is left of an outline once everything before a line across is cut away. Millimetres."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from shapely.geometry import Polygon

    from stash.geometry.ring import FloatRing

LEAST_MM2 = 1.0
"""A part smaller than this is no part any more."""
DIGITS = 4
"""Of a millimetre; what is moved is rounded to them, far finer than anyone measures."""


def beyond(ring: FloatRing, at: float) -> tuple[FloatRing, ...]:
    """The parts of `ring` at x = `at` and above, moved so that the line is x = 0; largest first."""
    # Slow to load, and a plan asks only for cloth with an outline or a flaw with corners.
    from shapely import make_valid
    from shapely.geometry import Polygon, box

    shape = make_valid(Polygon(ring))
    _, bottom, high, top = shape.bounds
    if high <= at:
        return ()
    rest = shape.intersection(box(at, bottom - 1, high + 1, top + 1))
    parts = [p for p in getattr(rest, "geoms", [rest]) if isinstance(p, Polygon)]
    whole = [part for part in parts if part.area >= LEAST_MM2]
    whole.sort(key=lambda part: part.area, reverse=True)
    return tuple(_moved(part, at) for part in whole)


def _moved(part: Polygon, at: float) -> FloatRing:
    corners = list(part.exterior.coords)[:-1]
    return tuple((round(max(0.0, x - at), DIGITS), y) for x, y in corners)
