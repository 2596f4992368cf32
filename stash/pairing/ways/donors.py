"""Other cloths for what is not seen: facings, pocket bags, the yoke's lining, the under-collar."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.pairing.likeness import missed
from stash.pairing.ways.cut import Way, without
from stash.pairing.ways.offer_pieces import group_of
from stash.trade import ways as trade
from stash.trade.colour import lab_of, shade_difference
from stash.trade.part_words import HALF_HIDDEN, HIDDEN, Part, part_of
from stash.trade.ways import WayKind

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from stash.cloth.record import Cloth
    from stash.garment.pattern import Piece
    from stash.pairing.ways.cut import Cut, Names

HALF_AGAIN = math.log(1.5)
INSIDE = {
    Part.FACING: "the facings",
    Part.POCKET_BAG: "the pocket bags",
    Part.COLLAR: "the under-collar",
    Part.STAND: "the inside of the collar stand",
    Part.YOKE: "the inside of the yoke",
}


@dataclass(frozen=True, slots=True)
class Inside:
    """Pieces that may be cut from another cloth; `half`: only the copies inside."""

    part: Part
    names: Names
    half: bool

    @property
    def words(self) -> str:
        """`the facings`."""
        return INSIDE[self.part]


@dataclass(frozen=True, slots=True, kw_only=True)
class Distance:
    """How far a donor is from the cloth it stands in for."""

    colour: float
    """CIEDE2000."""
    weight: float | None
    """Per cent heavier, below 0 lighter; None: one of them was never weighed."""


def insides(cut: Cut) -> tuple[Inside, ...]:
    """What of the role may come from another cloth."""
    found = []
    for part in INSIDE:
        pieces = [p for p in cut.pieces if part_of(p.name) is part]
        if part in HIDDEN and pieces:
            found.append(Inside(part, frozenset(p.name for p in pieces), half=False))
        names = frozenset(p.name for p in pieces if _has_inside(p))
        if part in HALF_HIDDEN and names:
            found.append(Inside(part, names, half=True))
    # Without anything left there is nothing to cut from the cloth itself.
    return tuple(one for one in found if any(p.name not in one.names for p in cut.pieces))


def _has_inside(piece: Piece) -> bool:
    """It is cut twice over: once for outside, once for inside."""
    whole = piece.on_fold or not piece.mirrored
    return piece.copies % (2 if whole else 4) == 0


def distance(cloth: Cloth, donor: Cloth) -> Distance:
    """In colour and weight."""
    weight = None
    if cloth.weight and donor.weight:
        weight = 100 * (donor.weight / cloth.weight - 1)
    return Distance(
        colour=shade_difference(lab_of(cloth.colour), lab_of(donor.colour)), weight=weight
    )


def donor_cost(cloth: Cloth, donor: Cloth, today: date) -> float:
    """What cutting something hidden from `donor` costs, on the scale of `trade.ways`."""
    apart = distance(cloth, donor)
    colour = trade.OFF_COLOUR_COST * min(1.0, apart.colour / trade.OFF_COLOUR_FULL)
    if apart.weight is None:
        weight = trade.UNKNOWN_WEIGHT_COST
    else:
        weight = trade.OFF_WEIGHT_COST * abs(math.log(1 + apart.weight / 100)) / HALF_AGAIN
    return trade.DONOR.cost + colour + weight + trade.LOVED_COST * missed(donor, today)


def ranked(cloth: Cloth, others: Iterable[Cloth], today: date) -> list[Cloth]:
    """The donors that cost least first; never the cloth itself."""
    able = [other for other in others if other.id != cloth.id and other.left]
    return sorted(able, key=lambda other: (donor_cost(cloth, other, today), other.id))


def donor_way(inside: Inside, cloth: Cloth, donor: Cloth, today: date, suit: float = 1.0) -> Way:
    """Cutting what is inside from `donor`, which suits it so well, 0-1."""
    cost = donor_cost(cloth, donor, today) + trade.POORLY_SUITED_COST * (1 - suit)
    return Way(
        kind=WayKind.DONOR,
        name=f"{inside.words[4:].capitalize()} from {donor.name}",
        does=f"Cut {inside.words} from {donor.name}"
        + (", the outside from the cloth itself." if inside.half else "."),
        costs=trade.DONOR.words,
        cost=round(cost, 2),
        group=group_of(WayKind.DONOR, inside.part),
        apply=lambda cut: without(cut, inside.names, donor.id, half=inside.half),
        donor=donor.id,
    )
