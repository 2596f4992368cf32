"""Suit: how well a cloth's nature answers what a role of a pattern asks, with reasons."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.pairing.bulk import bulk
from stash.pairing.desire import together
from stash.pairing.factors import factors
from stash.pairing.gates import failed, gates

if TYPE_CHECKING:
    from stash.pairing.case import Case
    from stash.pairing.judgement import Reason

WEIGHTS: dict[str, float] = {
    "purpose": 3.0,
    "stretch across": 2.0,
    "stretch along": 1.0,
    "recovery": 1.0,
    "weight": 2.0,
    "hand": 2.0,
    "bulk": 1.5,
    "fibre": 1.0,
    "surface": 1.0,
    "width": 0.5,
}
"""How much each factor counts. A house choice: what a garment hangs and fits by counts
double. Factors not named here are passed or failed and do not weigh."""


def reasons_for(case: Case) -> tuple[Reason, ...]:
    """Every factor of the cloth's nature, hard asks first; length plays no part."""
    of_gathers = bulk(case)
    return (*gates(case), *factors(case), *((of_gathers,) if of_gathers else ()))


def suit_of(reasons: tuple[Reason, ...]) -> float:
    """0-1: the weighted geometric mean of the marks that are known; 0 when a gate fails."""
    if failed(reasons):
        return 0.0
    return together(
        (reason.mark, WEIGHTS[reason.factor])
        for reason in reasons
        if reason.mark is not None and reason.factor in WEIGHTS
    )
