"""Sharing the pieces of one role out to several cloths: big ones on the first, small ones later.

Pure: whether pieces fit a cloth is asked of the caller, who lays them out. The split that moves
the least area to later cloths is looked for by trying what to move, least area first.
"""

from __future__ import annotations

from dataclasses import dataclass
from heapq import heappop, heappush
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

MOST_ASKED = 60
"""Questions of fitting that are asked at most while looking for something better."""
MOST_TRIED = 40_000
"""Choices of what to move that are looked at, most of them by their area only."""

Pieces = frozenset[int]


@dataclass(frozen=True, slots=True)
class Share:
    """Which pieces are cut from which cloth, in the order of the cloths."""

    parts: tuple[Pieces, ...]
    fits: bool
    """Every part fits; else the last cloth that has any is too small for what is left."""
    least: bool
    """No other choice moves less: every one that would was tried."""


class Sharing:
    """The search for one set of pieces and one row of cloths."""

    def __init__(
        self,
        areas: Sequence[float],
        rooms: Sequence[float],
        fits: Callable[[int, Pieces], bool],
    ) -> None:
        """Set out to share.

        Args:
            areas: Area of each piece, all its copies, in any one unit.
            rooms: Area of each cloth: pieces of more than that are not even asked for.
            fits: Whether these pieces can be cut from that cloth; asked once for each set.
        """
        self._areas = areas
        self._rooms = rooms
        self._cloths = len(rooms)
        self._ask = fits
        self._known: dict[tuple[int, Pieces], bool] = {}
        self._too_much: list[list[Pieces]] = [[] for _ in rooms]
        self._tried = 0

    def find(self) -> Share:
        """The split that moves least to the second cloth, then to the third, and so on.

        A quick split by size is the answer where the search ends before it is done.
        """
        everything = frozenset(range(len(self._areas)))
        quick = self._by_size(everything)
        limit = self._moved(quick) if quick.fits else None
        before = len(self._known)
        found = self._least(everything, 0, limit, before)
        if found is not None:
            return Share(found, fits=True, least=not self._spent(before))
        return Share(quick.parts, quick.fits, least=quick.fits and not self._spent(before))

    def _fits(self, cloth: int, pieces: Pieces) -> bool:
        if not pieces:
            return True
        if self._area(pieces) > self._rooms[cloth]:
            return False
        # What was too much stays too much with more beside it.
        if any(less <= pieces for less in self._too_much[cloth]):
            return False
        key = (cloth, pieces)
        if key not in self._known:
            self._known[key] = self._ask(cloth, pieces)
            if not self._known[key]:
                self._too_much[cloth].append(pieces)
        return self._known[key]

    def _by_size(self, pieces: Pieces) -> Share:
        """Largest first, each on the first cloth that still takes it; the rest on the last."""
        parts: list[Pieces] = [frozenset()] * self._cloths
        last = self._cloths - 1
        left = []
        for piece in sorted(pieces, key=lambda k: -self._areas[k]):
            for cloth in range(self._cloths):
                if self._fits(cloth, parts[cloth] | {piece}):
                    parts[cloth] |= {piece}
                    break
            else:
                left.append(piece)
        parts[last] |= frozenset(left)
        return Share(tuple(parts), fits=not left, least=False)

    def _least(
        self, pieces: Pieces, cloth: int, limit: float | None, before: int
    ) -> tuple[Pieces, ...] | None:
        """Parts for this cloth and those after it; None if nothing (better) was found."""
        rest = self._cloths - cloth - 1
        if rest == 0:
            return (pieces,) if self._fits(cloth, pieces) else None
        for moved in self._subsets(pieces):
            if self._spent(before) or (limit is not None and self._area(moved) >= limit):
                return None
            if not self._fits(cloth, pieces - moved):
                continue
            after = self._least(moved, cloth + 1, None, before)
            if after is not None:
                return (pieces - moved, *after)
        return None

    def _subsets(self, pieces: Pieces) -> Iterator[Pieces]:
        """All subsets, smallest area first."""
        order = sorted(pieces, key=lambda k: (self._areas[k], k))
        yield frozenset()
        heap: list[tuple[float, tuple[int, ...]]] = []
        if order:
            heappush(heap, (self._areas[order[0]], (0,)))
        while heap:
            area, places = heappop(heap)
            self._tried += 1
            yield frozenset(order[k] for k in places)
            at = places[-1]
            if at + 1 < len(order):
                more = self._areas[order[at + 1]]
                heappush(heap, (area + more, (*places, at + 1)))
                heappush(heap, (area + more - self._areas[order[at]], (*places[:-1], at + 1)))

    def _moved(self, share: Share) -> float:
        return sum(self._area(part) for part in share.parts[1:])

    def _area(self, pieces: Pieces) -> float:
        return sum(self._areas[k] for k in pieces)

    def _spent(self, before: int) -> bool:
        return len(self._known) - before >= MOST_ASKED or self._tried >= MOST_TRIED
