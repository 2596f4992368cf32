"""What each cloth is like for each role, judged once for a whole season."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from stash.pairing.case import case_for
from stash.pairing.gates import failed, unmeasured
from stash.pairing.suit import reasons_for, suit_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from stash.cloth.record import Cloth
    from stash.config import Settings, System
    from stash.garment.pattern import Pattern, Role
    from stash.pairing.case import Case
    from stash.pairing.judgement import Reason


@dataclass(frozen=True, slots=True)
class Nature:
    """One cloth judged for one role of a pattern; length plays no part."""

    cloth: Cloth
    pattern: Pattern
    reasons: tuple[Reason, ...]
    bars: tuple[Reason, ...]
    """The hard asks it fails."""
    open: tuple[Reason, ...]
    """The hard asks nobody can answer until something is measured."""
    suit: float


def nature_of(case: Case) -> Nature:
    """Judge it."""
    reasons = reasons_for(case)
    return Nature(
        cloth=case.cloth,
        pattern=case.pattern,
        reasons=reasons,
        bars=failed(reasons),
        open=unmeasured(reasons),
        suit=suit_of(reasons),
    )


@dataclass(frozen=True, slots=True)
class Natures:
    """Judges every cloth for every role at most once.

    Makes of one pattern ask the same, and a plan asks several times. Records are told apart by
    identity: hashing a pattern takes longer than judging it.
    """

    system: System
    weights: Mapping[str, float]
    _found: dict[tuple[int, int, Role], Nature] = field(default_factory=dict, repr=False)

    def of(self, cloth: Cloth, pattern: Pattern, role: Role) -> Nature:
        """How the cloth answers what the role asks."""
        key = (id(cloth), id(pattern), role)
        found = self._found.get(key)
        if found is None:  # kept with its records, so that no other ever has their identity
            found = nature_of(case_for(cloth, pattern, role, self.system, weights=self.weights))
            self._found[key] = found
        return found


def natures_for(settings: Settings) -> Natures:
    """Nothing judged yet, in the units and with the weights of the settings."""
    return Natures(settings.system, settings.weights)
