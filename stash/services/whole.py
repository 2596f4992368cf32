"""Everything a judgement looks at, read from the stash at once."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from stash.store import cloths, makes, patterns, people, promises
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
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
    _by_cloth: dict[int, list[Promise]] = field(init=False, repr=False, default_factory=dict)

    def __post_init__(self) -> None:
        for promise in self.promises:
            self._by_cloth.setdefault(promise.cloth_id, []).append(promise)

    def pattern_of(self, make: Make) -> Pattern:
        """The pattern a make is sewn from."""
        return self.patterns[make.pattern_id]

    def person_of(self, make: Make) -> Person | None:
        """Who a make is for."""
        return self.people.get(make.person_id or 0)

    def roles_of(self, make: Make) -> tuple[Role, ...]:
        """The roles a make is cut from."""
        return self.pattern_of(make).roles(make.view, make.size)

    def beside(self, make: Make) -> dict[Role, Cloth]:
        """The cloths promised to the roles of a make, by role."""
        return {
            held.role: self.cloths[held.cloth_id]
            for held in self.promises
            if held.make_id == make.id
        }

    def waiting(self) -> tuple[Make, ...]:
        """The makes the season plan may still choose cloth for."""
        return tuple(make for make in self.makes.values() if make.state.wants_cloth)

    def free_for(self, cloth: Cloth, make: Make, role: Role) -> Length:
        """What a role may use of a cloth: its own promise counts as free, others' do not."""
        free = cloth.left
        for held in self._by_cloth.get(cloth.id, ()):
            if not held.cut and (held.make_id, held.role) != (make.id, role):
                free -= held.length
        return max(free, ZERO)


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
