"""Sharing pieces out to cloths, against trying every split there is."""

from __future__ import annotations

from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from stash.pairing.share import MOST_ASKED, Pieces, Sharing


class Shelf:
    """Cloths that take pieces up to so much area in all, and none larger than so much."""

    def __init__(self, areas: list[int], room: list[int], largest: list[int]) -> None:
        self.areas, self.room, self.largest = areas, room, largest
        self.asked = 0

    def fits(self, cloth: int, part: Pieces) -> bool:
        self.asked += 1
        return self.holds(cloth, part)

    def holds(self, cloth: int, part: Pieces) -> bool:
        sizes = [self.areas[k] for k in part]
        return sum(sizes) <= self.room[cloth] and max(sizes, default=0) <= self.largest[cloth]

    def least_moved(self) -> int | None:
        """By trying every split: least area not on the first cloth; None: no split fits."""
        moved = []
        for places in product(range(len(self.room)), repeat=len(self.areas)):
            parts = [
                frozenset(k for k, at in enumerate(places) if at == cloth)
                for cloth in range(len(self.room))
            ]
            if all(self.holds(cloth, part) for cloth, part in enumerate(parts)):
                moved.append(sum(self.areas[k] for k in range(len(places)) if places[k]))
        return min(moved, default=None)


@settings(max_examples=150, deadline=None)
@given(
    st.lists(st.integers(1, 40), min_size=1, max_size=6),
    st.lists(st.tuples(st.integers(0, 90), st.integers(5, 60)), min_size=2, max_size=3),
)
def test_no_split_moves_less(areas: list[int], cloths: list[tuple[int, int]]) -> None:
    shelf = Shelf(areas, [room for room, _ in cloths], [largest for _, largest in cloths])
    share = Sharing(areas, shelf.room, shelf.fits).find()
    assert sorted(k for part in share.parts for k in part) == list(range(len(areas)))
    least = shelf.least_moved()
    if share.fits:
        assert all(shelf.holds(cloth, part) for cloth, part in enumerate(share.parts))
    if share.least or least is None:
        moved = sum(areas[k] for part in share.parts[1:] for k in part)
        assert (share.fits, moved if share.fits else None) == (least is not None, least)


def test_one_cloth_is_enough() -> None:
    shelf = Shelf([5, 3, 2], [10, 10], [9, 9])
    share = Sharing(shelf.areas, shelf.room, shelf.fits).find()
    assert share.parts == (frozenset({0, 1, 2}), frozenset())
    assert share.least


def test_the_small_piece_moves() -> None:
    shelf = Shelf([50, 40, 5], [92, 20], [99, 99])
    share = Sharing(shelf.areas, shelf.room, shelf.fits).find()
    assert share.parts == (frozenset({0, 1}), frozenset({2}))


def test_what_fits_nowhere_is_left_for_the_last_cloth() -> None:
    shelf = Shelf([50, 5], [20, 20], [99, 99])
    share = Sharing(shelf.areas, shelf.room, shelf.fits).find()
    assert not share.fits
    assert 0 in share.parts[1]


def test_it_does_not_ask_for_ever() -> None:
    # Of twelve pieces there are 4096 choices, and their area alone says little: by size six
    # lie on either cloth, and some hundred choices would move less.
    shelf = Shelf([100 + k for k in range(12)], [700, 700], [999, 999])
    share = Sharing(shelf.areas, [1000, 1000], shelf.fits).find()
    assert share.fits
    assert not share.least
    assert shelf.asked <= MOST_ASKED + 2 * 12
