"""Finding the combination of ways that fits at the least cost, by laying them out.

Combinations are taken cheapest first. What a proven bound rules out is never laid; of the rest
the likely ones are laid first, and when one fits, every cheaper one that is not ruled out is laid
as well. Pure: laying is asked of the caller.
"""

from __future__ import annotations

from dataclasses import dataclass
from heapq import heappop, heappush
from itertools import islice, takewhile
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

Combination = tuple[int, ...]
"""Places of the ways taken, in rising order."""

MOST_LIKELY = 36
"""Combinations laid at most that are likely to fit."""
MOST_CHEAPER = 20
"""Then so many more that are cheaper than what fits, however unlikely."""
MOST_LOOKED_AT = 6000
"""Combinations that are looked at, most of them by their bound only."""
HAIR = 1e-9
"""Sums of the same costs in another order differ by less."""
AT_ONCE = 3
"""Laid together: so few that no process has to be started for them."""


class Priced(Protocol):
    """What the search sees of a way."""

    @property
    def cost(self) -> float:
        """What it costs, 0 or more."""

    @property
    def group(self) -> str:
        """Only one of a group is taken."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of it."""

    found: Combination | None
    """The cheapest combination that fits; None: none was found."""
    least: bool
    """Nothing cheaper fits: all of it was laid or ruled out. Without one: nothing fits at all."""
    laid: int
    """Combinations laid out on the way."""


class WaySearch:
    """One search; `missing` remembers every combination that was laid."""

    def __init__(
        self,
        ways: Sequence[Priced],
        lay: Callable[[Sequence[Combination]], Sequence[float | None]],
        hopeless: Callable[[Combination], bool],
        known: Mapping[Combination, float | None],
    ) -> None:
        """Set out to search.

        Args:
            ways: What may be done.
            lay: How much is missing to a fit for each combination, 0 or less when it fits; None
                where there is no lay. In any one unit.
            hopeless: Proven that this combination cannot fit, without laying it.
            known: What is missing for combinations laid before: of the base and of single ways.
        """
        self._ways = ways
        self._lay = lay
        self._hopeless = hopeless
        self.missing: dict[Combination, float | None] = dict(known)
        self._laid = 0

    def find(self) -> Outcome:
        """The cheapest combination that fits."""
        first = self._first_fit(self._likely(), MOST_LIKELY)
        looked = list(islice(self._cheaper(first), MOST_LOOKED_AT))
        whole = len(looked) < MOST_LOOKED_AT
        cheaper = self._first_fit(iter(looked), self._laid + MOST_CHEAPER)
        found = first if cheaper is None else cheaper
        left = any(
            c not in self.missing and not self._hopeless(c)
            for c in takewhile(lambda c: found is None or self._beats(c, found), looked)
        )
        if found is None and left:
            found = self._stripped()
        return Outcome(found, least=whole and not left, laid=self._laid)

    def _beats(self, one: Combination, other: Combination) -> bool:
        return self.cost(one) < self.cost(other) - HAIR

    def _cheaper(self, first: Combination | None) -> Iterator[Combination]:
        """Everything that costs less than `first`; everything where there is none."""
        return takewhile(lambda c: first is None or self._beats(c, first), self._by_cost())

    def _stripped(self) -> Combination | None:
        """All that helps by itself, then without whatever it also fits without, dearest first."""
        best: dict[str, tuple[float, int]] = {}
        for k, way in enumerate(self._ways):
            gap = self.missing.get((k,))
            if gap is not None and (way.group not in best or (gap, k) < best[way.group]):
                best[way.group] = (gap, k)
        combination = tuple(sorted(k for _, k in best.values()))
        if not self._lay_one(combination):
            return None
        for k in sorted(combination, key=lambda k: -self._ways[k].cost):
            fewer = tuple(one for one in combination if one != k)
            if self._lay_one(fewer):
                combination = fewer
        return combination

    def _lay_one(self, combination: Combination) -> bool:
        if combination not in self.missing:
            self.missing[combination] = self._lay([combination])[0]
            self._laid += 1
        return self._fits(combination)

    def cost(self, combination: Combination) -> float:
        """Of all its ways."""
        return sum(self._ways[k].cost for k in combination)

    def nearest(self) -> Combination | None:
        """Of all that were laid the one that misses least, then the cheapest."""
        able = [
            (gap, self.cost(c), len(c), c) for c, gap in self.missing.items() if gap is not None
        ]
        return min(able)[3] if able else None

    def _fits(self, combination: Combination) -> bool:
        gap = self.missing.get(combination)
        return gap is not None and gap <= 0

    def _first_fit(self, combinations: Iterator[Combination], most: int) -> Combination | None:
        """The first of them that fits; `most` is how many may have been laid by then."""
        wanted = (c for c in combinations if c in self.missing or not self._hopeless(c))
        while batch := list(islice(wanted, AT_ONCE)):
            new = [c for c in batch if c not in self.missing][: most - self._laid]
            for combination, gap in zip(new, self._lay(new) if new else (), strict=True):
                self.missing[combination] = gap
            self._laid += len(new)
            for combination in batch:
                if self._fits(combination):
                    return combination
            if self._laid >= most:
                break
        return None

    def _likely(self) -> Iterator[Combination]:
        """Those whose ways, each alone, win about as much as is missing; the sum only guesses."""
        base = self.missing.get(())
        for combination in islice(self._by_cost(), MOST_LOOKED_AT):
            alone = [self.missing.get((k,)) for k in combination]
            known = [gap for gap in alone if gap is not None]
            start = base if base is not None else max(known, default=None)
            if start is None or (base is None and not known):
                continue
            if start - sum(max(0.0, start - gap) for gap in known) <= self._slack(start):
                yield combination

    def _slack(self, start: float) -> float:
        """Ways win more together than alone: a third more is still thought likely."""
        return max(0.0, start) / 4

    def _by_cost(self) -> Iterator[Combination]:
        """Every combination, the cheapest first; of equal ones that with fewer ways."""
        order = sorted(range(len(self._ways)), key=lambda k: (self._ways[k].cost, k))
        costs = [self._ways[k].cost for k in order]
        yield ()
        heap: list[tuple[float, int, tuple[int, ...]]] = []
        if order:
            heappush(heap, (costs[0], 1, (0,)))
        while heap:
            cost, count, places = heappop(heap)
            groups = [self._ways[order[k]].group for k in places]
            if len(set(groups)) == len(groups):
                yield tuple(sorted(order[k] for k in places))
            after = places[-1] + 1
            if after < len(order):
                if len(set(groups)) == len(groups):
                    heappush(heap, (cost + costs[after], count + 1, (*places, after)))
                changed = cost - costs[places[-1]] + costs[after]
                heappush(heap, (changed, count, (*places[:-1], after)))
