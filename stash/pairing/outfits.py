"""Makes that are worn together, and how well their cloths go together."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from stash.garment.pattern import Kind, Role
from stash.trade.colour import lab_of
from stash.trade.colour_match import ColourMatch, colour_match

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from stash.cloth.record import Cloth
    from stash.garment.make import Make, Promise
    from stash.garment.pattern import Pattern

TOGETHER = 0.08
"""Share of the priority for cloths that go together perfectly. A house choice, as are those
below: colour decides between cloths that suit nearly alike, never against a better suit."""
GOES_FROM = 0.6
"""Marks below this add nothing."""
TWO_PRINTS = 0.5
"""Two prints side by side keep this share of the mark."""
PARTNERS = 2
"""Makes in the queue each make is thought of with: the nearest in the order of ids."""
BEST = 6
"""Cloths of either make looked at for this."""
MOST_OUTFITS = 400
"""Pairs of cloths weighed in one plan. With three times as many a plan of 40 makes was worth a
third of a per cent more, and took fifteen times as long to prove."""

TOPS = frozenset({Kind.TSHIRT, Kind.SWEATSHIRT, Kind.TURTLENECK, Kind.SHIRT, Kind.BLOUSE})
BOTTOMS = frozenset(
    {
        Kind.TROUSERS_ELASTIC,
        Kind.TROUSERS_TAILORED,
        Kind.SHORTS,
        Kind.LEGGINGS,
        Kind.SKIRT_STRAIGHT,
        Kind.SKIRT_FLARED,
        Kind.PINAFORE,
    }
)
OVERS = frozenset({Kind.JACKET, Kind.COAT})
UNDER_OVERS = BOTTOMS | {Kind.DRESS}


@dataclass(frozen=True, slots=True)
class Companion:
    """A make whose main cloth is settled."""

    make: Make
    cloth: Cloth


def worn_together(one: Kind, other: Kind) -> bool:
    """A top with what is worn below it; a jacket or coat with what it is worn over."""
    both = ((one, other), (other, one))
    return any((a in TOPS and b in BOTTOMS) or (a in OVERS and b in UNDER_OVERS) for a, b in both)


def cloths_match(one: Cloth, other: Cloth) -> ColourMatch | None:
    """How two cloths go together; None where a colour is not known or it is one cloth."""
    if one.id == other.id or not one.colour_name or not other.colour_name:
        return None
    match = _match(*sorted((one.colour, other.colour)))
    if is_print(one) and is_print(other):
        return ColourMatch(match.mark * TWO_PRINTS, f"{match.words}, but both are prints")
    return match


def is_print(cloth: Cloth) -> bool:
    """It has a pattern one sees across a room."""
    return cloth.print.strip().lower() not in ("", "plain")


def companions(
    make: Make,
    makes: Iterable[Make],
    patterns: Mapping[int, Pattern],
    cloths: Mapping[int, Cloth],
    promises: Sequence[Promise],
) -> tuple[Companion, ...]:
    """Makes of the same person, worn with this one, whose main cloth stays as it is."""
    settled = {
        p.make_id: p.cloth_id for p in promises if p.role is Role.MAIN and (p.pinned or p.cut)
    }
    return tuple(
        Companion(other, cloths[settled[other.id]])
        for other in sorted(makes, key=lambda m: m.id)
        if other.id in settled and pair_up(make, other, patterns)
    )


def pair_up(one: Make, other: Make, patterns: Mapping[int, Pattern]) -> bool:
    """Two different makes for the same person that are worn together, neither a muslin."""
    return (
        one.id != other.id
        and one.person_id == other.person_id
        and not (one.muslin or other.muslin)
        and worn_together(patterns[one.pattern_id].kind, patterns[other.pattern_id].kind)
    )


def best_companion(
    cloth: Cloth, found: Iterable[Companion]
) -> tuple[Companion, ColourMatch] | None:
    """The settled make this cloth goes with best; None if it goes with none."""
    matches = [(one, cloths_match(cloth, one.cloth)) for one in found]
    good = [(one, match) for one, match in matches if match and match.mark >= GOES_FROM]
    return min(good, key=lambda pair: (-pair[1].mark, pair[0].make.id), default=None)


@cache
def _match(one: str, other: str) -> ColourMatch:
    return colour_match(lab_of(one), lab_of(other))
