"""Bulk where a garment is gathered or drawn in by elastic.

No published limit was found; this is a house rule. It speaks up when cloth is gathered 1.5
times or more and is heavier than 250 g/m² or stiffer than 300 mg·cm (flexural rigidity
G = 0.1 W c³, W in g/m², c in cm: BS 3356, from memory). Common practice behind it: the
stiffer the cloth over an elastic waist, the less ease it should have.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.cloth.hand import hand_of
from stash.cloth.record import Hand
from stash.garment.pattern import Kind, Role
from stash.pairing.desire import at_most
from stash.pairing.gates import FLOOR
from stash.pairing.judgement import Reason
from stash.trade.hand import rigidity_mg_cm

if TYPE_CHECKING:
    from stash.cloth.record import Cloth
    from stash.pairing.case import Case

GATHERED_FROM = 1.2
"""Fullness below this is ease, not gathers."""

ELASTIC_FULLNESS = 1.4
"""A waist that pulls on over the hip holds about this much cloth (hip over waist, about 100
over 72 cm, EN 13402-3 from memory)."""

ELASTIC_WAISTS = frozenset({Kind.TROUSERS_ELASTIC, Kind.PYJAMAS})

CROWD_FINE, CROWD_TOO_MUCH = 375.0, 900.0
"""Fullness times g/m²: 1.5 x 250, and about twice and a half of that."""

RIGID_FINE, RIGID_TOO_MUCH = 300.0, 1500.0
"""mg·cm; the upper end is heavy canvas (340 g/m², bending length 3.5 cm)."""

HAND_MARK = {Hand.FIRM: 0.6, Hand.CRISP: 0.4}
"""When nothing was measured, the hand speaks for the rigidity."""


def bulk(case: Case) -> Reason | None:
    """How well the cloth gathers; None when nothing is gathered or drawn in."""
    if case.role is not Role.MAIN:
        return None
    elastic = case.pattern.kind in ELASTIC_WAISTS
    fullness = max(case.pattern.fullness, ELASTIC_FULLNESS if elastic else 1.0)
    if fullness < GATHERED_FROM:
        return None
    where = "elastic waist" if elastic else "gathers"
    marks = (_crowd(case.cloth, fullness), _stiffness(case.cloth))
    known = [mark for mark in marks if mark is not None]
    if not known:
        return Reason(
            "bulk",
            None,
            f"Neither weight nor hand is known, so how it sits in the {where} cannot be said. "
            "Gather a corner in your hand and look.",
        )
    mark = max(FLOOR, min(known))
    if mark >= 0.95:
        return Reason("bulk", mark, f"It will sit well in the {where}.")
    return Reason(
        "bulk",
        mark,
        f"It is bulky for the {where}: give it as little ease as you can (a house rule).",
    )


def rigidity(cloth: Cloth) -> float | None:
    """Flexural rigidity in mg·cm; None when weight or bending length is not measured."""
    if cloth.weight is None or cloth.bending_length is None:
        return None
    return rigidity_mg_cm(cloth.weight, cloth.bending_length)


def _crowd(cloth: Cloth, fullness: float) -> float | None:
    if cloth.weight is None:
        return None
    return max(FLOOR, at_most(fullness * cloth.weight, CROWD_FINE, CROWD_TOO_MUCH))


def _stiffness(cloth: Cloth) -> float | None:
    stiff = rigidity(cloth)
    if stiff is not None:
        return max(FLOOR, at_most(stiff, RIGID_FINE, RIGID_TOO_MUCH))
    hand, _ = hand_of(cloth)
    return None if hand is None else HAND_MARK.get(hand, 1.0)
