"""What a garment kind usually asks and takes, where its pattern says nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.cloth.record import Hand, Structure
from stash.garment.pattern import Asks, Notion
from stash.trade.asks import asks_for
from stash.trade.notions import NOTIONS, elastic_cut

if TYPE_CHECKING:
    from stash.garment.pattern import Kind, Role
    from stash.units.length import Length


def default_asks(kind: Kind, role: Role) -> Asks:
    """The usual asks of one role of a garment kind."""
    row = asks_for(kind.value, role.value)
    return Asks(
        role=role,
        structures=tuple(Structure(word) for word in row.structures),
        stretch_across=row.stretch_across,
        stretch_along=row.stretch_along,
        recovery=row.recovery,
        weight_low=row.weight_low,
        weight_high=row.weight_high,
        hand_low=None if row.hand_low is None else Hand(row.hand_low),
        hand_high=None if row.hand_high is None else Hand(row.hand_high),
        nap_allowed=row.nap_allowed,
    )


def default_notions(kind: Kind, waist: Length | None = None) -> tuple[Notion, ...]:
    """The usual notions of a garment kind; waist elastic has a length where the waist is known."""
    return tuple(
        Notion(
            name=row.name,
            amount=row.amount,
            length=elastic_cut(waist) if row.waist and waist else row.length,
            note=row.note,
        )
        for row in NOTIONS[kind.value]
    )
