"""The block of a garment kind: stand-in pieces for a pattern known only by its chart."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.garment.blocks import coats, dresses, legs, skirts, tops
from stash.garment.blocks.body import body_of
from stash.garment.pattern import Kind

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from stash.garment.blocks.body import Body
    from stash.garment.blocks.parts import Pieces
    from stash.garment.pattern import Pattern, Role


def pyjamas(body: Body) -> Pieces:
    """A shirt and elastic trousers."""
    return (*tops.shirt(body), *legs.elastic_trousers(body))


BLOCKS: Mapping[Kind, Callable[[Body], Pieces]] = {
    Kind.TROUSERS_ELASTIC: legs.elastic_trousers,
    Kind.TROUSERS_TAILORED: legs.tailored_trousers,
    Kind.SHORTS: legs.shorts,
    Kind.LEGGINGS: legs.leggings,
    Kind.SKIRT_STRAIGHT: skirts.straight_skirt,
    Kind.SKIRT_FLARED: skirts.flared_skirt,
    Kind.TSHIRT: tops.t_shirt,
    Kind.SWEATSHIRT: tops.sweatshirt,
    Kind.TURTLENECK: tops.turtleneck,
    Kind.SHIRT: tops.shirt,
    Kind.BLOUSE: tops.blouse,
    Kind.DRESS: dresses.shift_dress,
    Kind.PINAFORE: dresses.pinafore,
    Kind.JACKET: coats.jacket,
    Kind.COAT: coats.coat,
    Kind.PYJAMAS: pyjamas,
}
"""Every kind but the bag, whose size no body tells."""


def block_of(pattern: Pattern, size: str, role: Role) -> Pieces:
    """The block's pieces for one role of a pattern in a size; empty where there is none.

    Drafted for the body of the size table, see `body.body_of`. Measures that make no shape
    count as no block: the chart's own figures are then all there is.
    """
    row = next((each for each in pattern.sizes if each.label == size), None)
    return _drafted(pattern.kind, body_of(row, child=pattern.child), role)


@lru_cache(maxsize=256)
def _drafted(kind: Kind, body: Body, role: Role) -> Pieces:
    if kind not in BLOCKS:
        return ()
    try:
        return tuple(piece for piece in BLOCKS[kind](body) if piece.role is role)
    except BadInputError:
        return ()
