"""How the garment lives: the season it is worn in, and how it is washed, all cloths together.

A garment is washed as one thing: 16 CFR 423.6 wants one care instruction that harms no part of
it, and ISO 3758 has its symbols speak for the whole article (both from memory).
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from stash.garment.pattern import Kind, Role
from stash.pairing.judgement import Reason
from stash.trade.care import WASHING_WORDS, Washing, washing_from_fibres, washing_from_words
from stash.trade.fibres import fibre_family
from stash.trade.labels import label_allows

if TYPE_CHECKING:
    from stash.cloth.record import Cloth, FibreShare
    from stash.pairing.case import Case

COLD_DAYS = frozenset({Kind.COAT, Kind.SWEATSHIRT, Kind.TURTLENECK})
WARM_DAYS = frozenset({Kind.SHORTS})
WASHED_OFTEN = frozenset(
    {
        Kind.TSHIRT,
        Kind.SWEATSHIRT,
        Kind.TURTLENECK,
        Kind.SHIRT,
        Kind.SHORTS,
        Kind.PYJAMAS,
    }
)
"""Worn next to the skin or at rough work: washed after a day or two (common practice)."""

OUT_OF_SEASON = 0.5
MOSTLY = 50.0
"""Per cent of a fibre from which it decides how warm the cloth is."""

APART_MARKS = {0: 1.0, 1: 0.6, 2: 0.3}
"""By how many steps of washing the cloths of one garment differ."""
OFTEN_MARKS = {Washing.MACHINE: 1.0, Washing.HAND: 0.75, Washing.NOT: 0.3}


def season(case: Case) -> Reason | None:
    """Warm cloth for cold days and cool cloth for warm ones; most garments know no season."""
    kind, cloth = case.pattern.kind, case.cloth
    if case.role is not Role.MAIN or kind not in COLD_DAYS | WARM_DAYS:
        return None
    if not cloth.fibres and not cloth.raised and not cloth.sheer:
        return Reason(
            "season",
            None,
            "Its fibre is not known, so how warm it is cannot be said. Hold it to your cheek.",
        )
    cool, warm = is_cool(cloth), is_warm(cloth)
    if kind in COLD_DAYS and cool and not warm:
        return Reason(
            "season", OUT_OF_SEASON, f"It is a cool cloth, and a {kind} is for cold days."
        )
    if kind in WARM_DAYS and warm:
        return Reason("season", OUT_OF_SEASON, f"It is a warm cloth, and {kind} are for warm days.")
    return Reason("season", 1.0, "It is right for the days it will be worn on.")


def is_cool(cloth: Cloth) -> bool:
    """Lets warmth out: linen carries it away, sheer cloth holds no air."""
    return cloth.sheer or _mostly(cloth, "linen")


def is_warm(cloth: Cloth) -> bool:
    """Holds still air: wool, and every raised surface."""
    return cloth.raised or _mostly(cloth, "wool")


def care(case: Case) -> Reason | None:
    """Whether the garment can be washed as it will have to be, whatever it is made of."""
    mine = washing_of(case.cloth)
    others = {role: (one, washing_of(one)) for role, one in case.beside.items()}
    known = {role: (one, washing) for role, (one, washing) in others.items() if washing is not None}
    often = case.pattern.kind in WASHED_OFTEN or case.pattern.child
    if not others and not often:
        return None
    if mine is None:
        return Reason(
            "care",
            None,
            "How it may be washed is not known. Cut 10 x 10 cm (4 x 4 in), wash it as the garment "
            "will be, and measure it again.",
        )
    if known:
        role, (other, washing) = max(known.items(), key=lambda each: abs(each[1][1] - mine))
        if washing != mine:
            return _apart(case.cloth, mine, role, other, washing)
    if often and mine < Washing.MACHINE:
        words = WASHING_WORDS[mine]
        return Reason(
            "care", OFTEN_MARKS[mine], f"It is {words}, and this is a garment for many washes."
        )
    if len(known) < len(others):
        return Reason(
            "care",
            None,
            f"How {next(o.name for o, w in others.values() if w is None)} may be washed is not "
            "known, and one garment is washed as one. Write its care down, or wash a corner.",
        )
    return Reason("care", 1.0, f"It can be {WASHING_WORDS[mine]}, as the garment will be.")


def _apart(cloth: Cloth, mine: Washing, role: Role, other: Cloth, washing: Washing) -> Reason:
    tender, how = (cloth.name, mine) if mine < washing else (other.name, washing)
    return Reason(
        "care",
        APART_MARKS[abs(mine - washing)],
        f"{cloth.name} is {WASHING_WORDS[mine]} and the {role}, {other.name}, is "
        f"{WASHING_WORDS[washing]}: for the sake of {tender} the whole garment is "
        f"{WASHING_WORDS[how]}.",
    )


def washing_of(cloth: Cloth) -> Washing | None:
    """The roughest washing the cloth bears; None when nobody knows."""
    return _washing(cloth.care, cloth.fibres)


@lru_cache(maxsize=1024)  # every role asks it of every cloth
def _washing(care: str, fibres: tuple[FibreShare, ...]) -> Washing | None:
    said = washing_from_words(care)
    if said is not None:
        return said
    return washing_from_fibres((share.fibre, share.percent) for share in fibres)


def _mostly(cloth: Cloth, family: str) -> bool:
    """As far as its label can be trusted."""
    share = sum(s.percent for s in cloth.fibres if fibre_family(s.fibre) == family)
    return share >= MOSTLY or label_allows(share, MOSTLY)
