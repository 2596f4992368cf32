"""How a cloth may be washed: from the words its owner wrote, else from its fibres."""

from __future__ import annotations

import re
from enum import IntEnum
from typing import TYPE_CHECKING

from stash.trade.fibres import fibre_family

if TYPE_CHECKING:
    from collections.abc import Iterable


class Washing(IntEnum):
    """The roughest washing a cloth bears, gentlest first."""

    NOT = 0
    HAND = 1
    MACHINE = 2


WASHING_WORDS = {
    Washing.NOT: "not washed",
    Washing.HAND: "washed by hand",
    Washing.MACHINE: "machine washed",
}

_NOT = (
    r"dry.?clean|\bdo not wash|\bno wash|\bnot wash|\bwipe|\bsteam only|\bsponge|\bchemical clean"
)
_HAND = r"\bhand\b|\bby hand|\bwool (wash|programme|cycle)|\bdelicate|\bsilk wash"
_MACHINE = r"\b(30|40|50|60|90|95)\b|\bmachine|\bcold wash|\bwash|\bboil|\btumble"

_BY_FAMILY = {
    "cotton": Washing.MACHINE,
    "linen": Washing.MACHINE,
    "synthetic": Washing.MACHINE,
    "wool": Washing.HAND,
    "silk": Washing.HAND,
    "viscose": Washing.HAND,
}
"""What the fibre itself bears (common practice): wool felts, viscose is weak and silk marks when
wet. Finish and weave may bear less, so only what its owner wrote or washed is certain."""

_LEAST_SHARE = 10.0
"""Per cent from which a fibre decides: a house rule. A little elastane is washed as its ground."""


def washing_from_words(text: str) -> Washing | None:
    """The washing that a care text such as `dry clean` or `30 wash` allows; None: it says none."""
    plain = text.lower()
    for washing, words in ((Washing.NOT, _NOT), (Washing.HAND, _HAND), (Washing.MACHINE, _MACHINE)):
        if re.search(words, plain):
            return washing
    return None


def washing_from_fibres(fibres: Iterable[tuple[str, float]]) -> Washing | None:
    """What the tenderest fibre of (name, per cent) usually bears; None when one is unknown."""
    found = [
        _BY_FAMILY.get(fibre_family(name)) for name, percent in fibres if percent >= _LEAST_SHARE
    ]
    known = [washing for washing in found if washing is not None]
    return min(known) if known and len(known) == len(found) else None
