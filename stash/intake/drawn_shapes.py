"""Which closed outlines of a sheet are pieces, and which lines and words lie in which."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from shapely import STRtree
from shapely.geometry import LineString, Point, Polygon, box
from shapely.validation import explain_validity

from stash.errors import BadInputError
from stash.intake.drawn import Means, Stroke
from stash.intake.drawn_notches import give_notches
from stash.intake.drawn_rings import length
from stash.intake.drawn_words import is_fold, is_grain
from stash.intake.svg_titles import MARK

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.intake.drawn import Drawing, Writing
    from stash.intake.drawn_rings import Joined

SMALLEST_MM2 = 300.0
"""Smaller outlines are notches, arrow heads and letters, unless somebody named them."""
MOST_OUTLINES, MOST_OPEN, MOST_CORNERS = 600, 100, 5000
SAME_OUTLINE_MM = 0.5
"""Two outlines that stray no further from one another are drawn twice."""
THIN_MM = 0.1
"""An outline of more corners than anybody draws is thinned out by so little."""
SHORTEST_OPEN_MM = 150.0
WIDEST_HEAD = 0.15
"""Of an arrow's length: how far its head may reach to a side."""
_PLACE = re.compile(r"\[([-\d.e+]+) ([-\d.e+]+)\]")
_Line = tuple[tuple[float, float], tuple[float, float]]


@dataclass(slots=True)
class Shape:
    """A closed outline, or one that should be closed, and everything found in it."""

    stroke: Stroke
    gap: float = 0.0
    wrong: list[str] = field(default_factory=list)
    mended: list[str] = field(default_factory=list)
    inside: Shape | None = None
    """The smallest outline around it."""
    lines: list[tuple[Stroke, _Line]] = field(default_factory=list)
    """Straight lines in it, the longest first."""
    texts: list[str] = field(default_factory=list)
    marks: list[tuple[float, float]] = field(default_factory=list)
    notches: list[tuple[float, float]] = field(default_factory=list)
    area: float = 0.0
    solid: Polygon = field(default_factory=Polygon)
    """What it covers; where it crosses itself, its hull."""


def find_shapes(drawing: Drawing, joined: Sequence[Joined]) -> list[Shape]:
    """The outlines of one size, with what lies in them; what is dropped is noted."""
    small: list[Joined] = []
    shapes: list[Shape] = []
    for one in joined:
        if one.stroke.means in (Means.UNSAID, Means.OUTLINE) and not is_grain(one.stroke.label):
            shape = _closed(one) if one.stroke.closed else None
            if shape is not None and (shape.area >= SMALLEST_MM2 or _wanted(one.stroke)):
                shapes.append(shape)
                continue
        small.append(one)
    if len(shapes) > MOST_OUTLINES:
        raise BadInputError(
            f"It holds {len(shapes)} closed outlines, more than any pattern has pieces.",
            "Keep only the pieces in it.",
        )
    shapes = _without_frames(drawing, _once(drawing, shapes))
    _nest(shapes)
    _give_lines(shapes, [one for one in small if one.stroke.means is not Means.NOTCH])
    give_notches(shapes, small)
    _give_texts(shapes, drawing.writings)
    return shapes + _open_ones(shapes, small)


def _wanted(stroke: Stroke) -> bool:
    return (stroke.titled and stroke.label.lower() != MARK) or stroke.means is Means.OUTLINE


def _closed(one: Joined) -> Shape | None:
    """An outline with what is wrong with it; None where it has no area at all."""
    shape = Shape(one.stroke, one.gap)
    if len(one.stroke.points) < 3:
        return None
    _mend(shape)
    polygon = Polygon(shape.stroke.points)
    left, low, right, high = polygon.bounds
    if len(shape.stroke.points) > MOST_CORNERS:
        shape.wrong.append(f"its outline has more than {MOST_CORNERS} corners: simplify it")
        shape.solid = box(left, low, right, high)
    elif polygon.is_valid:
        shape.solid = polygon
    elif polygon.convex_hull.area < 1:
        shape.solid = _hull(polygon)
        shape.wrong.append("it has no area: draw a closed line around the piece")
    else:
        shape.solid = _hull(polygon)
        place = _PLACE.search(explain_validity(polygon))
        where = f" near {float(place[1]):.0f} x {float(place[2]):.0f} mm" if place else ""
        shape.wrong.append(f"its outline crosses itself{where}")
    shape.area = shape.solid.area
    return shape


def _mend(shape: Shape) -> None:
    """Leave out points drawn twice, and those of a very fine outline that hardly count."""
    points = shape.stroke.points
    kept = tuple(p for i, p in enumerate(points) if math.dist(p, points[i - 1]) > 0)
    if len(kept) < 3:
        return
    if twice := len(points) - len(kept):
        told = "a point drawn twice is" if twice == 1 else f"{twice} points drawn twice are"
        shape.mended.append(f"{told} left out of its outline")
    if len(kept) > MOST_CORNERS:
        thin = LineString((*kept, kept[0])).simplify(THIN_MM, preserve_topology=False)
        fewer = tuple((float(x), float(y)) for x, y in thin.coords[:-1])
        if 3 <= len(fewer) <= MOST_CORNERS:
            shape.mended.append(
                f"of the {len(kept)} corners of its outline {len(fewer)} are kept, "
                f"which moves it by {THIN_MM:g} mm at most"
            )
            kept = fewer
    shape.stroke = replace(shape.stroke, points=kept)


def _hull(polygon: Polygon) -> Polygon:
    # A hull of points that span an area is a polygon; a sliver is given a little body.
    hull = polygon.convex_hull
    return hull if isinstance(hull, Polygon) else box(*hull.buffer(0.01).bounds)


def _once(drawing: Drawing, shapes: list[Shape]) -> list[Shape]:
    """Without outlines drawn twice, the one with a name kept."""
    ordered = sorted(shapes, key=lambda s: not _wanted(s.stroke))
    tree = STRtree([shape.solid for shape in ordered])
    extents = [shape.solid.bounds for shape in ordered]
    gone: set[int] = set()
    for number, shape in enumerate(ordered):
        if number in gone:
            continue
        mine = shape.solid
        for other in map(int, tree.query(mine)):
            if other <= number or other in gone:
                continue
            theirs = ordered[other]
            if not _near(extents[number], extents[other]):
                continue
            named_both = _wanted(theirs.stroke) and theirs.stroke.label != shape.stroke.label
            if named_both or abs(theirs.area - shape.area) > 0.02 * shape.area + 1:
                continue
            if mine.exterior.hausdorff_distance(theirs.solid.exterior) <= SAME_OUTLINE_MM:
                gone.add(other)
    if gone:
        told = "an outline is" if len(gone) == 1 else f"{len(gone)} outlines are"
        drawing.note(f"{told[:1].upper()}{told[1:]} drawn twice: one of each pair is left out")
    kept = {id(shape) for number, shape in enumerate(ordered) if number not in gone}
    return [shape for shape in shapes if id(shape) in kept]


def _near(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    return all(abs(a - b) <= SAME_OUTLINE_MM for a, b in zip(one, other, strict=True))


def _without_frames(drawing: Drawing, shapes: list[Shape]) -> list[Shape]:
    """Without rectangles drawn around several pieces."""
    solids = [shape.solid for shape in shapes]
    tree = STRtree(solids)
    kept = []
    for number, shape in enumerate(shapes):
        around = solids[number].minimum_rotated_rectangle
        is_box = len(shape.stroke.points) <= 6 and shape.area > 0.99 * around.area
        if is_box and not _wanted(shape.stroke):
            held = [
                other
                for other in map(int, tree.query(solids[number], predicate="contains"))
                if other != number and not shapes[other].wrong
            ]
            if len(_outermost(solids, held)) > 1:
                drawing.note("A frame around several outlines is left out")
                continue
        kept.append(shape)
    return kept


def _outermost(solids: list[Polygon], held: list[int]) -> list[int]:
    """Those of some outlines that lie in no other of them."""
    return [
        one for one in held if not any(o != one and solids[o].contains(solids[one]) for o in held)
    ]


def _nest(shapes: list[Shape]) -> None:
    """Say of every outline which one it lies in."""
    if not shapes:
        return
    solids = [shape.solid for shape in shapes]
    around: dict[int, list[Shape]] = {}
    outer, inner = STRtree(solids).query(solids, predicate="contains")
    for holder, held in zip(map(int, outer), map(int, inner), strict=True):
        one, other = shapes[holder], shapes[held]
        if one.area > other.area and one.stroke.owner == other.stroke.owner:
            around.setdefault(held, []).append(one)
    for number, shape in enumerate(shapes):
        shape.inside = min(around.get(number, ()), key=lambda s: s.area, default=None)


def straight(stroke: Stroke) -> _Line | None:
    """The shaft of a line or arrow: straight, 3 cm or longer, the most of what is drawn.

    What strays far from it is no arrow's head but the side of an outline that does not close.
    """
    points = stroke.points
    if stroke.closed:
        return _arrow(stroke)
    far = max(points, key=lambda p: math.dist(p, points[0]))
    if all(LineString([points[0], far]).distance(Point(p)) <= 1 for p in points[:200]):
        shaft = (points[0], far)
    else:
        shaft = max(pairwise(points), key=lambda pair: math.dist(*pair))
    span, along = math.dist(*shaft), LineString(shaft)
    if span < 30 or span < 0.6 * length(stroke):
        return None
    return shaft if along.hausdorff_distance(LineString(points)) <= WIDEST_HEAD * span else None


def _arrow(stroke: Stroke) -> _Line | None:
    """The length of a thin closed arrow."""
    if len(stroke.points) < 3 or not is_grain(stroke.label):
        return None
    around = Polygon(stroke.points).minimum_rotated_rectangle
    if not isinstance(around, Polygon):
        return None
    a, b, c, d = list(around.exterior.coords)[:4]
    ends = (_middle(a, b), _middle(c, d)), (_middle(b, c), _middle(d, a))
    shaft = max(ends, key=lambda pair: math.dist(*pair))
    return shaft if math.dist(*shaft) >= 30 else None


def _middle(a: tuple[float, ...], b: tuple[float, ...]) -> tuple[float, float]:
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2


def _give_lines(shapes: list[Shape], small: Sequence[Joined]) -> None:
    """Put straight lines and match marks into the outlines they lie in."""
    solids = [shape.solid.buffer(1.0) for shape in shapes]
    tree = STRtree(solids)
    for one in small:
        stroke = one.stroke
        if stroke.closed and stroke.label.lower() == MARK:
            xs, ys = zip(*stroke.points, strict=True)
            middle = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
            for shape in _holders(shapes, tree, Point(middle), stroke.owner)[:1]:
                shape.marks.append(middle)
        elif (line := straight(stroke)) is not None:
            reach = LineString(line)
            holders = _holders(shapes, tree, reach, stroke.owner)
            # Of several outlines in one another each has the line; it is its own in all of them.
            for shape in holders:
                shape.lines.append((stroke, line))
    for shape in shapes:
        shape.lines.sort(key=lambda pair: -math.dist(*pair[1]))


def _holders(
    shapes: list[Shape], tree: STRtree, thing: Point | LineString, owner: str
) -> list[Shape]:
    """The outlines of the same block around something, the smallest first."""
    found = [shapes[number] for number in map(int, tree.query(thing, predicate="within"))]
    return sorted((s for s in found if s.stroke.owner == owner), key=lambda s: s.area)


def _give_texts(shapes: list[Shape], writings: Sequence[Writing]) -> None:
    """Put each text into the smallest outline around it, or into its block's."""
    tree = STRtree([shape.solid for shape in shapes])
    for writing in sorted(writings, key=lambda w: (round(w.at[1], 1), w.at[0])):
        if writing.owner:
            blocks = [s for s in shapes if s.stroke.owner == writing.owner]
            holders = [s for s in blocks if s.inside is None]
        else:
            holders = _holders(shapes, tree, Point(writing.at), "")
        for shape in holders[:1]:
            shape.texts.append(writing.text)


def _open_ones(shapes: Sequence[Shape], small: Sequence[Joined]) -> list[Shape]:
    """Lines that look like an outline but do not close, with where they fail to."""
    around = [shape.solid.buffer(1.0) for shape in shapes]
    tree = STRtree(around)
    found = []
    for one in small:
        stroke = one.stroke
        if stroke.closed or stroke.means not in (Means.UNSAID, Means.OUTLINE):
            continue
        named = _wanted(stroke) and not (is_grain(stroke.label) or is_fold(stroke.label))
        if length(stroke) < SHORTEST_OPEN_MM or (straight(stroke) is not None and not named):
            continue
        line = LineString(stroke.points)
        if line.convex_hull.area < SMALLEST_MM2 or len(tree.query(line, predicate="within")):
            continue
        (ax, ay), (bx, by) = stroke.points[0], stroke.points[-1]
        apart = math.dist(stroke.points[0], stroke.points[-1])
        told = (
            f"its outline is not closed: {apart:.1f} mm are missing between "
            f"{ax:.0f} x {ay:.0f} mm and {bx:.0f} x {by:.0f} mm"
        )
        found.append(Shape(stroke, one.gap, [told], area=line.convex_hull.area))
        if len(found) > MOST_OPEN:
            raise BadInputError(
                f"It holds more than {MOST_OPEN} lines that close no outline.",
                "Keep only the pieces in it, and close their outlines.",
            )
    return found
