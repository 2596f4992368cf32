"""Whether a thing would be worn: it goes with what she has, and is not one more of the same."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.garment.pattern import Role
from stash.pairing.outfits import cloths_match, worn_together
from stash.trade.colour import lab_of, shade_difference

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from stash.cloth.record import Cloth
    from stash.garment.make import Make, Promise
    from stash.garment.pattern import Kind, Pattern

SAME_SHADE = 10.0
"""CIEDE2000: closer than this, two garments pass for the same colour across a room (a house
choice; 1 is just noticed side by side, Sharma et al. 2005)."""
BARE, HAS_OTHERS, HAS_ANOTHER = 1.0, 0.7, 0.3
"""Nothing of its kind, others of its kind, and one of this very shade. House choices."""
GOES = 0.6


@dataclass(frozen=True, slots=True)
class Garment:
    """A thing she has, or has the cloth cut for: its kind, its name, its main cloth."""

    kind: Kind
    name: str
    cloth: Cloth


@dataclass(frozen=True, slots=True)
class Worn:
    """How likely it is worn, 0-1, and why."""

    mark: float
    why: tuple[str, ...]


def wardrobe(
    person_id: int | None,
    makes: Iterable[Make],
    patterns: Mapping[int, Pattern],
    cloths: Mapping[int, Cloth],
    promises: Sequence[Promise],
) -> tuple[Garment, ...]:
    """What this person has: makes whose main cloth is cut, but not what was let go."""
    cut = {p.make_id: p.cloth_id for p in promises if p.cut and p.role is Role.MAIN}
    return tuple(
        Garment(patterns[make.pattern_id].kind, make.name, cloths[cut[make.id]])
        for make in sorted(makes, key=lambda m: m.id)
        if make.id in cut and make.person_id == person_id and make.state != "let go"
    )


def worn(cloth: Cloth, kind: Kind, has: Sequence[Garment]) -> Worn:
    """What a garment of this kind from this cloth would add to what she has.

    The mean of how bare its place is and how well its colour goes with what it is worn with;
    what is not known is left out.
    """
    mark, said = _bare(cloth, kind, has)
    marks = [mark]
    matches = [
        (match.mark, garment.name, match.words)
        for garment in has
        if worn_together(kind, garment.kind) and (match := cloths_match(cloth, garment.cloth))
    ]
    if matches:
        best, name, words = max(matches)
        marks.append(best)
        if best >= GOES:
            said += (f"Its colour goes with {name} ({words}).",)
        else:
            said += ("Its colour goes with nothing it would be worn with.",)
    return Worn(sum(marks) / len(marks), said)


def _bare(cloth: Cloth, kind: Kind, has: Sequence[Garment]) -> tuple[float, tuple[str, ...]]:
    same = [garment for garment in has if garment.kind is kind]
    if not same:
        return BARE, (f"It fills a bare spot: no {kind} yet.",)
    for garment in same:
        known = cloth.colour_name and garment.cloth.colour_name
        if (
            known
            and shade_difference(lab_of(cloth.colour), lab_of(garment.cloth.colour)) < SAME_SHADE
        ):
            return HAS_ANOTHER, (f"It would be much like {garment.name}.",)
    return HAS_OTHERS, ()
