"""One cloth set against one role: what every rule of judging looks at."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.config import SUIT_WEIGHTS
from stash.garment.defaults import default_asks

if TYPE_CHECKING:
    from collections.abc import Mapping

    from stash.cloth.record import Cloth
    from stash.config import System
    from stash.garment.pattern import Asks, Pattern, Role


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """The cloth, what is asked of it, what it is sewn to, and the units to speak in."""

    cloth: Cloth
    pattern: Pattern
    role: Role
    asks: Asks
    system: System
    weights: Mapping[str, float]
    """How much each factor counts."""
    beside: Mapping[Role, Cloth]
    """The cloths of the make's other roles, as far as they are settled."""


def asks_of(pattern: Pattern, role: Role) -> Asks:
    """What the pattern asks for this role; what its kind usually asks where it says nothing."""
    for asks in pattern.asks:
        if asks.role is role:
            return asks
    return default_asks(pattern.kind, role)


def case_for(
    cloth: Cloth,
    pattern: Pattern,
    role: Role,
    system: System,
    *,
    weights: Mapping[str, float] = SUIT_WEIGHTS,
    beside: Mapping[Role, Cloth] | None = None,
) -> Case:
    """Set `cloth` against a role of `pattern`."""
    return Case(
        cloth=cloth,
        pattern=pattern,
        role=role,
        asks=asks_of(pattern, role),
        system=system,
        weights=weights,
        beside={other: one for other, one in (beside or {}).items() if other is not role},
    )
