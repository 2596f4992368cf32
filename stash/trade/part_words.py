"""Which part of a garment a pattern piece is, by its name (common practice).

English first, then the usual words of French, German and Spanish patterns (from memory). The
first part that has a word of the name counts: `bib facing` is a facing, not a bib.
"""

from __future__ import annotations

import re
from enum import StrEnum
from functools import lru_cache


class Part(StrEnum):
    """A part of a garment, as far as it matters for cutting it another way."""

    FACING = "facing"
    POCKET_BAG = "pocket bag"
    BINDING = "binding"
    WAISTBAND = "waistband"
    STAND = "collar stand"
    COLLAR = "collar"
    YOKE = "yoke"
    CUFF = "cuff"
    BELT = "belt"
    STRAP = "strap"
    POCKET = "pocket"
    SLEEVE = "sleeve"
    LEG = "leg"
    SKIRT = "skirt"
    BODY = "body"


WORDS: dict[Part, tuple[str, ...]] = {
    Part.FACING: ("facing", "facings", "enforme", "parementure", "beleg", "besatz", "vista"),
    Part.POCKET_BAG: (
        *("pocket bag", "pocket bags", "pocket lining", "fond de poche", "sac de poche"),
        *("taschenbeutel", "fondo de bolsillo"),
    ),
    Part.BINDING: ("binding", "bias", "biais", "schrägband", "einfassung", "bies"),
    Part.WAISTBAND: ("waistband", "waist band", "ceinture", "bund", "pretina", "cinturilla"),
    Part.STAND: ("stand", "collar band", "pied de col", "kragensteg", "pie de cuello"),
    Part.COLLAR: ("collar", "col", "kragen", "cuello", "under collar", "undercollar"),
    Part.YOKE: ("yoke", "empiècement", "passe", "canesú"),
    Part.CUFF: ("cuff", "cuffs", "poignet", "manschette", "puño"),
    Part.BELT: ("belt", "sash", "tie", "loop", "loops", "gürtel", "lien", "cinturón"),
    Part.STRAP: ("strap", "straps", "handle", "bretelle", "träger", "henkel", "tirante"),
    Part.POCKET: ("pocket", "pockets", "flap", "poche", "tasche", "bolsillo"),
    Part.SLEEVE: ("sleeve", "sleeves", "manche", "ärmel", "manga"),
    Part.LEG: ("leg", "trouser", "trousers", "pant", "pants", "jambe", "hose", "pierna"),
    Part.SKIRT: ("skirt", "jupe", "rock", "falda"),
    Part.BODY: (
        *("front", "back", "side", "panel", "body", "bodice", "devant", "dos", "côté"),
        *("vorderteil", "rückenteil", "seitenteil", "delantero", "espalda", "costado"),
    ),
}

HIDDEN = frozenset({Part.FACING, Part.POCKET_BAG})
"""Wholly inside the garment."""
HALF_HIDDEN = frozenset({Part.COLLAR, Part.STAND, Part.YOKE})
"""Cut twice: the one inside, the under-collar or the yoke's lining, is hardly seen."""
MAY_GO_CROSSWISE = frozenset(
    {Part.FACING, Part.POCKET_BAG, Part.WAISTBAND, Part.CUFF, Part.STAND, Part.BELT, Part.STRAP}
)
MAY_BE_PIECED = frozenset(
    {Part.FACING, Part.POCKET_BAG, Part.WAISTBAND, Part.BELT, Part.BINDING, Part.STRAP}
)
"""A seam across it is hidden, or falls where a seam is usual: at the side or the back."""
LENGTHS = (Part.LEG, Part.SKIRT, Part.BODY)
"""What is shortened when a garment is: legs and skirts before the body, which then stays."""


@lru_cache(maxsize=1024)
def part_of(name: str) -> Part | None:
    """The part a piece of this name is; None where the name does not tell."""
    return next((part for part, words in WORDS.items() if _has(name, words)), None)


def is_front(name: str) -> bool:
    """It lies on the front of the body."""
    return _has(name, ("front", "devant", "vorderteil", "delantero"))


def is_back(name: str) -> bool:
    """It lies on the back of the body."""
    return _has(name, ("back", "dos", "rückenteil", "espalda"))


def _has(name: str, words: tuple[str, ...]) -> bool:
    text = name.casefold()
    return any(re.search(rf"(?<!\w){re.escape(word)}(?!\w)", text) for word in words)
