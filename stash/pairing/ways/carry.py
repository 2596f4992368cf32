"""A lay of the pieces as they were, used for the pieces as they are now.

Where pieces only became smaller, fewer or freer, or the cloth wider, an old lay still serves:
what takes cloth away from the need never ends in a longer lay because a quick search was less
lucky.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

from shapely.geometry import Polygon

from stash.geometry.ring import anticlockwise, bounds, mirror, shift, turn
from stash.lay.bounds import bound_of
from stash.lay.check import check
from stash.lay.errors import LayError
from stash.lay.forms import sheet_width, whole_outline
from stash.lay.open_lay import open_copies
from stash.lay.problem import LayKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.lay.problem import Problem, Ring, Shape
    from stash.lay.result import Lay, Placement

HAIR = 0.002
"""Millimetres by which outlines that agree may differ by rounding."""


def carried(old: Problem, lay: Lay, new: Problem) -> Lay | None:
    """`lay` of `old` made an open lay of `new`; None where it is none, by the checker's word."""
    by_name = {shape.name: shape for shape in old.shapes}
    if len(by_name) != len(old.shapes) or any(s.name not in by_name for s in new.shapes):
        return None
    placements: list[Placement] = []
    for index, shape in enumerate(new.shapes):
        was = by_name[shape.name]
        if shape.on_fold != was.on_fold or shape.copies > was.copies:
            return None
        mine = [p for p in lay.placements if p.name == shape.name and not p.waste]
        for copy, placement in enumerate(_kept(mine, shape), start=1):
            polygon = _placed(was, shape, placement)
            placements.append(
                replace(placement, shape=index, copy=copy, polygon=polygon, single=False)
            )
    if not placements:
        return None
    return _checked(new, lay, _pulled(new, placements))


def _kept(mine: list[Placement], shape: Shape) -> Iterator[Placement]:
    """As many as are wanted, as many mirrored as before in proportion, nearest the start first."""
    if len(mine) == shape.copies:
        yield from mine
        return
    near = sorted(mine, key=lambda p: bounds(p.polygon)[2])
    flags = Counter(p.mirrored for p in mine)
    room = {flag: math.ceil(shape.copies * flags[flag] / len(mine)) for flag in flags}
    left = shape.copies
    for placement in near:
        if left and room[placement.mirrored]:
            left -= 1
            room[placement.mirrored] -= 1
            yield placement


def _placed(was: Shape, now: Shape, placement: Placement) -> Ring:
    """The new outline where the old one lay, inside it if it goes in at either end."""
    if was.outline == now.outline:
        return placement.polygon
    old = _turned(was, placement)
    left, low, _, _ = bounds(placement.polygon)
    at = bounds(old)
    new = shift(_turned(now, placement), left - at[0], low - at[1])
    less = _length(was) - _length(now)
    angle = math.radians(placement.turn)
    further = shift(new, less * math.cos(angle), less * math.sin(angle))
    hull = Polygon(placement.polygon).buffer(HAIR)
    return next((ring for ring in (new, further) if hull.covers(Polygon(ring))), new)


def _length(shape: Shape) -> float:
    low, _, high, _ = bounds(shape.outline)
    return high - low


def _turned(shape: Shape, placement: Placement) -> Ring:
    ring = anticlockwise(whole_outline(shape))
    return turn(mirror(ring) if placement.mirrored else ring, placement.turn)


def _pulled(new: Problem, placements: list[Placement]) -> list[Placement]:
    """Moved to the start of the cloth, where nothing on it says where they have to lie."""
    if new.has_flaws or new.outline or new.matches:
        return placements
    start = min(bounds(p.polygon)[0] for p in placements)
    return [replace(p, polygon=shift(p.polygon, -start, 0.0)) for p in placements]


def _checked(new: Problem, lay: Lay, placements: list[Placement]) -> Lay | None:
    need = max(bounds(p.polygon)[2] for p in placements)
    area = sum(Polygon(p.polygon).area for p in placements)
    try:
        bound = bound_of(open_copies(new), sheet_width(new))
    except LayError:
        return None
    found = replace(
        lay,
        kind=LayKind.OPEN,
        width=new.width,
        nap=new.nap,
        need=need,
        placements=tuple(placements),
        folds=(),
        cross_fold=None,
        folded_to=0.0,
        utilisation=area / (new.width * need),
        bound=bound,
        checked=True,
    )
    return None if check(replace(new, kind=LayKind.OPEN), found) else found
