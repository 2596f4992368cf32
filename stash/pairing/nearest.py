"""The cloth that comes nearest to a role the shelf has nothing for, and what it lacks."""

from __future__ import annotations

from heapq import heapify, heapreplace
from typing import TYPE_CHECKING

from stash.pairing.judgement import Verdict
from stash.pairing.worth import GOOD_ENOUGH
from stash.units.enough import show_enough

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from stash.cloth.record import Cloth
    from stash.config import System
    from stash.pairing.judgement import Judged

MOST_LAID = 4
"""Lays worked out to tell which cloth is nearest: after these most shelves are settled, and a
long one does not hold up the plan (a house choice)."""


def nearest_laid(
    pairings: Iterable[Judged], lay_of: Callable[[Judged], str], lay: Callable[[Judged], Judged]
) -> tuple[Judged, ...]:
    """The same, laid out where that decides which comes nearest.

    A cloth known to be too short by its area alone lacks at least as much as that says, so the
    nearest of these is laid out, until the nearest of all is one whose need is known.

    Args:
        pairings: A role against the shelf.
        lay_of: The key of the lay a pairing wants; alike cloths share one.
        lay: The same pairing, laid out.
    """
    known = {one.cloth_id: one for one in pairings}
    nearest = [(_distance(one), one.cloth_id) for one in _misses(known.values())]
    heapify(nearest)
    laid: set[str] = set()
    while nearest:
        first = known[nearest[0][1]]
        if not _is_bound(first):
            break
        laid.add(lay_of(first))
        if len(laid) > MOST_LAID:
            break
        first = known[first.cloth_id] = lay(first)
        heapreplace(nearest, (_distance(first), first.cloth_id))
    return tuple(known.values())


def nearest_miss(
    pairings: Iterable[Judged],
    cloths: Mapping[int, Cloth],
    taken: Mapping[int, str],
    system: System,
) -> str:
    """Why the shelf has nothing, by the cloth that comes nearest."""
    if taken:
        cloth, reason = next(iter(taken.items()))
        return f"{cloths[cloth].name} could be cut, but {reason}."
    ranked = sorted(_misses(pairings), key=_distance)
    if not ranked:
        return "There is nothing on the shelf that falls short of it."
    best = ranked[0]
    name = cloths[best.cloth_id].name
    if best.verdict is Verdict.SHORT and best.need.length is not None:
        return _short(ranked, cloths, system)
    if best.verdict is Verdict.UNKNOWN:
        open_gate = next((r for r in best.reasons if r.gate and r.mark is None), None)
        missing = open_gate.sentence if open_gate else best.need.why
        return f"{name} might do, but something is missing: {missing}"
    if best.verdict is Verdict.UNSUITED:
        bar = next(r for r in best.reasons if r.gate and r.mark == 0)
        return f"Nothing suits. {name}, for one: {bar.sentence}"
    return f"Nearest is {name}, but {_lower(best.need.why)}"


def _misses(pairings: Iterable[Judged]) -> list[Judged]:
    return [one for one in pairings if not one.verdict.can_be_cut]


def _is_bound(pairing: Judged) -> bool:
    return pairing.verdict is Verdict.SHORT and pairing.need.at_least


def _short(ranked: list[Judged], cloths: Mapping[int, Cloth], system: System) -> str:
    """How much the first lacks; one that was laid out where the first was not."""
    first = ranked[0]
    told = next((one for one in ranked if _is_told_before(one, first)), first)
    assert told.need.length is not None
    name = cloths[told.cloth_id].name
    lacks = show_enough(told.need.length, told.have, system).words
    if told.need.at_least:
        return f"Nearest may be {name}: at least {lacks}."
    if told is not first:
        return f"Among the nearest is {name}: {lacks}."
    return f"Nearest is {name}: {lacks}."


def _is_told_before(one: Judged, first: Judged) -> bool:
    """As near as the first but for its length, which is known."""
    known = one.need.length is not None and not one.need.at_least
    return known and _distance(one)[:3] == _distance(first)[:3]


_ORDER = (
    Verdict.SHORT,
    Verdict.UNKNOWN,
    Verdict.TOO_NARROW,
    Verdict.UNSUITED,
)


def _distance(pairing: Judged) -> tuple[bool, int, int, bool, int, float, int]:
    """How far a pairing is from being cut: what could be mended first, then by how much."""
    bars = sum(1 for reason in pairing.reasons if reason.gate and reason.mark == 0)
    lacks = max(0, -pairing.spare.nm) if pairing.spare is not None else 0
    poor = not bars and pairing.suit < GOOD_ENOUGH
    return (
        poor,
        _ORDER.index(pairing.verdict),
        bars,
        pairing.spare is None,
        lacks,
        -pairing.suit,
        pairing.cloth_id,
    )


def _lower(sentence: str) -> str:
    return sentence[:1].lower() + sentence[1:]
