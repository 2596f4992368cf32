"""The health of the shelf: what no plan wants, what is a little short, what belongs together."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

from stash.cloth.washing import shelf_length
from stash.pairing.judgement import Verdict
from stash.pairing.outfits import cloths_match
from stash.pairing.worth import good_enough
from stash.services.flow import Month, months
from stash.services.pairing import judged
from stash.services.planning import plan_book
from stash.services.whole import read_whole
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from stash.cloth.record import Cloth
    from stash.garment.make import Make
    from stash.garment.pattern import Role
    from stash.pairing.judgement import Pairing
    from stash.services.progress import Cancelled, Progress
    from stash.services.stash import Stash
    from stash.services.whole import Whole

A_LITTLE = Length.from_mm(300)
"""Short by no more than this, a shorter hem or another lay may do."""
BELONG_FROM = 0.8
"""Colours that go together at least so well."""
MOST_PAIRS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class AlmostEnough:
    """A cloth that is a little short for the make it suits best."""

    cloth: Cloth
    make: Make
    role: Role
    suit: float
    short: Length
    """As the cloth lies on the shelf, rounded up."""
    laid: bool
    """It was laid out, so that other ways to lay it can be looked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Belong:
    """Two cloths whose colours go together, and how."""

    one: Cloth
    other: Cloth
    mark: float
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Health:
    """What the shelf is good for, and what came and went."""

    idle: tuple[Cloth, ...]
    """In no plan: not chosen now, not promised, never cut."""
    almost: tuple[AlmostEnough, ...]
    belong: tuple[Belong, ...]
    months: tuple[Month, ...]


def stash_health(
    stash: Stash,
    *,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> Health:
    """Look the whole shelf over against the queue of makes.

    Raises:
        StoppedError: `cancelled` said so; lays found until then are kept.
    """
    plan = plan_book(stash, progress=progress, cancelled=cancelled).plan
    whole = read_whole(stash)
    shelf = [cloth for cloth in whole.cloths.values() if cloth.left.nm > 0]
    chosen = {role.pairing.cloth_id for role in plan.roles if role.pairing}
    held = {promise.cloth_id for promise in whole.promises}
    idle = [cloth for cloth in shelf if cloth.id not in chosen | held]
    return Health(
        idle=tuple(sorted(idle, key=lambda c: (c.name, c.id))),
        almost=_almost(stash, whole, idle, progress, cancelled),
        belong=_belong(shelf),
        months=months(stash),
    )


def _almost(
    stash: Stash,
    whole: Whole,
    idle: Sequence[Cloth],
    progress: Progress | None,
    cancelled: Cancelled | None,
) -> tuple[AlmostEnough, ...]:
    """Of each cloth nobody uses, the best make it is short for by a little."""
    asked = [
        (make, role, cloth)
        for make in whole.waiting()
        for role in whole.roles_of(make)
        for cloth in idle
    ]
    best: dict[int, Pairing] = {}
    for pairing in judged(stash, whole, asked, progress=progress, cancelled=cancelled):
        make = whole.makes[pairing.make_id]
        if pairing.verdict is not Verdict.SHORT or pairing.suit < good_enough(make):
            continue
        if pairing.spare is None or -pairing.spare > A_LITTLE:
            continue
        best.setdefault(pairing.cloth_id, pairing)  # they come best first
    return tuple(
        AlmostEnough(
            cloth=whole.cloths[cloth_id],
            make=whole.makes[pairing.make_id],
            role=pairing.role,
            suit=pairing.suit,
            short=shelf_length(-(pairing.spare or A_LITTLE), whole.cloths[cloth_id]),
            laid=pairing.need.lay is not None,
        )
        for cloth_id, pairing in sorted(
            best.items(), key=lambda item: (-(item[1].spare or A_LITTLE).nm, item[0])
        )
    )


def _belong(shelf: Iterable[Cloth]) -> tuple[Belong, ...]:
    """The pairs that go together best, each cloth in one pair at most."""
    found = []
    for one, other in combinations(sorted(shelf, key=lambda c: c.id), 2):
        match = cloths_match(one, other)
        if match is not None and match.mark >= BELONG_FROM:
            found.append(Belong(one=one, other=other, mark=match.mark, words=match.words))
    taken: set[int] = set()
    kept = []
    for pair in sorted(found, key=lambda p: (-p.mark, p.one.id, p.other.id)):
        if pair.one.id not in taken and pair.other.id not in taken:
            taken |= {pair.one.id, pair.other.id}
            kept.append(pair)
    return tuple(kept[:MOST_PAIRS])
