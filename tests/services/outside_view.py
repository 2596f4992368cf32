"""A lay looked at from outside, with nothing but shapely."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shapely.geometry import Polygon, box

if TYPE_CHECKING:
    from stash.lay.result import Lay


def legal(lay: Lay) -> None:
    """Inside the width, no two pieces overlap, none turned round under nap."""
    assert lay.checked
    cloth = box(0, 0, lay.need, lay.width).buffer(0.01)
    shapes = [Polygon(placement.polygon) for placement in lay.placements]
    assert all(cloth.contains(shape) for shape in shapes)
    for place, shape in enumerate(shapes):
        assert all(shape.intersection(other).area < 0.5 for other in shapes[:place])
    if lay.nap:
        assert not [p for p in lay.placements if p.turn % 360 == 180]
