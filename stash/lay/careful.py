"""Careful open lays: the open nesting library and our own search, then pushed together.

The library lays more in the same time, so with many pieces it has all cores, on one seed, as it
would alone; where there is time enough for that, each on a seed of its own. What it finds is
settled on our grid and compacted, what it nearly finds is pushed apart, and our own search goes
on from the shortest. With one seed that is what the library would find alone, or better. Few
pieces have a core for our own search, and the library each other core on a seed of its own, in
rounds of one seed after another. Rectangles, and whatever the library does not know (flaws,
remnants, prints that match), are for our own search from the beginning.

How far each gets depends on the clock: two runs may differ. Whoever asked checks the answer.
"""

from __future__ import annotations

import math
import os
import time
from collections import deque
from contextlib import ExitStack
from typing import TYPE_CHECKING

from stash.lay.compact import compact, pushed_apart
from stash.lay.descents import Descents
from stash.lay.effort import Effort, Found
from stash.lay.nester import RECENT, Nester, Work, can_nest
from stash.lay.rectangles import Rectangles, only_rectangles
from stash.lay.rework import rework
from stash.lay.search import search
from stash.lay.separate import can_separate
from stash.lay.settle import settle
from stash.lay.table import length_of, order_of

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from stash.lay.table import Item, Placed, Strip

SLICE_SECONDS = 0.2
"""Our own search looks up this often: for news, for the clock, for a stop."""
END_SHARE, END_SECONDS = 0.01, 0.3
"""Share of the time, and no more than so many seconds, kept for pushing together at the end."""
OUR_SHARE, OUR_SECONDS = 0.03, 1.0
"""Share of the time, and no more than so many seconds, that are ours after the library: what it
found last is pushed together in a fifth of that, and near misses gain little more by then."""
START_SECONDS = 0.35
"""So long the library takes to begin. With many pieces it ends by itself when it is our turn, since
its last steps are its finest."""
PUSH_EACH = 0.03
"""For so many seconds a piece, and no longer, the library pushes together what it found, though its
custom is a fifth of its time: few pieces are soon together, and pushing near misses apart gains
as much. Measured on two cores, per cent of the area used: open instances of 64 and 99 pieces,
60 s, two seeds each, 89.4 on average with 3 s of pushing, where the library alone reached 89.2
(64 pieces with 1.9 s: as with 3); four of 24 to 43 pieces, 10 s, six seeds each, mostly as much
as by the custom, 0.1 more on average.
"""
PART_FROM, PART_SHARE = 0.6, 0.2
"""From this share of the time on near misses are pushed apart, in this share of what follows: it
is taken from the library. What nearly fits before that is soon beaten."""
PROMISING = 1.004
"""A near miss pushed apart is pushed together too if it is no more than so much longer than the
best: it seldom gets shorter by more."""
FEW = 16
"""So many pieces are few: a core gets far with a seed of its own in whatever time."""
EACH_SECONDS = 2
"""With so long for each of the pieces that holds for more of them too. Measured on open
instances of 30 and 24 pieces, two cores, 60 s, two seeds each: 87.5 and 88.0 per cent of the area
used instead of 87.1 and 87.8. In 10 s the library alone may be above that, but not above one seed.
"""
MOST_PIECES = 50
"""Without the library so many are separated; with 64, reworking reaches more in the same time."""
MOST_CORES = 4
ROUND_SECONDS = 3
"""A round on few pieces: after that another seed finds more."""
SHORTEST_SECONDS = 1
"""With less time the library is not worth its start."""
FIRST_TRIES = 12


class Careful:
    """One careful search, to be used in a `with`: from its beginning on the library is at work.

    So whoever has something else to do first does it inside, before `search`.
    """

    def __init__(
        self, strip: Strip, items: tuple[Item, ...], seconds: float, seed: int = 1
    ) -> None:
        self._strip, self._items, self._seconds, self._seed = strip, items, seconds, seed
        self._helped = seconds >= SHORTEST_SECONDS and can_nest(strip, items)
        self._hunt = _Hunt(strip, items, seed, self._helped)
        self._resting_for = 0.0
        if self._helped and self._hunt.rectangles is None:
            self._resting_for = seconds - _ours(seconds)
        self._nesters: list[Nester] = []
        self._stack = ExitStack()

    def __enter__(self) -> Careful:
        if self._helped:
            works = _works(len(self._items), self._seconds, self._seed, self._cores())
            with ExitStack() as stack:  # those begun are ended if one cannot be
                for work in works:
                    nester = Nester(self._strip, self._items, work)
                    self._nesters.append(stack.enter_context(nester))
                self._stack = stack.pop_all()
        return self

    def __exit__(self, *_: object) -> None:
        self._stack.close()

    def _cores(self) -> int:
        """How many are the library's; our own search needs one where it is the better one."""
        if self._hunt.rectangles is not None:
            return 1
        cores = min(MOST_CORES, os.cpu_count() or 1)
        return max(1, cores - 1) if self._hunt.has_core else cores

    def _is_helped_now(self) -> bool:
        return any(nester.is_busy() for nester in self._nesters)

    def search(
        self,
        progress: Callable[[float, int], bool] | None = None,
        enough: int = 0,
        beat: int | None = None,
        start: tuple[Placed, ...] = (),
    ) -> Found:
        """The shortest row found in the seconds from now; its row is None if nothing had room.

        `progress` hears the share of the time spent and the best length so far, in solver
        units, and answers False to stop: the best so far is kept. So it is once a length of
        `enough` is reached, which nothing can beat. `beat` is the length of a row there is
        already: the answer may be longer, but is looked for below it. `start` is that row, if it is
        known how it lies.
        """
        begun = time.monotonic()
        seconds, resting_for = self._seconds, self._resting_for
        end = begun + seconds - min(END_SHARE * seconds, END_SECONDS)
        hunt = self._hunt
        hunt.until(end, enough, beat)
        hunt.begin(start, 1 if resting_for else FIRST_TRIES)
        while hunt.best is not None and not hunt.is_over():
            spent = time.monotonic() - begun
            if progress and not progress(spent / seconds, hunt.aim()):
                break
            resting = spent < resting_for and self._is_helped_now()
            if resting:
                hunt.wait(min(SLICE_SECONDS, resting_for - spent))
            elif resting_for:
                self._stack.close()
            may_last = math.inf
            if self._is_helped_now():
                may_last = PART_SHARE * (spent - PART_FROM * seconds)
            for nester in self._nesters:
                hunt.hear(nester.news(), push=not resting or hunt.has_core)
            hunt.part([nester.near_miss for nester in self._nesters], may_last)
            if not resting:
                hunt.look()
        hunt.push()
        return hunt.found()


def _ours(seconds: float) -> float:
    """How much of the time is ours after the library."""
    return min(OUR_SHARE * seconds, OUR_SECONDS)


def _works(pieces: int, seconds: float, seed: int, cores: int) -> list[Work]:
    """What the library is asked for: one piece of work for each of its processes."""
    if pieces > FEW and seconds < EACH_SECONDS * pieces:
        lasting = seconds - _ours(seconds) - START_SECONDS
        return [Work.lasting(lasting, cores, seed, most_pushing=PUSH_EACH * pieces)]
    if seconds < 2 * ROUND_SECONDS:  # no time for its own pushing: we stop it and push ourselves
        return [Work(seconds + ROUND_SECONDS, 1, 1, seed + core) for core in range(cores)]
    rounds = round(seconds / ROUND_SECONDS) if pieces <= FEW else 1
    return [
        Work.lasting(seconds, 1, seed + core * rounds, rounds, PUSH_EACH * pieces)
        for core in range(cores)
    ]


class _Hunt:
    """The best row so far, and the ways to better it."""

    def __init__(self, strip: Strip, items: tuple[Item, ...], seed: int, helped: bool) -> None:
        self._strip, self._items, self._seed = strip, items, seed
        self._end, self._enough = 0.0, 0
        self._parting = 0.0
        self._beat: int | None = None
        self.rectangles = Rectangles(strip, items, seed) if only_rectangles(strip, items) else None
        self._descents: Descents | None = None
        most = FEW if helped else MOST_PIECES
        if self.rectangles is None and len(items) <= most and can_separate(strip, items):
            self._descents = Descents(strip, items, seed)
        self._heard: list[tuple[Placed, ...]] = []
        self.best: tuple[Placed, ...] | None = None
        self._order, self._tries, self._turn = items, 0, 0

    @property
    def has_core(self) -> bool:
        """Our own search is worth a core beside the library."""
        return self._descents is not None

    def until(self, end: float, enough: int, beat: int | None) -> None:
        """When to end: at that time, or once `enough` is reached; below `beat` is looked."""
        self._end, self._enough, self._beat = end, enough, beat

    def begin(self, start: tuple[Placed, ...], tries: int) -> None:
        """A first row: the one there is already, settled; or by so many tries."""
        row = settle(self._strip, start) if start else None
        if row is not None:
            self.best, self._order = row, order_of(row, self._items)
            return
        effort = Effort(tries=tries, seed=self._seed, enough=self._enough)
        first = search(self._strip, self._items, effort)
        self.best, self._order, self._tries = first.row, first.order, first.tries

    def is_over(self) -> bool:
        """The time is up, or nothing shorter can exist."""
        reached = self.best is None or length_of(self.best) <= self._enough
        return reached or len(self._items) < 2 or time.monotonic() >= self._end

    def aim(self) -> int:
        """The length that is to be beaten: of the best row, or known before."""
        lengths = [self._beat, None if self.best is None else length_of(self.best)]
        return min(length for length in lengths if length is not None)

    def found(self) -> Found:
        """What there is."""
        return Found(self.best, self._order, self._tries)

    def wait(self, seconds: float) -> None:
        """While the library works: a slice if that is ours to take, else leave it the cores."""
        if self.has_core:
            self.look(seconds)
        else:
            time.sleep(seconds)

    def _slice(self, seconds: float) -> Effort:
        self._turn += 1
        until = min(self._end, time.monotonic() + seconds)
        return Effort(seed=self._seed + self._turn, deadline=until, enough=self._enough)

    def look(self, seconds: float = SLICE_SECONDS) -> None:
        """A slice of our own search."""
        if self.best is None:
            return
        effort = self._slice(seconds)
        if self.rectangles is not None:
            self._tries += self.rectangles.look(effort)
            self._take(self.rectangles.row(), self._items)
        elif self._descents is not None:
            row, tries = self._descents.look(self.best, self.aim(), effort)
            self._tries += tries
            self._take(row, self._items)
        else:
            found = rework(self._strip, self._order, self.best, effort)
            self._tries += found.tries
            if found.length < length_of(self.best):
                self.best = found.row
                self.push()

    def hear(self, news: list[tuple[Placed, ...]], push: bool) -> None:
        """Take what the library found, settled; `push` has all of it pushed together as well."""
        self._heard = sorted([*news, *self._heard], key=length_of)[:RECENT]
        for row in news[:1]:
            self._take(settle(self._strip, row), self._items)
        while push and self._heard and time.monotonic() < self._end:
            settled = settle(self._strip, self._heard.pop(0))
            if settled is not None:
                self._take(compact(self._strip, settled), self._items)

    def part(
        self, sources: Sequence[Callable[[], tuple[Placed, ...] | None]], may_last: float
    ) -> None:
        """Push near misses apart, the last one first, until that took so many seconds in all.

        One of each source in turn, as long as it has any.
        """
        waiting = deque(sources)
        while waiting and self.best is not None and self._parting < may_last:
            begun = time.monotonic()
            if begun >= self._end:
                break
            source = waiting.popleft()
            near_miss = source()
            if near_miss is None:
                continue
            waiting.append(source)
            row = pushed_apart(self._strip, near_miss)
            if row is not None and length_of(row) < PROMISING * length_of(self.best):
                self._take(compact(self._strip, row), self._items)
            self._parting += time.monotonic() - begun

    def push(self) -> None:
        """Push the best together."""
        if self.best is not None and self._strip.lattice is None:
            self._take(compact(self._strip, self.best), self._order)

    def _take(self, row: tuple[Placed, ...] | None, order: tuple[Item, ...]) -> None:
        """Go on from a row that is shorter than the best."""
        if row is not None and (self.best is None or length_of(row) < length_of(self.best)):
            self.best, self._order = row, order
