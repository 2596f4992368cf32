"""The open nesting library at work beside us: a process, its answers, its end."""

from __future__ import annotations

import json
import math
import subprocess
import sys
import threading
from collections import deque
from typing import TYPE_CHECKING, Any, NamedTuple

from stash.geometry.ring import across, bounds
from stash.lay.forms import FINE, GRID
from stash.lay.table import Placed

if TYPE_CHECKING:
    from types import TracebackType

    from stash.geometry.ring import FloatRing
    from stash.lay.forms import Form
    from stash.lay.table import Item, Strip

EXPLORING = 0.8
"""Share of its time the library looks for new arrangements, as is its own custom; the rest it
spends pushing the best together."""
DEPTH, OWN_DEPTH = 2, 4
"""Of the tree of squares the library looks for neighbours with, and what it takes by itself.
With less it finds the very same arrangements sooner: on open instances of 24 to 43 pieces by a
tenth, of 64 and 99 by a twentieth."""
RECENT = 4
"""Arrangements kept between two looks: the last ones are the shortest."""
MISSES = 200
"""Near misses kept. On open instances of 64 and 99 pieces there are 2 to 8 a second, so it is those
of the last 25 s and more; what nearly fitted before that is beaten by then."""


class Work(NamedTuple):
    """What the library is asked for: rounds, the two parts of each in seconds."""

    exploring: float
    pushing: float
    workers: int
    seed: int
    rounds: int = 1
    """Each has a seed of its own, beginning with `seed`."""
    depth: int = DEPTH
    near_misses: bool = True
    """To be told of as well."""

    @classmethod
    def lasting(
        cls,
        seconds: float,
        workers: int,
        seed: int,
        rounds: int = 1,
        most_pushing: float = math.inf,
    ) -> Work:
        """Work for about `seconds`, of which no round pushes for more than `most_pushing`."""
        each = seconds / rounds
        pushing = min(each * (1 - EXPLORING), most_pushing)
        return cls(each - pushing, pushing, workers, seed, rounds)


def can_nest(strip: Strip, items: tuple[Item, ...]) -> bool:
    """The library can be asked: it knows one long strip with nothing in the way.

    It panics on an outline that is wider than the strip in every turn.
    """
    if strip.blocked or strip.end is not None or strip.lattice is not None:
        return False
    width = strip.width + 2 * _margin(items)
    return all(_fitting(item.forms, width) for item in items)


def _fitting(forms: tuple[Form, ...], width: int) -> list[Form]:
    """The forms whose rings are no wider than `width`."""
    return [form for form in forms if across(form.ring) <= width]


def _margin(items: tuple[Item, ...]) -> int:
    """How far every ring reaches beyond its piece: half the gap between pieces, solver units."""
    return min(_margin_of(form) for item in items for form in item.forms)


def _margin_of(form: Form) -> int:
    left, low, right, high = bounds(form.ring)
    return min(-left, -low, right - form.length, high - form.across)


class Nester:
    """A worker process laying `items` on `strip`; use it in a `with`.

    It may die at any time: then no more answers come, and nothing else happens. The same work
    gives the same arrangements, as many as there was time for.
    """

    def __init__(self, strip: Strip, items: tuple[Item, ...], work: Work) -> None:
        self._groups: dict[tuple[Form, ...], list[int]] = {}
        for place, item in enumerate(items):
            self._groups.setdefault(item.forms, []).append(place)
        # A gap widens rings: so does it the strip, since the edges may be touched.
        self._margin = _margin(items)
        width = strip.width + 2 * self._margin
        request = {
            "width": width / FINE,
            "items": [
                {
                    "ring": _millimetres(forms[0]),
                    "copies": len(places),
                    "turns": [(form.turn - forms[0].turn) % 360 for form in _fitting(forms, width)],
                }
                for forms, places in self._groups.items()
            ],
            **work._asdict(),
        }
        self._found: deque[list[Any]] = deque(maxlen=RECENT)
        self._misses: deque[list[Any]] = deque(maxlen=MISSES)
        self._length: float | None = None
        self._process = subprocess.Popen(
            [sys.executable, "-m", "stash.lay.nest_worker"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
        )
        self._reader = threading.Thread(target=self._read, args=(json.dumps(request),), daemon=True)
        self._reader.start()

    def __enter__(self) -> Nester:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._process.kill()
        self._process.wait()
        self._reader.join()

    def is_busy(self) -> bool:
        """More answers may come."""
        return self._reader.is_alive()

    def wait(self) -> float | None:
        """Let it work to its end; the length it reached, in mm, or None if it reached none."""
        self._reader.join()
        return None if self._length is None else self._length - 2 * self._margin / FINE

    def news(self) -> list[tuple[Placed, ...]]:
        """The arrangements since the last call, shortest first, in the order of the items.

        Rounded to the grid and not yet settled: pieces may overlap by a hair.
        """
        rows = [self._row(self._found.pop()) for _ in range(len(self._found))]
        return [row for row in rows if row is not None]

    def near_miss(self) -> tuple[Placed, ...] | None:
        """The last arrangement on less length than it had found, on which some pieces overlap.

        Every call takes the one before it; None: there is none left.
        """
        return self._row(self._misses.pop()) if self._misses else None

    def _row(self, placed: list[Any]) -> tuple[Placed, ...] | None:
        try:
            return self._placed(placed)
        except (ValueError, KeyError, IndexError, TypeError, StopIteration):
            return None

    def _read(self, request: str) -> None:
        stdin, stdout = self._process.stdin, self._process.stdout
        if stdin is None or stdout is None:
            return
        with stdout:
            try:
                with stdin:
                    stdin.write(request)
            except BrokenPipeError:
                return
            for line in stdout:
                self._hear(line)

    def _hear(self, line: str) -> None:
        """Take a line of the worker; one that is garbled is left out."""
        try:
            told = json.loads(line)
            length, placed = float(told["length"]), list(told["placed"])
        except (ValueError, KeyError, TypeError):
            return
        if told.get("overlapping"):
            self._misses.append(placed)
        else:
            self._length = length
            self._found.append(placed)

    def _placed(self, found: list[Any]) -> tuple[Placed, ...]:
        groups = list(self._groups.items())
        waiting = [iter(places) for _, places in groups]
        row: dict[int, Placed] = {}
        for number, dx, dy, turn in found:
            forms, _ = groups[int(number)]
            wanted = (forms[0].turn + round(turn)) % 360
            form = next(form for form in forms if form.turn % 360 == wanted)
            left, low = _corner(_millimetres(forms[0]), turn)
            ring_left, ring_low, _, _ = bounds(form.ring)
            x = round(((left + dx) * FINE - self._margin - ring_left) / GRID) * GRID
            y = round(((low + dy) * FINE - self._margin - ring_low) / GRID) * GRID
            row[next(waiting[int(number)])] = Placed(form, x, y)
        if len(row) != sum(len(places) for _, places in groups):
            raise IndexError("not every piece was placed")
        return tuple(row[place] for place in range(len(row)))


def _millimetres(form: Form) -> FloatRing:
    """The ring from its least corner on: where a ring begins changes what the library finds."""
    first = form.ring.index(min(form.ring))
    return tuple((x / FINE, y / FINE) for x, y in form.ring[first:] + form.ring[:first])


def _corner(ring: FloatRing, degrees: float) -> tuple[float, float]:
    """Lower left of the ring's bounds once it is turned about the origin."""
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return min(x * cos - y * sin for x, y in ring), min(x * sin + y * cos for x, y in ring)
