"""The line of steps in which cloth laid with rectangles ends, and filling it step by step."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Sequence

FAR = 1 << 60
"""The edge of the cloth is a wall of any height."""
PERFECT = 5
"""As wide as the step and as long as its taller wall: nothing fits better."""


class Box(NamedTuple):
    """A rectangle as it may lie: along the cloth, across it, and which form of its item it is."""

    length: int
    across: int
    form: int


class Spot(NamedTuple):
    """A box put down, and which kind of rectangle it is."""

    kind: int
    box: Box
    x: int
    y: int


class Steps:
    """Steps across the cloth: where each begins (x), its lower edge (y) and its width."""

    def __init__(self, width: int) -> None:
        self._x, self._y, self._wide = [0], [0], [width]

    def nearest(self) -> tuple[int, int, int, int]:
        """The step nearest the start: its place, its width, the walls below and above it."""
        xs = self._x
        x = min(xs)
        k = xs.index(x)
        below = xs[k - 1] - x if k else FAR
        above = xs[k + 1] - x if k + 1 < len(xs) else FAR
        return k, self._wide[k], below, above

    def put(self, k: int, box: Box, upper: bool) -> tuple[int, int]:
        """Put a box on step k, at its lower or its upper edge; and where that is."""
        x, y, wide = self._x[k], self._y[k], self._wide[k]
        at = y + wide - box.across if upper else y
        if box.across == wide:
            self._x[k] += box.length
            self._join(k)
            return x, at
        self._wide[k] -= box.across
        place = k + 1 if upper else k
        if not upper:
            self._y[k] += box.across
        self._x.insert(place, x + box.length)
        self._y.insert(place, at)
        self._wide.insert(place, box.across)
        self._join(place)
        return x, at

    def give_up(self, k: int, by: int) -> int:
        """Bring step k level with its lower wall, `by` away; and the area that wastes."""
        wasted = self._wide[k] * by
        self._x[k] += by
        self._join(k)
        return wasted

    def _join(self, k: int) -> None:
        """Make one step of step k and its neighbours on the same level."""
        for j in (k + 1, k):
            if 0 < j < len(self._x) and self._x[j] == self._x[j - 1]:
                self._wide[j - 1] += self._wide[j]
                del self._x[j], self._y[j], self._wide[j]


def fill_steps(
    order: Sequence[int], kinds: Sequence[tuple[Box, ...]], width: int, limit: int, spare: int
) -> list[Spot] | None:
    """Lay kinds of rectangles in `order`; None if that ends beyond `limit`.

    `spare` is the area that may be wasted. Lengths in any whole unit.
    """
    steps, left, spots = Steps(width), list(order), []
    while left:
        k, wide, below, above = steps.nearest()
        found = _best_fit(left, kinds, wide, below, above)
        if found is None:
            spare -= steps.give_up(k, min(below, above))
            if spare < 0:
                return None
            continue
        place, box, fit = found
        kind = left.pop(place)
        # At the taller wall, unless it is level with the other one.
        x, y = steps.put(k, box, (below < above) != (fit == 1))
        if x + box.length > limit:
            return None
        spots.append(Spot(kind, box, x, y))
    return spots


def _best_fit(
    left: list[int], kinds: Sequence[tuple[Box, ...]], wide: int, below: int, above: int
) -> tuple[int, Box, int] | None:
    """The place in `left` of what fits a step best, the box it makes, and how well it fits.

    5: as wide as the step and as long as the taller wall; 4: or as the lower one; 3: as wide
    only; 2 and 1: narrower, and level with the taller or the lower wall; 0: it has room.
    """
    tall, low = max(below, above), min(below, above)
    best, found, seen = -1, None, set()
    for place, kind in enumerate(left):
        if kind in seen:
            continue
        seen.add(kind)
        for box in kinds[kind]:
            if box.across > wide:
                continue
            level = 2 if box.length == tall else 1 if box.length == low else 0
            fit = level + 3 if box.across == wide else level
            if fit > best:
                best, found = fit, (place, box)
        if best == PERFECT:
            break
    return (*found, best) if found is not None else None
