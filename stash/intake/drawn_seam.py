"""A seam allowance added outside a piece that was drawn without."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from shapely.geometry import Point, Polygon, box
from shapely.ops import unary_union

from stash.errors import BadInputError
from stash.geometry.ring import anticlockwise, bounds, clean

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

    from stash.garment.pattern import Piece

MITRE_LIMIT = 2.0
"""A corner reaches at most this many allowances out; sharper ones are cut off square."""


def with_seam(piece: Piece, seam: float) -> Piece:
    """The piece with `seam` mm added all round, but not at its fold.

    Raises:
        BadInputError: Nothing of it would be left in one part.
    """
    whole: BaseGeometry = Polygon(piece.outline)
    if piece.on_fold:
        # The half is opened out first, so that the allowance runs straight over the fold.
        whole = unary_union([whole, Polygon([(x, -y) for x, y in piece.outline])])
    grown: BaseGeometry = whole.buffer(seam, join_style="mitre", mitre_limit=MITRE_LIMIT)
    edge = grown.boundary
    if piece.on_fold:
        left, _, right, high = grown.bounds
        grown = grown.intersection(box(left - 1, 0.0, right + 1, high + 1))
    if not isinstance(grown, Polygon):
        raise BadInputError(f"{piece.name} falls into parts.", "Draw its outline as one line.")
    ring = tuple((float(x), float(y)) for x, y in grown.exterior.coords[:-1])
    left, low, _, _ = bounds(ring)
    low = 0.0 if piece.on_fold else low
    placed = tuple((round(x - left, 3) + 0.0, round(y - low, 3) + 0.0) for x, y in ring)
    match = piece.match and (round(piece.match[0] - left, 3), round(piece.match[1] - low, 3))
    # A notch is cut into the new edge, straight out from where it was.
    cut = [edge.interpolate(edge.project(Point(notch))) for notch in piece.notches]
    notches = tuple((round(p.x - left, 3) + 0.0, round(p.y - low, 3) + 0.0) for p in cut)
    outline = anticlockwise(clean(placed, 0.02))
    return replace(piece, outline=outline, match=match, notches=notches, seam=seam)
