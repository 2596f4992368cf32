"""Bulk where a garment is gathered, drawn in by elastic or folded over.

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

FOLDED_COLLAR = 2.0
"""A collar turned down lies in four layers, as a band over a seam gathered two to one does."""

ELASTIC_WAISTS = frozenset({Kind.TROUSERS_ELASTIC, Kind.PYJAMAS})

FOLDED_COLLARS = frozenset({Kind.TURTLENECK})

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
    fullness, where = _fullest(case)
    if fullness < GATHERED_FROM:
        return None
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
        f"It is bulky for the {where}: {_less(where)}.",
    )


def _fullest(case: Case) -> tuple[float, str]:
    """How much cloth lies in one place at most, and where that is."""
    kind = case.pattern.kind
    places = [(case.pattern.fullness, "gathers")]
    if kind in ELASTIC_WAISTS:
        places.append((ELASTIC_FULLNESS, "elastic waist"))
    if kind in FOLDED_COLLARS:
        places.append((FOLDED_COLLAR, "folded collar"))
    return max(places, key=lambda place: place[0])


def _less(where: str) -> str:
    if where == "folded collar":
        return "make the collar lower, or of something thinner"
    return "give it as little ease as you can (a house rule)"


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
