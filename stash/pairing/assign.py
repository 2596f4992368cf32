"""Which cloth goes to which role, all at once: an integer programme solved with HiGHS."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from stash.programme import Aim, Rows, minimised

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

TIME_LIMIT = 20.0
"""Seconds; past this the best plan so far is used and its gap shown."""

LARGE = 300
"""Options from which a plan need not be proven best: proving the last 0.1 % can take ten times as
long as finding it. Smaller programmes are always proven."""
NEAR_ENOUGH = 0.001
PROVEN = 1e-6
"""Relative gaps: that at which the search for a better large plan ends, and none."""

TIE = 1e-4
"""Worth of the first option over the last one that is as good: settles ties the same way."""

SAVED_TOGETHER = 0.02
"""Worth of a metre a joint lay saves: two makes are only laid together if it is shorter."""

TENTHS_PER_METRE = 10_000


@dataclass(frozen=True, slots=True)
class Option:
    """A cloth that could be cut for a slot. A slot is one role of one make."""

    slot: int
    cloth: int
    length: int
    """Tenths of a millimetre to cut off the shelf, rounded up."""
    gain: float
    """Worth of cutting this cloth over buying one."""


@dataclass(frozen=True, slots=True)
class Joint:
    """Two options of one cloth laid together, by their places in `Choice.options`."""

    one: int
    other: int
    length: int
    """Tenths of a millimetre for both, rounded up."""


@dataclass(frozen=True, slots=True)
class Outfit:
    """Two options that are worth more together, by their places in `Choice.options`."""

    one: int
    other: int
    gain: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Spending:
    """What may be spent on buying. A make that waits buys nothing."""

    budget: int
    """Hundredths of the currency."""
    costs: Mapping[int, int]
    """What buying for a slot costs, by slot."""
    waits: tuple[tuple[tuple[int, ...], float], ...]
    """Slots of one make, and the worth lost if it waits."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """What may be chosen, and the limits between choices."""

    options: tuple[Option, ...]
    room: Mapping[int, int]
    """Tenths of a millimetre of each cloth that may be cut, rounded down."""
    whole_makes: tuple[tuple[tuple[int, ...], float], ...] = ()
    """Slots of one make, and what it is worth that none of them has to be bought."""
    once: frozenset[int] = frozenset()
    """Cloths only one lay may use: a flaw's place is known for the first cut only."""
    apart: tuple[tuple[int, int], ...] = ()
    """Slots that must not share a cloth: a muslin and its make."""
    joints: tuple[Joint, ...] = ()
    outfits: tuple[Outfit, ...] = ()
    spending: Spending | None = None

    def reach(self, place: int) -> int:
        """Length an option takes."""
        option = self.options[place]
        return self._rounded(option.length, option.cloth)

    def saved(self, joint: Joint) -> int:
        """Tenths of a millimetre the joint lay takes less than one lay after the other."""
        together = self._rounded(joint.length, self.options[joint.one].cloth)
        return self.reach(joint.one) + self.reach(joint.other) - together

    def _rounded(self, length: int, cloth: int) -> int:
        """Rounding must not forbid what fits to the last tenth of a millimetre."""
        return self.room[cloth] if length == self.room[cloth] + 1 else length


@dataclass(frozen=True, slots=True)
class Chosen:
    """What is taken, by its place in the options, joints, outfits and waits of the choice."""

    taken: tuple[int, ...]
    proven: bool
    gap: float
    joined: tuple[int, ...] = ()
    paired: tuple[int, ...] = ()
    waiting: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class _Columns:
    """Where each kind of variable begins among the columns."""

    whole: int
    joints: int
    outfits: int
    waits: int
    bought: int
    total: int
    slots: tuple[int, ...] = field(default=())
    """Slots that cost something if they are bought, in the order of their columns."""


def assign(choice: Choice) -> Chosen:
    """The choice of options with the most gain that keeps every limit.

    At most one option per slot; a slot without one is bought, or waits where the budget does
    not reach. Proven optimal, or with the relative gap to the best that could still exist.
    """
    if not choice.options and choice.spending is None:
        return Chosen((), True, 0.0)
    large = len(choice.options) > LARGE
    at = _columns(choice)
    most = np.ones(at.total)
    most[_beaten(choice)] = 0
    whole = np.ones(at.total, dtype=np.int32)
    whole[at.outfits : at.waits] = 0  # settled by the options they stand on
    whole[at.bought :] = 0
    answer = minimised(
        Aim(-np.array(_worth(choice, at)), np.zeros(at.total), most),
        _limits(choice, at),
        whole=whole,
        gap=NEAR_ENOUGH if large else 0.0,
        seconds=TIME_LIMIT,
    )
    if answer is None:
        return Chosen((), False, 1.0)

    def ones(first: int, end: int) -> tuple[int, ...]:
        return tuple(k - first for k in range(first, end) if answer.values[k] > 0.5)

    return Chosen(
        taken=ones(0, at.whole),
        proven=answer.ended and (not large or answer.gap <= PROVEN),
        gap=answer.gap,
        joined=ones(at.joints, at.outfits),
        paired=ones(at.outfits, at.waits),
        waiting=ones(at.waits, at.bought),
    )


def _beaten(choice: Choice) -> list[int]:
    """Options no best plan needs, by their places.

    Other slots use at most as many cloths as there are others. If a slot has one better cloth
    more than that, one of them lies idle in any plan, and taking it loses nothing: it fits, it
    is nobody's. Not so for options that joint lays or outfits stand on.
    """
    stood_on = [(each.one, each.other) for each in choice.joints]
    stood_on += [(each.one, each.other) for each in choice.outfits]
    bound = {place for both in stood_on for place in both}
    by_slot: dict[int, list[int]] = {}
    for place, option in enumerate(choice.options):
        by_slot.setdefault(option.slot, []).append(place)
    beaten = []
    for places in by_slot.values():
        better: set[int] = set()
        for place in sorted(places, key=lambda p: (-choice.options[p].gain, p)):
            cloth = choice.options[place].cloth
            if len(better) >= len(by_slot) and place not in bound:
                beaten.append(place)
            elif choice.reach(place) <= choice.room[cloth]:
                better.add(cloth)
    return beaten


def _columns(choice: Choice) -> _Columns:
    spending = choice.spending
    slots = tuple(sorted(spending.costs)) if spending else ()
    whole = len(choice.options)
    joints = whole + len(choice.whole_makes)
    outfits = joints + len(choice.joints)
    waits = outfits + len(choice.outfits)
    bought = waits + (len(spending.waits) if spending else 0)
    return _Columns(whole, joints, outfits, waits, bought, bought + len(slots), slots)


def _worth(choice: Choice, at: _Columns) -> list[float]:
    step = TIE / max(1, len(choice.options))
    metre = SAVED_TOGETHER / TENTHS_PER_METRE
    return [
        *(option.gain - step * place for place, option in enumerate(choice.options)),
        *(bonus for _, bonus in choice.whole_makes),
        *(choice.saved(joint) * metre for joint in choice.joints),
        *(outfit.gain for outfit in choice.outfits),
        *(-lost for _, lost in (choice.spending.waits if choice.spending else ())),
        *(0.0 for _ in at.slots),
    ]


def _limits(choice: Choice, at: _Columns) -> Rows:
    rows = Rows()
    by_slot: dict[int, list[int]] = {}
    by_cloth: dict[int, list[int]] = {}
    for place, option in enumerate(choice.options):
        by_slot.setdefault(option.slot, []).append(place)
        by_cloth.setdefault(option.cloth, []).append(place)
    for places in by_slot.values():
        rows.add([(place, 1) for place in places], 1)
    joined: dict[int, list[tuple[int, Joint]]] = {}
    for column, joint in enumerate(choice.joints, start=at.joints):
        joined.setdefault(choice.options[joint.one].cloth, []).append((column, joint))
    for cloth, places in by_cloth.items():
        _cloth_rows(rows, choice, cloth, places, joined.get(cloth, []))
    for number, (slots, _) in enumerate(choice.whole_makes, start=at.whole):
        for slot in slots:
            rows.add([(number, 1), *((place, -1) for place in by_slot.get(slot, []))], 0)
    _outfit_rows(rows, choice, at)
    if choice.spending is not None:
        _budget_rows(rows, choice.spending, at, by_slot)
    return rows


def _outfit_rows(rows: Rows, choice: Choice, at: _Columns) -> None:
    """An outfit wants both its options.

    A slot has one cloth, so of all outfits of one option with the options of another slot one
    at most is worn: said of all at once, the programme is far sooner proven.
    """
    beside: dict[tuple[int, int], list[int]] = {}
    for column, outfit in enumerate(choice.outfits, start=at.outfits):
        for mine, theirs in ((outfit.one, outfit.other), (outfit.other, outfit.one)):
            beside.setdefault((mine, choice.options[theirs].slot), []).append(column)
    for (place, _), columns in beside.items():
        rows.add([*((column, 1) for column in columns), (place, -1)], 0)


def _cloth_rows(
    rows: Rows,
    choice: Choice,
    cloth: int,
    places: Sequence[int],
    joined: Sequence[tuple[int, Joint]],
) -> None:
    """A joint lay gives back what it saves; an option is laid with one other at most."""
    saved = [(column, -choice.saved(joint) / 10) for column, joint in joined]
    rows.add([*((p, choice.reach(p) / 10) for p in places), *saved], choice.room[cloth] / 10)
    partners: dict[int, list[int]] = {}
    for column, joint in joined:
        for place in (joint.one, joint.other):
            partners.setdefault(place, []).append(column)
    for place, columns in partners.items():
        rows.add([*((column, 1) for column in columns), (place, -1)], 0)
    if cloth in choice.once:
        rows.add([*((place, 1) for place in places), *((column, -1) for column, _ in joined)], 1)
    for one, other in choice.apart:
        both = [place for place in places if choice.options[place].slot in (one, other)]
        if len(both) > 1:
            rows.add([(place, 1) for place in both], 1)


def _budget_rows(
    rows: Rows, spending: Spending, at: _Columns, by_slot: Mapping[int, Sequence[int]]
) -> None:
    """A slot is bought unless it has a cloth or its make waits; what is bought costs."""
    waits = {slot: k for k, (slots, _) in enumerate(spending.waits, at.waits) for slot in slots}
    for column, slot in enumerate(at.slots, start=at.bought):
        cells = [(column, -1.0), *((place, -1.0) for place in by_slot.get(slot, ()))]
        rows.add([*cells, (waits[slot], -1.0)], -1)
    rows.add(
        [(column, spending.costs[slot]) for column, slot in enumerate(at.slots, start=at.bought)],
        spending.budget,
    )
