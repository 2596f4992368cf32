"""Suit: how well a cloth's nature answers what a role of a pattern asks, with reasons."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.pairing.bulk import bulk
from stash.pairing.desire import together
from stash.pairing.factors import factors
from stash.pairing.gates import failed, gates
from stash.pairing.judgement import Reason
from stash.pairing.prints import print_scale
from stash.pairing.stability import stability
from stash.pairing.wear import care, season

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from stash.pairing.case import Case


def reasons_for(case: Case) -> tuple[Reason, ...]:
    """Every factor of the cloth's nature, hard asks first; length plays no part."""
    soft = (*factors(case), *(rule(case) for rule in (stability, bulk, print_scale, season, care)))
    found = (*gates(case), *(reason for reason in soft if reason is not None))
    return weighed(found, case.weights)


def weighed(reasons: Iterable[Reason], weights: Mapping[str, float]) -> tuple[Reason, ...]:
    """The same reasons with what each counts; 0 for those that are only passed or failed."""
    return tuple(
        Reason(r.factor, r.mark, r.sentence, r.gate, weights.get(r.factor, 0.0)) for r in reasons
    )


def suit_of(reasons: tuple[Reason, ...]) -> float:
    """0-1: the weighted geometric mean of the marks that are known; 0 when a gate fails."""
    if failed(reasons):
        return 0.0
    return together((reason.mark, reason.weight) for reason in reasons if reason.mark is not None)


def known_of(reasons: tuple[Reason, ...]) -> float:
    """0-1: the share of what counts that is known. It says how sure the suit is."""
    total = sum(reason.weight for reason in reasons)
    known = sum(reason.weight for reason in reasons if reason.mark is not None)
    return known / total if total else 1.0
