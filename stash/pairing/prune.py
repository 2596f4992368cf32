"""Which cloths are worth laying a slot out on, told without laying anything out."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from stash.cloth.washing import washed_length, washed_usable_width
from stash.garment.pattern import Grain
from stash.geometry.ring import signed_area
from stash.pairing.blocked import stand_ins
from stash.pairing.judgement import Need, Sureness
from stash.pairing.worth import good_enough
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from stash.cloth.record import Cloth
    from stash.garment.pattern import Piece
    from stash.pairing.nature import Natures
    from stash.pairing.slots import Slot

AT_LEAST = 3
"""Cloths laid out for a slot even if none suits well, so that the nearest miss is a length."""


def worth_a_lay(
    slot: Slot, cloths: Iterable[Cloth], free: Mapping[int, Length], natures: Natures
) -> dict[int, Need]:
    """Needs by cloth id for cloths that need no lay, because the answer is plain without one.

    A cloth whose whole free area is less than that of the pieces is short by a bound no lay
    can beat; a block, which may be smaller once scaled, sets no bound. A cloth that suits worse
    than buying would is not laid out, unless there is nothing better. Cloths that fail a hard
    ask, and roles with neither pieces nor block, are left out: they are never laid out anyway.
    """
    pieces = slot.pieces
    laid = pieces or stand_ins(slot.make, slot.pattern, slot.role)
    if not laid or slot.held is not None:
        return {}
    least = least_of(pieces)
    plain: dict[int, Need] = {}
    poor: list[tuple[float, int]] = []
    fair = 0
    for cloth in cloths:
        nature = natures.of(cloth, slot.pattern, slot.role)
        if nature.bars:
            continue
        bound = least.on(cloth)
        if bound > washed_length(free[cloth.id], cloth).mm:
            plain[cloth.id] = _bounded(bound)
        elif nature.suit < good_enough(slot.make):
            poor.append((-nature.suit, cloth.id))
        else:
            fair += 1
    for _, cloth_id in sorted(poor)[max(0, AT_LEAST - fair) :]:
        plain[cloth_id] = _POOR
    return plain


_POOR = Need(
    length=None,
    sureness=Sureness.UNKNOWN,
    why="Not laid out: it suits too badly to be cut for it.",
)


def _bounded(bound: float) -> Need:
    length = Length.from_mm(bound)
    return Need(
        length=length,
        sureness=Sureness.ESTIMATED,
        why="Not laid out: the pieces alone take at least this much.",
        low=length,
        at_least=True,
    )


class Least(NamedTuple):
    """What no lay of some pieces can beat."""

    area: float
    """mm2."""
    reach: float
    """mm along the cloth."""

    def on(self, cloth: Cloth) -> float:
        """mm of this cloth, washed."""
        return max(self.reach, self.area / washed_usable_width(cloth).mm)


def least_of(pieces: Iterable[Piece]) -> Least:
    """Their area and the farthest any of them must reach; nothing of none."""
    pieces = tuple(pieces)
    return Least(sum(map(_area, pieces)), max(map(_reach, pieces), default=0.0))


def _area(piece: Piece) -> float:
    """Of all copies, mm2."""
    return piece.copies * abs(signed_area(piece.outline)) * (2 if piece.on_fold else 1)


def _reach(piece: Piece) -> float:
    """mm along the cloth below which this piece cannot be laid.

    Its extent along the cloth where its grain fixes that; else its area over its longest
    diagonal, which is no more than its least width at any angle.
    """
    xs, ys = [x for x, _ in piece.outline], [y for _, y in piece.outline]
    along = max(xs) - min(xs)
    across = (max(ys) - min(ys)) * (2 if piece.on_fold else 1)
    if not piece.tolerance and piece.grain in (Grain.LENGTHWISE, Grain.CROSSWISE):
        return along if piece.grain is Grain.LENGTHWISE else across
    whole = abs(signed_area(piece.outline)) * (2 if piece.on_fold else 1)
    return whole / math.hypot(along, across) if along and across else 0.0
