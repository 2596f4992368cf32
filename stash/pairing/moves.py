"""What a plan changes against what stood before it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from stash.garment.make import Promise
    from stash.garment.pattern import Role
    from stash.pairing.judgement import SeasonPlan

    Place = tuple[int, Role]


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """A role that gets another cloth than before."""

    make_id: int
    role: Role
    before: int | None
    """Cloth id; None: it was to be bought."""
    after: int | None
    why: str


def accepted(promises: Iterable[Promise]) -> dict[Place, int | None]:
    """What an earlier plan promised and nobody pinned or cut: only this may move."""
    return {(p.make_id, p.role): p.cloth_id for p in promises if not (p.pinned or p.cut)}


def planned(plan: SeasonPlan) -> dict[Place, int | None]:
    """What a plan gives to every role."""
    return {
        (role.make_id, role.role): role.pairing.cloth_id if role.pairing else None
        for role in plan.roles
    }


def moves(before: Mapping[Place, int | None], plan: SeasonPlan) -> tuple[Move, ...]:
    """The roles of `plan` that stood in `before` and get another cloth now."""
    found = []
    for role in plan.roles:
        place = (role.make_id, role.role)
        after = role.pairing.cloth_id if role.pairing else None
        if place in before and before[place] != after:
            found.append(
                Move(
                    make_id=role.make_id,
                    role=role.role,
                    before=before[place],
                    after=after,
                    why=role.why,
                )
            )
    return tuple(found)
