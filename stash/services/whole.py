"""Everything a judgement looks at, read from the stash at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.store import cloths, makes, patterns, people, promises
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sqlalchemy.orm import Session

    from stash.cloth.record import Cloth
    from stash.garment.make import Make, Person, Promise
    from stash.garment.pattern import Pattern, Role
    from stash.services.stash import Stash


@dataclass(frozen=True, slots=True, kw_only=True)
class Whole:
    """All records by id, as they stood at one moment."""

    makes: dict[int, Make]
    patterns: dict[int, Pattern]
    cloths: dict[int, Cloth]
    people: dict[int, Person]
    promises: tuple[Promise, ...]

    def pattern_of(self, make: Make) -> Pattern:
        """The pattern a make is sewn from."""
        return self.patterns[make.pattern_id]

    def person_of(self, make: Make) -> Person | None:
        """Who a make is for."""
        return self.people.get(make.person_id or 0)

    def roles_of(self, make: Make) -> tuple[Role, ...]:
        """The roles a make is cut from."""
        return self.pattern_of(make).roles(make.view, make.size)

    def waiting(self) -> tuple[Make, ...]:
        """The makes the season plan may still choose cloth for."""
        return tuple(make for make in self.makes.values() if make.state.wants_cloth)

    def free_for(self, cloth: Cloth, make: Make, role: Role) -> Length:
        """What a role may use of a cloth: its own promise counts as free, others' do not."""
        others = (p for p in self.promises if (p.make_id, p.role) != (make.id, role))
        return max(cloth.left - promised(others).get(cloth.id, ZERO), ZERO)


def promised(promises: Iterable[Promise]) -> dict[int, Length]:
    """The length each cloth still has to give, by its id; what was cut is gone already."""
    held: dict[int, Length] = {}
    for promise in promises:
        if not promise.cut:
            held[promise.cloth_id] = held.get(promise.cloth_id, ZERO) + promise.length
    return held


def read_whole(stash: Stash) -> Whole:
    """Everything, in one session."""
    with stash.read() as session:
        return whole_of(session)


def whole_of(session: Session) -> Whole:
    """Everything this session sees."""
    return Whole(
        makes={make.id: make for make in makes.all_makes(session)},
        patterns={pattern.id: pattern for pattern in patterns.all_patterns(session)},
        cloths={cloth.id: cloth for cloth in cloths.all_cloths(session)},
        people={person.id: person for person in people.all_people(session)},
        promises=promises.all_promises(session),
    )
