"""What one cloth could become: every pattern, in the sizes of the people sewn for."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.garment.make import Make
from stash.garment.pattern import Role
from stash.garment.sizing import middle_size, size_labels, size_of
from stash.report.records import Becoming, Could
from stash.services.pairing import judged
from stash.services.whole import Whole, read_whole
from stash.store import cloths

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from stash.garment.make import Person
    from stash.garment.pattern import Pattern
    from stash.pairing.judgement import Pairing
    from stash.services.progress import Cancelled, Progress
    from stash.services.stash import Stash


def could_become(
    stash: Stash,
    cloth_ref: str,
    *,
    every_size: bool = False,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> Becoming:
    """Set one cloth against every pattern, view and role.

    Sizes are those of the people whose measures the size table covers; where it covers nobody,
    the middle size. A pattern without pieces is judged by its chart, and without either by the
    cloth's nature only.

    Args:
        stash: The stash.
        cloth_ref: Name or number of the cloth.
        every_size: Every size of every pattern, whoever it may fit.
        progress: Told how many lays are worked out.
        cancelled: Asked between lays.

    Raises:
        NotFoundError: There is no such cloth.
        BadInputError: Nothing is left of it.
        StoppedError: `cancelled` said so; what was found until then is kept.
    """
    with stash.read() as session:
        cloth = cloths.find_cloth(session, cloth_ref)
    if cloth.left.nm <= 0:
        raise BadInputError(
            f"Nothing is left of {cloth.name}.",
            "If there is some, type its length with cloth edit.",
        )
    whole = read_whole(stash)
    imagined = {make.id: make for make in _imagined(whole, every_size)}
    supposed = replace(whole, makes=whole.makes | imagined)
    asked = [
        (make, role, cloth)
        for make in imagined.values()
        for role in supposed.roles_of(make) or (Role.MAIN,)
    ]
    found = judged(stash, supposed, asked, progress=progress, cancelled=cancelled)
    return Becoming(cloth=cloth, could=tuple(_could(whole, imagined, pairing) for pairing in found))


def _could(whole: Whole, imagined: dict[int, Make], pairing: Pairing) -> Could:
    make = imagined[pairing.make_id]
    person = whole.person_of(make)
    return Could(
        pairing=pairing,
        pattern=whole.pattern_of(make),
        view=make.view,
        size=make.size,
        person=person.name if person else "",
        waiting=tuple(one.name for one in whole.waiting() if one.pattern_id == make.pattern_id),
    )


def _imagined(whole: Whole, every_size: bool) -> Iterator[Make]:
    """A make of each pattern, view and size; their ids are below nothing."""
    number = min((0, *whole.makes))
    for pattern in sorted(whole.patterns.values(), key=lambda p: p.id):
        for view in pattern.views or ("",):
            for size, person in _sizes(pattern, whole.people.values(), every_size):
                number -= 1
                yield Make(
                    id=number,
                    name=pattern.name,
                    pattern_id=pattern.id,
                    view=view,
                    size=size,
                    person_id=person.id if person else None,
                )


def _sizes(
    pattern: Pattern, people: Iterable[Person], every_size: bool
) -> list[tuple[str, Person | None]]:
    found: list[tuple[str, Person | None]] = []
    for person in people:
        size = size_of(pattern, person)
        if size is not None:
            found.append((size, person))
    if every_size:
        mine = {size for size, _ in found}
        found += [(size, None) for size in size_labels(pattern) if size not in mine]
    return found or [(middle_size(pattern), None)]
