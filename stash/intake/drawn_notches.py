"""Notches of drawn pieces: from points and small marks to places on the edge of a piece."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from shapely import STRtree
from shapely.geometry import Point

from stash.intake.drawn import Means

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from shapely.geometry import LinearRing

    from stash.geometry.affine import Affine
    from stash.intake.drawn import Stroke
    from stash.intake.drawn_rings import Joined
    from stash.intake.drawn_shapes import Shape

    Place = tuple[float, float]

REACH_MM = 16.0
"""As far from the edge as a seam allowance is wide: some draw notches on the stitching line."""
ON_EDGE_MM = 1.0
SAME_MM = 0.5
"""Two marks this near are one notch, drawn twice."""
MOST_NOTCHES = 200
"""Of one piece; more than anybody would cut."""


def give_notches(shapes: Sequence[Shape], drawn: Iterable[Joined]) -> None:
    """Put every notch to the outline of its own block whose edge is nearest to it.

    What lies nowhere near an edge is no notch of any piece.
    """
    edges = [shape.solid.exterior for shape in shapes]
    tree = STRtree(edges)
    for one in drawn:
        stroke = one.stroke
        if stroke.means is not Means.NOTCH:
            continue
        middle = _middle(stroke)
        near = map(int, tree.query(Point(middle), predicate="dwithin", distance=_reach(stroke)))
        own = [number for number in near if shapes[number].stroke.owner == stroke.owner]
        if not own:
            continue
        nearest = min(own, key=lambda n: (edges[n].distance(Point(middle)), -shapes[n].area))
        place = _place(stroke, edges[nearest])
        off = edges[nearest].distance(Point(place))
        if off <= REACH_MM:
            _mark(shapes[nearest], place)


def laid_notches(notches: Iterable[Place], place: Affine, *, on_fold: bool) -> tuple[Place, ...]:
    """The notches where `place` lays their outline; those of a half lie on its side of the fold."""
    laid = [place(notch) for notch in notches]
    return tuple(
        (round(x, 3) + 0.0, round(max(y, 0.0) if on_fold else y, 3) + 0.0) for x, y in laid
    )


def _mark(shape: Shape, place: Place) -> None:
    if any(math.dist(place, other) <= SAME_MM for other in shape.notches):
        return
    if len(shape.notches) < MOST_NOTCHES:
        shape.notches.append(place)
        return
    told = f"of its notches only the first {MOST_NOTCHES} are read"
    if told not in shape.mended:
        shape.mended.append(told)


def _reach(stroke: Stroke) -> float:
    """How far from an edge its middle may lie."""
    xs, ys = zip(*stroke.points, strict=True)
    return REACH_MM + math.hypot(max(xs) - min(xs), max(ys) - min(ys)) / 2


def _place(stroke: Stroke, edge: LinearRing) -> Place:
    """Where a drawn notch meets the edge.

    A mark across the edge does so in its middle, a slit at one end, an open V between its ends.
    """
    middle = _middle(stroke)
    if stroke.closed or edge.distance(Point(middle)) <= ON_EDGE_MM:
        return middle
    ends = stroke.points[0], stroke.points[-1]
    off = [edge.distance(Point(end)) for end in ends]
    if max(off) <= ON_EDGE_MM:
        return (ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2
    return ends[off.index(min(off))]


def _middle(stroke: Stroke) -> Place:
    xs, ys = zip(*stroke.points, strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
