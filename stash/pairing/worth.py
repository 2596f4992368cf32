"""What it is worth to cut a cloth for a role instead of buying one. All house choices."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.garment.pattern import Role
from stash.pairing.judgement import Sureness, Verdict
from stash.pairing.likeness import aged

if TYPE_CHECKING:
    from datetime import date

    from stash.cloth.record import Cloth
    from stash.garment.make import Make
    from stash.pairing.judgement import Pairing
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


@dataclass(frozen=True, slots=True)
class Worth:
    """The gain of one pairing over buying, and what was held against it, in words."""

    gain: float
    against: tuple[str, ...]


def good_enough(make: Make) -> float:
    """The suit below which buying is better."""
    return GOOD_ENOUGH_MUSLIN if make.muslin else GOOD_ENOUGH


def worth(
    make: Make,
    cloth: Cloth,
    pairing: Pairing,
    *,
    tested: bool,
    today: date,
    saved: Length,
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
    """
    marks = [(pairing.suit - good_enough(make), "")]
    if make.muslin:
        loved = LOVED_ON_A_MUSLIN * (cloth.loved - 1) / 4
        marks.append((-loved, "it is too well loved for a test" if cloth.loved >= 4 else ""))
    elif cloth.loved >= 4 and not tested and pairing.role is Role.MAIN:
        marks.append((-LOVED_UNTESTED, "it is well loved and the pattern is not tested yet"))
    if pairing.role in INSIDE:
        hidden = LOVED_INSIDE * (cloth.loved - 1) / 4
        marks.append((-hidden, "it is too well loved to go inside" if cloth.loved >= 4 else ""))
    if pairing.verdict is Verdict.CLOSE:
        marks.append((-CLOSE_FIT, "it is only just long enough"))
    if pairing.need.sureness is not Sureness.LAID_OUT:
        marks.append((-NOT_LAID_OUT, ""))
    unknown = sum(1 for reason in pairing.reasons if reason.mark is None)
    if unknown:
        marks.append((-NOT_MEASURED * unknown, "not everything about it is measured"))
    marks.append((SHORT_PIECE_FIRST * used_share(pairing), ""))
    marks.append((OLD_FIRST * (aged(cloth, today) or 0.0), ""))
    share = 1.0 if pairing.role is Role.MAIN else SMALL_ROLE
    gain = make.priority * share * sum(mark for mark, _ in marks)
    return Worth(gain + SAVED_PER_METRE * saved.mm / 1000, tuple(why for _, why in marks if why))


def used_share(pairing: Pairing) -> float:
    """Share of the free length that would be cut: long pieces are kept for long needs."""
    if pairing.need.length is None or pairing.have.nm <= 0:
        return 0.0
    return pairing.need.length.nm / pairing.have.nm
