"""Where a piece has to meet the print: on the piece, or no lay can be made of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.geometry.ring import bounds
from stash.units.format_length import Measure, show_length
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.config import System
    from stash.garment.pattern import Piece


def refuse_match_beside(piece: Piece, system: System) -> None:
    """Refuse a match point no lay would take.

    Raises:
        BadInputError: It lies outside the outline; the message says where both are.
    """
    if piece.match is None:
        return
    from shapely.geometry import Point, Polygon

    from stash.lay.validate import BESIDE_MM

    if Polygon(piece.outline).distance(Point(piece.match)) <= BESIDE_MM:
        return
    left, low, right, high = bounds(piece.outline)
    x, y = (show_length(Length.from_mm(mm), system, Measure.EXACT) for mm in piece.match)
    along, across = (
        show_length(Length.from_mm(mm), system, Measure.EXTENT) for mm in (right - left, high - low)
    )
    half = "the half that is drawn" if piece.on_fold else "the piece"
    raise BadInputError(
        f"{piece.name}: the match point {x} along and {y} across lies outside {half}, "
        f"which is {along} along and {across} across.",
        "Type a place on its stitching line, from its lower left: 12 cm, 1.5 cm.",
    )
