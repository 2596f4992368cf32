"""The hand of a cloth, measured where possible."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.cloth.record import Hand
from stash.trade.hand import hand_from_bending, hand_from_drape

if TYPE_CHECKING:
    from stash.cloth.record import Cloth


def hand_of(cloth: Cloth) -> tuple[Hand | None, str]:
    """The hand and where it comes from; None when it was neither measured nor judged.

    The drape coefficient comes before the bending length: it shows how the cloth hangs in
    every direction at once.
    """
    if cloth.drape is not None:
        return Hand(hand_from_drape(cloth.drape)), f"drape coefficient {cloth.drape:g} %"
    if cloth.bending_length is not None:
        step = hand_from_bending(cloth.bending_length)
        return Hand(step), f"bending length {cloth.bending_length:g} mm"
    if cloth.hand is not None:
        return cloth.hand, "judged by hand"
    return None, "not known"
