"""Cautions that go with a cloth for a garment. They point to local rules and clear nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.garment.measures import by_name
from stash.garment.pattern import Kind, Role
from stash.trade.cautions import (
    LOCAL_RULES,
    eu_cord_caution,
    fire_caution,
    nightwear_caution,
    small_parts_caution,
    us_cord_caution,
)
from stash.trade.nightwear import GREATEST_CM, too_loose

if TYPE_CHECKING:
    from stash.cloth.record import Cloth
    from stash.garment.make import Person
    from stash.garment.pattern import Notion, Pattern
    from stash.units.length import Length

CORD_WORDS = ("cord", "drawstring", "tie", "ties", "lace", "laces")
HEAD_WORDS = ("hood", "neck")
SMALL_WORDS = ("button", "snap", "popper", "pompom", "bead", "toggle", "hook", "sequin")
WORN_OUTSIDE_OR_NEXT_TO_SKIN = (Role.MAIN, Role.CONTRAST, Role.LINING, Role.RIB)
"""Interfacing lies between: 16 CFR 1610.1(c) does not count it."""

NO_LENGTH = "is a remnant with an outline"


def cautions(
    cloth: Cloth,
    pattern: Pattern,
    role: Role,
    *,
    size: str,
    view: str,
    person: Person | None = None,
    free: Length | None = None,
) -> tuple[str, ...]:
    """What to think of before cutting `cloth` for this role; empty says nothing about safety.

    Args:
        cloth: The cloth.
        pattern: What is made of it.
        role: Which cloth of the make this would be.
        size: Size of the make.
        view: View of the make.
        person: Who it is for; a child of known age sharpens the cautions.
        free: Length not promised elsewhere, as it lies on the shelf.
    """
    said = []
    if role in WORN_OUTSIDE_OR_NEXT_TO_SKIN and pattern.kind is not Kind.BAG:
        names = {share.fibre for share in cloth.fibres}
        said.append(fire_caution(names, raised=cloth.raised, sheer=cloth.sheer, gsm=cloth.weight))
    age = person.child_age if person is not None else None
    if pattern.child or age is not None:
        said += _for_a_child(pattern, view, size, age)
    said.append(part_promised(cloth, free))
    return tuple(dict.fromkeys(sentence for sentence in said if sentence))


def part_promised(cloth: Cloth, free: Length | None) -> str:
    """That what is free of a cloth may lie elsewhere than its length says; else empty."""
    if not (cloth.flaws or cloth.outline) or free is None or free >= cloth.left:
        return ""
    return (
        f"Part of this cloth is promised and it {'has a flaw' if cloth.flaws else NO_LENGTH}: "
        "lay both makes out on it together before you cut either."
    )


def _for_a_child(pattern: Pattern, view: str, size: str, age: int | None) -> list[str | None]:
    """An unknown age is taken as the youngest: a caution too many does no harm."""
    years = 0 if age is None else age
    said: list[str | None] = []
    if pattern.kind is Kind.PYJAMAS:
        said += [nightwear_caution(years), _loose_nightwear(pattern, size)]
    wanted = [n for n in pattern.notions if n.view in ("", view) and n.size in ("", size)]
    for notion in wanted:
        words = _words(notion)
        if words & set(CORD_WORDS):
            at_hood = any(word.startswith(HEAD_WORDS) for word in words)
            said.append(eu_cord_caution(at_hood=at_hood, age=years))
            said.append(us_cord_caution(years, at_hood=at_hood))
        if any(word.startswith(SMALL_WORDS) for word in words):
            said.append(small_parts_caution(years))
    return said


def _loose_nightwear(pattern: Pattern, size: str) -> str | None:
    finished = next((by_name(row.finished) for row in pattern.sizes if row.label == size), {})
    if size not in GREATEST_CM:
        return None
    places = too_loose(size, finished)
    if not places:
        return None
    return (
        f"At the {', '.join(places)} it is looser than US rules allow tight-fitting nightwear of "
        f"size {size} to be. {LOCAL_RULES}"
    )


def _words(notion: Notion) -> set[str]:
    text = f"{notion.name} {notion.note}".lower()
    return set("".join(c if c.isalnum() else " " for c in text).split())
