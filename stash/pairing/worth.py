"""What it is worth to cut a cloth for a role instead of buying one. All house choices."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING

from stash.garment.pattern import Role
from stash.pairing.judgement import Sureness, Verdict
from stash.pairing.likeness import aged

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from datetime import date

    from stash.cloth.record import Cloth
    from stash.garment.make import Make
    from stash.garment.pattern import Pattern
    from stash.pairing.judgement import Judged
    from stash.units.length import Length

GOOD_ENOUGH = 0.4
"""A cloth that suits less than this is worse than buying one."""

GOOD_ENOUGH_MUSLIN = 0.25
"""A test may be cut from cloth that is not quite right."""

SMALL_ROLE = 0.4
"""Share that linings, interfacings, contrasts and ribs count beside the main cloth."""

SAVED_PER_METRE = 0.15
"""Money not spent on a metre, beside a priority of 1 to 5."""

ALL_FROM_SHELF = 0.25
"""Share of the priority for a make that can start today because nothing has to be bought."""

LOVED_ON_A_MUSLIN = 0.4
LOVED_UNTESTED = 0.15
LOVED_INSIDE = 0.2
INSIDE = (Role.LINING, Role.INTERFACING)
CLOSE_FIT = 0.05
NOT_LAID_OUT = 0.05
NOT_MEASURED = 0.02
SHORT_PIECE_FIRST = 0.04
OLD_FIRST = 0.02

DUE_SOON_DAYS = 60
DUE_SOON = 0.5
"""Share the priority rises by, from nothing `DUE_SOON_DAYS` ahead to all of it on the day."""


class Part(StrEnum):
    """What a worth is made of."""

    SUIT = "suit"
    LOVED = "loved"
    UNTESTED = "untested"
    CLOSE = "close"
    SURENESS = "sureness"
    UNMEASURED = "unmeasured"
    USED = "used"
    AGE = "age"
    OUTFIT = "outfit"


@dataclass(frozen=True, slots=True)
class Worth:
    """The gain of one pairing over buying, and what was held against it, in words."""

    gain: float
    against: tuple[str, ...]
    parts: Mapping[Part, float] = field(default_factory=dict)
    """What each thing added to the gain, or took from it."""


def is_tested(make: Make, pattern: Pattern, makes: Iterable[Make]) -> bool:
    """The pattern has been sewn, or a muslin of this make is in the queue or done."""
    return pattern.tested or any(other.muslin_for == make.id for other in makes)


def good_enough(make: Make) -> float:
    """The suit below which buying is better."""
    return GOOD_ENOUGH_MUSLIN if make.muslin else GOOD_ENOUGH


def wanted(make: Make, today: date) -> float:
    """The priority of a make, higher the nearer its day is; an overdue one counts as today's."""
    if make.due is None:
        return float(make.priority)
    near = min(1.0, max(0.0, 1 - (make.due - today).days / DUE_SOON_DAYS))
    return make.priority * (1 + DUE_SOON * near)


def worth(
    make: Make,
    cloth: Cloth,
    pairing: Judged,
    *,
    tested: bool,
    today: date,
    saved: Length,
    goes_with: float = 0.0,
) -> Worth:
    """Weigh a pairing that can be cut.

    Args:
        make: The make.
        cloth: The cloth.
        pairing: The one set against the other.
        tested: The pattern has been sewn, or a muslin of this make is in the queue or done.
        today: For the age of the cloth.
        saved: What need not be bought. The same for every cloth of a role, or the cloth that
            wastes most would seem to save most.
        goes_with: Share of the priority for going well with a make that is settled.
    """
    marks: list[tuple[Part, float, str]] = [(Part.SUIT, pairing.suit - good_enough(make), "")]
    marks += fondness(make, cloth, pairing.role, tested=tested)
    if pairing.verdict is Verdict.CLOSE:
        marks.append((Part.CLOSE, -CLOSE_FIT, "it is only just long enough"))
    if pairing.need.sureness is not Sureness.LAID_OUT:
        marks.append((Part.SURENESS, -NOT_LAID_OUT, ""))
    unknown = sum(1 for reason in pairing.reasons if reason.mark is None)
    if unknown:
        why = "not everything about it is measured"
        marks.append((Part.UNMEASURED, -NOT_MEASURED * unknown, why))
    marks.append((Part.USED, SHORT_PIECE_FIRST * used_share(pairing), ""))
    marks.append((Part.AGE, OLD_FIRST * (aged(cloth, today) or 0.0), ""))
    marks.append((Part.OUTFIT, goes_with, ""))
    weight = wanted(make, today)
    share = 1.0 if pairing.role is Role.MAIN else SMALL_ROLE
    parts: dict[Part, float] = {}
    for part, mark, _ in marks:
        parts[part] = parts.get(part, 0.0) + weight * share * mark
    gain = sum(parts.values()) + SAVED_PER_METRE * saved.mm / 1000
    return Worth(gain, tuple(why for _, _, why in marks if why), parts)


def fondness(
    make: Make, cloth: Cloth, role: Role, *, tested: bool
) -> list[tuple[Part, float, str]]:
    """What being loved takes from a cloth here, and in what words."""
    marks = []
    fond = (cloth.loved - 1) / 4
    if make.muslin:
        why = "it is too well loved for a test" if cloth.loved >= 4 else ""
        marks.append((Part.LOVED, -LOVED_ON_A_MUSLIN * fond, why))
    elif cloth.loved >= 4 and not tested and role is Role.MAIN:
        why = "it is well loved and the pattern is not tested yet"
        marks.append((Part.UNTESTED, -LOVED_UNTESTED, why))
    if role in INSIDE:
        why = "it is too well loved to go inside" if cloth.loved >= 4 else ""
        marks.append((Part.LOVED, -LOVED_INSIDE * fond, why))
    return marks


def used_share(pairing: Judged) -> float:
    """Share of the free length that would be cut: long pieces are kept for long needs."""
    if pairing.need.length is None or pairing.have.nm <= 0:
        return 0.0
    return pairing.need.length.nm / pairing.have.nm
