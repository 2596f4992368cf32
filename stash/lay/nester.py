"""The open nesting library at work beside us: a process, its answers, its end."""

from __future__ import annotations

import json
import math
import subprocess
import sys
import threading
from typing import TYPE_CHECKING, Any

from stash.lay.forms import FINE, GRID
from stash.lay.table import Placed

if TYPE_CHECKING:
    from types import TracebackType

    from stash.geometry.ring import FloatRing
    from stash.lay.forms import Form
    from stash.lay.table import Item, Strip

SHORTEST_SECONDS = 1
"""The library takes whole seconds."""


class Nester:
    """A worker process laying `items` on `strip`; use it in a `with`.

    It may die at any time: then no more answers come, and nothing else happens.
    """

    def __init__(self, strip: Strip, items: tuple[Item, ...], seconds: float, seed: int) -> None:
        self._groups: dict[tuple[Form, ...], list[int]] = {}
        for place, item in enumerate(items):
            self._groups.setdefault(item.forms, []).append(place)
        request = {
            "width": strip.width / FINE,
            "seconds": max(SHORTEST_SECONDS, math.floor(seconds)),
            "seed": seed,
            "items": [
                {
                    "ring": _millimetres(forms[0]),
                    "copies": len(places),
                    "turns": [(form.turn - forms[0].turn) % 360 for form in forms],
                }
                for forms, places in self._groups.items()
            ],
        }
        self._latest: str | None = None
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

    def news(self) -> tuple[Placed, ...] | None:
        """The best arrangement since the last call, in the order of the items; None if none.

        Rounded to the grid and not yet settled: pieces may overlap by a hair.
        """
        line, self._latest = self._latest, None
        if line is None:
            return None
        try:
            return self._placed(json.loads(line)["placed"])
        except (ValueError, KeyError, IndexError, StopIteration):
            return None

    def _read(self, request: str) -> None:
        stdin, stdout = self._process.stdin, self._process.stdout
        if stdin is None or stdout is None:
            return
        try:
            with stdin:
                stdin.write(request)
        except BrokenPipeError:
            return
        with stdout:
            for line in stdout:
                self._latest = line

    def _placed(self, found: list[Any]) -> tuple[Placed, ...]:
        groups = list(self._groups.items())
        waiting = [iter(places) for _, places in groups]
        row: dict[int, Placed] = {}
        for number, dx, dy, turn in found:
            forms, _ = groups[int(number)]
            wanted = (forms[0].turn + round(turn)) % 360
            form = next(form for form in forms if form.turn % 360 == wanted)
            left, low = _corner(_millimetres(forms[0]), turn)
            x = round((left + dx) * FINE / GRID) * GRID
            y = round((low + dy) * FINE / GRID) * GRID
            row[next(waiting[int(number)])] = Placed(form, x, y)
        if len(row) != sum(len(places) for _, places in groups):
            raise IndexError("not every piece was placed")
        return tuple(row[place] for place in range(len(row)))


def _millimetres(form: Form) -> FloatRing:
    return tuple((x / FINE, y / FINE) for x, y in form.ring)


def _corner(ring: FloatRing, degrees: float) -> tuple[float, float]:
    """Lower left of the ring's bounds once it is turned about the origin."""
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return min(x * cos - y * sin for x, y in ring), min(x * sin + y * cos for x, y in ring)
