"""Folded lays of which only part of the width is doubled.

One selvedge is folded in at y = `fold`, so the cloth lies double from there to 2 x `fold` and
single beside it, all along. Pairs and pieces on the fold lie on the doubled part; what is cut
once, and pairs cut apart where that ends sooner, lie on the single part or after the fold.
How deep to fold is for us to choose.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import chain, zip_longest
from typing import TYPE_CHECKING, NamedTuple

from stash.lay.dealing import Lot, deal, fitting, orders_of
from stash.lay.doubled import Folded, numbered, placement_of, spaced
from stash.lay.errors import LayError
from stash.lay.folded_lay import half_width, lay_folded, narrowed, opened_out, sort_out
from stash.lay.forms import FINE, GRID, forms_in, half_gap, sheet_width, turns_allowed
from stash.lay.obstacles import folded_strip_of, strip_from, strip_of
from stash.lay.open_lay import polygon_mm
from stash.lay.problem import LayKind
from stash.lay.search import on_grain, search, upright
from stash.lay.table import Item, Placed, Strip, fill, length_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.lay.doubled import SingleEnd
    from stash.lay.effort import Effort
    from stash.lay.problem import Problem

MOST_DEPTHS = 6
"""Depths of the fold that are tried."""


class Sewn(NamedTuple):
    """One thing to cut: doubled, or from a single layer; empty where that cannot be."""

    doubled: tuple[Item, ...]
    apart: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """A depth, and what goes where; lengths in solver units."""

    fold: int
    doubled: tuple[Item, ...]
    singles: tuple[Item, ...]
    two: tuple[Placed, ...]
    """On the doubled part."""
    one: tuple[Placed, ...]
    """On one layer: beside the doubled part, or after it."""

    @property
    def length(self) -> int:
        """Where the last piece ends."""
        return max(length_of(self.two), length_of(self.one))


def lay_folded_anywhere(problem: Problem, effort: Effort, single_end: SingleEnd) -> Folded:
    """The shortest folded arrangement found, over the whole width or only part of it.

    Raises:
        LayError: as `lay_folded`, where no narrower fold helps either.
    """
    try:
        full = lay_folded(problem, effort, single_end)
    except LayError:
        part = _lay_part(problem, effort, effort.beat)
        if part is None:
            raise
        return part
    beat = full.length if effort.beat is None else min(full.length, effort.beat)
    return _lay_part(problem, effort, beat) or full


def _lay_part(problem: Problem, effort: Effort, beat: int | None) -> Folded | None:
    """The best part fold, if there is one shorter than `beat`.

    None is looked for where none can be: every piece on the fold has a stretch of the one
    fold line to itself, so no depth gives less than their lengths together; nor does any lay
    give less than the bound of the problem. And without two layers anywhere it is no fold.
    """
    things = _things(problem)
    at_fold = [t.doubled[0] for t in things if t.doubled and not t.apart]
    least = max(effort.bound, sum(min(f.length for f in item.forms) for item in at_fold))
    if not any(t.doubled for t in things) or (beat is not None and least >= beat):
        return None
    plans = [p for fold in _depths(problem, things) if (p := _dealt(problem, things, fold))]
    if not plans:
        return None
    best = _searched(problem, min(plans, key=lambda plan: plan.length), effort, least)
    best = min((best, *plans), key=lambda plan: plan.length)
    return _opened(problem, best) if beat is None or best.length < beat else None


def _things(problem: Problem) -> tuple[Sewn, ...]:
    """Everything to cut, doubled pieces with the room they keep from the fold."""
    parts = sort_out(problem)
    things = []
    for item in spaced(parts.doubled, below=half_gap(problem)):
        things.append(Sewn((item,), () if item.at_fold else _cut_apart(problem, item)))
    return (*things, *(Sewn((), (item,)) for item in parts.singles))


def _cut_apart(problem: Problem, pair: Item) -> tuple[Item, ...]:
    """The two of a pair as singles."""
    index = pair.forms[0].shape
    shape = problem.shapes[index]
    turns = turns_allowed(shape, problem.nap)
    flags = (False, shape.mirrored)
    return tuple(Item(forms_in(problem, index, shape.outline, turns, (flag,))) for flag in flags)


def _depths(problem: Problem, things: tuple[Sewn, ...]) -> Iterator[int]:
    """Depths worth trying, a bounded number, those tried first that leave most for singles.

    As deep as still leaves room for one piece beside the doubled part; or just as deep as a
    piece on the fold, with a pair beside it or without, or as one or two pairs.
    """
    half, width, gap = half_width(problem), sheet_width(problem), 2 * half_gap(problem)
    fold = sorted({_across(t.doubled) for t in things if not t.apart})
    pairs = sorted({_across(t.doubled) for t in things if t.doubled and t.apart})
    singles = sorted({_across(t.apart) for t in things if t.apart}, reverse=True)
    leaving = [(width - gap - across) // 2 for across in singles]
    snug = [*fold, *(a + b for a in fold for b in pairs), *pairs]
    widest, narrowest = max(fold, default=0), min(singles, default=0)
    room = (width - gap - narrowest) // 2 if singles else -1
    seen: set[int] = set()
    for wanted in chain.from_iterable(zip_longest(leaving, snug)):
        if wanted is None or len(seen) >= MOST_DEPTHS:
            continue
        depth = -(-wanted // GRID) * GRID if wanted in snug else wanted // GRID * GRID
        if max(widest, 1) <= depth <= min(room, half) and depth not in seen:
            seen.add(depth)
            yield depth
    if pairs and pairs[-1] > half >= widest:  # such a pair can only be cut apart
        yield half


def _across(items: tuple[Item, ...]) -> int:
    """The narrowest the widest of them can lie."""
    return max(min(form.across for form in _plain(item).forms) for item in items)


def _dealt(problem: Problem, things: tuple[Sewn, ...], fold: int) -> Plan | None:
    """Each thing where it ends soonest; None if the cloth cannot be folded there.

    Upright and on grain, so that freedom to turn never chooses worse than none.
    """
    try:
        two = folded_strip_of(problem, fold, fold)
    except LayError:
        return None
    beside = strip_from(problem, 0, 2 * fold + 2 * half_gap(problem))
    lots = [
        Lot(
            fitting(tuple(map(_plain, t.doubled)), two.width),
            fitting(tuple(map(_plain, t.apart)), beside.width),
        )
        for t in things
    ]
    here = [k for k, lot in enumerate(lots) if lot.first or lot.second]
    if any(not things[k].apart for k in range(len(things)) if k not in here):
        return None
    order = orders_of([(lots[k].first or lots[k].second)[0] for k in here])[0]
    dealt = deal((two, beside), [lots[k] for k in here], order)
    if dealt is None or not dealt.hands[0]:
        return None
    doubled = tuple(things[here[k]].doubled[0] for k in dealt.hands[0])
    once = [here[k] for k in dealt.hands[1]]
    once += [k for k in range(len(things)) if k not in here]  # too wide: after the fold
    singles = tuple(item for k in once for item in things[k].apart)
    row = fill(_around(problem, fold, length_of(dealt.rows[0])), tuple(map(_plain, singles)))
    return Plan(fold, doubled, singles, dealt.rows[0], row) if row is not None else None


def _plain(item: Item) -> Item:
    return on_grain(upright(item))


def _around(problem: Problem, fold: int, reach: int) -> Strip:
    """The open cloth without what lies doubled up to `reach`."""
    gap = 2 * half_gap(problem)
    right, high = reach + gap, 2 * fold + gap
    taken = ((0, 0), (right, 0), (right, high), (0, high))
    strip = strip_of(problem)
    return strip._replace(blocked=(*strip.blocked, taken))


def _searched(problem: Problem, plan: Plan, effort: Effort, least: int) -> Plan:
    """The plan with each part searched further.

    The singles are laid around the upright doubled pieces first: so freedom to turn them
    never gives a longer lay than none.
    """
    effort = replace(effort, tries=(effort.tries + 1) // 2)
    strip = folded_strip_of(problem, plan.fold, plan.fold)
    best = plan
    for doubled in dict.fromkeys((tuple(map(_plain, plan.doubled)), plan.doubled)):
        found = search(strip, narrowed(doubled, strip.width), effort)
        if found.row is None or (best is not plan and found.length >= length_of(best.two)):
            continue
        two = found.row if found.length < length_of(best.two) else best.two
        best = _with_singles(problem, replace(best, two=two), effort, best)
        if best.length <= least:
            break
    return best


def _with_singles(problem: Problem, plan: Plan, effort: Effort, best: Plan) -> Plan:
    """The plan with its singles laid anew around what lies doubled; `best` if that is longer."""
    if not plan.singles:
        return min(plan, best, key=lambda one: one.length)
    enough = length_of(plan.two)
    strip = _around(problem, plan.fold, enough)
    found = search(strip, plan.singles, replace(effort, enough=enough))
    if found.row is None:
        return best
    return min(best, replace(plan, one=found.row), key=lambda one: one.length)


def _opened(problem: Problem, plan: Plan) -> Folded:
    """The plan on the opened-out cloth."""
    singles = tuple(
        placement_of(problem, p, polygon_mm(p), p.form.turn, p.form.mirrored, single=True)
        for p in plan.one
    )
    placements = numbered(opened_out(problem, plan.two, plan.fold) + singles, frozenset(), problem)
    reach = length_of(plan.two)
    return Folded(LayKind.FOLDED, plan.length, reach, placements, (plan.fold / FINE,), None)
