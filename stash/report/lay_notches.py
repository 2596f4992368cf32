"""Notches of the pieces in a lay: short marks from the edge into every copy.

A lay knows no notches, because they never change it. They come from the pieces it was laid
from and take the way their outline took.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.geometry.edge_tick import edge_tick
from stash.lay.check_repeat import placed
from stash.report.lay_marks import Stretch

if TYPE_CHECKING:
    from stash.lay.problem import Point
    from stash.lay.result import Lay, Placement
    from stash.report.records import LaidOut

TICK = 8.0
"""Length of a notch as it is drawn, mm: about as deep as a seam allowance lets one be cut."""


def notch_ticks(laid: LaidOut, lay: Lay | None) -> tuple[Stretch, ...]:
    """Every notch of every copy that is needed, on both halves of one cut on the fold.

    Each runs from its edge inwards, in mm on the opened-out cloth.
    """
    if laid.problem is None or lay is None:
        return ()
    pieces = laid.pattern.pieces_for(laid.view, laid.size, laid.role)
    # Two pieces may have one outline and notches of their own: the name tells them apart.
    notches = {(p.name, p.outline, p.on_fold): p.notches for p in pieces if p.notches}
    found = []
    for placement in lay.placements if notches else ():
        shape = laid.problem.shapes[placement.shape]
        marked = notches.get((shape.name, shape.outline, shape.on_fold), ())
        if marked and not placement.waste:
            halves = [(x, -y) for x, y in marked] if shape.on_fold else []
            where = placed([*marked, *halves], shape, placement)
            found += [_tick(placement, point) for point in where]
    return tuple(dict.fromkeys(found))


def _tick(placement: Placement, point: Point) -> Stretch:
    (x1, y1), (x2, y2) = edge_tick(placement.polygon, point, TICK)
    return Stretch(x1, y1, x2, y2)
