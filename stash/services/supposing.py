"""What-if: the stash as it would be if a make were dropped or a cloth bought or gone.

Nothing is kept: a supposition changes the records in memory only.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.cloth.record import Cloth, FibreShare, Structure
from stash.errors import BadInputError, StashError
from stash.store import cloths, makes
from stash.trade.fibres import parse_fibres
from stash.units.format_length import Measure, show_length
from stash.units.length import Length
from stash.units.parse_length import parse_length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.services.stash import Stash
    from stash.services.whole import Whole

HOW = 'Type "drop MAKE", "without CLOTH", "buy 2 m of CLOTH" or "buy 2 m of 150 cm cotton".'
DROP, WITHOUT, BUY = "drop", "without", "buy"


@dataclass(frozen=True, slots=True, kw_only=True)
class Supposed:
    """The records as they would be, and what was supposed in words."""

    whole: Whole
    words: tuple[str, ...]


def suppose(stash: Stash, whole: Whole, texts: Sequence[str]) -> Supposed:
    """Every supposition in turn.

    Raises:
        BadInputError: A text is no supposition.
        NotFoundError: It names a make or cloth nobody knows.
    """
    words = []
    for text in texts:
        verb, _, rest = text.strip().partition(" ")
        if verb.lower() not in (DROP, WITHOUT, BUY) or not rest.strip():
            raise BadInputError(f"{text!r} is nothing that can be supposed.", HOW)
        change = {DROP: _drop, WITHOUT: _without, BUY: _buy}[verb.lower()]
        whole, said = change(stash, whole, rest.strip())
        words.append(said)
    return Supposed(whole=whole, words=tuple(words))


def _drop(stash: Stash, whole: Whole, ref: str) -> tuple[Whole, str]:
    with stash.read() as session:
        make = makes.find_make(session, ref)
    if not make.state.wants_cloth:
        raise BadInputError(
            f"{make.name} is {make.state}: the plan has nothing left to choose for it.",
            "Name a make that still waits for cloth.",
        )
    kept = {k: m for k, m in whole.makes.items() if k != make.id}
    held = tuple(p for p in whole.promises if p.make_id != make.id)
    return replace(whole, makes=kept, promises=held), f"{make.name} is dropped"


def _without(stash: Stash, whole: Whole, ref: str) -> tuple[Whole, str]:
    with stash.read() as session:
        cloth = cloths.find_cloth(session, ref)
    held = sum(
        p.length.nm for p in whole.promises if p.cloth_id == cloth.id and p.pinned and not p.cut
    )
    # What is pinned stays: only what the plan could still give away is gone.
    shelf = whole.cloths | {cloth.id: replace(cloth, left=Length(held))}
    return replace(whole, cloths=shelf), f"no more of {cloth.name} may be used"


def _buy(stash: Stash, whole: Whole, text: str) -> tuple[Whole, str]:
    amount, of, what = text.partition(" of ")
    if not of or not what.strip():
        raise BadInputError(f"buy {text!r} does not say how much of what.", HOW)
    length = parse_length(amount)
    if length.nm <= 0:
        raise BadInputError(f"{amount.strip()!r} is not a length to buy.", HOW)
    shown = show_length(length, stash.settings.system, Measure.SPARE)
    new = _new_cloth(whole, what.strip(), length)
    if new is not None:
        shelf = whole.cloths | {new.id: new}
        return replace(whole, cloths=shelf), f"{shown} of {new.name} is bought"
    with stash.read() as session:
        known = whole.cloths[cloths.find_cloth(session, what.strip()).id]
    more = replace(known, left=known.left + length, bought=known.bought + length)
    shelf = whole.cloths | {known.id: more}
    return replace(whole, cloths=shelf), f"{shown} more of {known.name} is bought"


def _new_cloth(whole: Whole, what: str, length: Length) -> Cloth | None:
    """A cloth described by width, structure and fibres; None where it begins with no width."""
    words = what.split()
    for count in range(min(3, len(words)), 0, -1):
        try:
            width = parse_length(" ".join(words[:count]))
        except StashError:
            continue
        if width.mm < 100:  # a plain number is the number of a cloth
            return None
        structure, fibres = _nature(words[count:])
        return Cloth(
            id=min((0, *whole.cloths)) - 1,
            name=f"new {what}",
            structure=structure,
            fibres=fibres,
            width=width,
            bought=length,
            left=length,
        )
    return None


def _nature(words: Sequence[str]) -> tuple[Structure, tuple[FibreShare, ...]]:
    """Structure and fibres from the words after the width; woven unless said."""
    structure, rest = Structure.WOVEN, []
    for word in words:
        if word.lower() in list(Structure):
            structure = Structure(word.lower())
        else:
            rest.append(word)
    text = " ".join(rest)
    if text and "%" not in text:
        text = f"100% {text}"
    return structure, tuple(FibreShare(*share) for share in parse_fibres(text)) if text else ()
