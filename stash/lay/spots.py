"""The place nearest the start of the cloth for one form, remembered; and those at its selvedges.

Searches put the same pieces down beside the same others again and again: in another order,
upright and then free to turn, in one kind of lay after the other. Where a form then goes
depends on what lies there, not on the order it was put down in.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from stash.lay.ground import NEAR, SLIT, Ground, ground_for

if TYPE_CHECKING:
    from stash.geometry.ring import IntRing
    from stash.lay.forms import Form
    from stash.lay.table import Placed

REMEMBERED = 10_000
Corner = tuple[int, int]


class Spots(NamedTuple):
    """The lowest and the highest of the free places nearest one end of the cloth.

    Or of those nearest a selvedge: the one nearest the start, and the one nearest the end.
    """

    low: Corner
    high: Corner


@lru_cache(maxsize=REMEMBERED)
def nearest(
    there: frozenset[Placed],
    form: Form,
    width: int,
    blocked: tuple[IntRing, ...],
    end: int | None,
    at_fold: bool,
) -> Spots | None:
    """Where `form` goes beside what is `there`, on a cloth so wide that ends at x = `end`.

    None: it finds no room.
    """
    ground = ground_for(width, blocked, in_order(there), form, at_fold, end)
    if ground is None:
        return None
    return _first(ground, ground.corners())


def at_selvedges(ground: Ground, corners: list[Corner]) -> tuple[Corner, ...]:
    """Of the free places nearest one selvedge, and nearest the other: those nearest either end.

    `corners` are those of the free region. Up to four places; none if the form finds no room.
    """
    by_width = sorted(corners, key=lambda corner: ((corner[1] + SLIT) // NEAR, corner[0]))
    first = _first(ground, by_width, across=True)
    last = _first(ground, by_width[::-1], across=True)
    if first is None or last is None:
        return ()
    return tuple(dict.fromkeys((first.low, first.high, last.high, last.low)))


def in_order(there: frozenset[Placed]) -> list[Placed]:
    """In an order of their own, or rounding might tell which order they were put down in."""
    return sorted(there, key=lambda p: (p.x, p.y, p.form.shape, p.form.turn, p.form.mirrored))


def _first(ground: Ground, corners: list[Corner], across: bool = False) -> Spots | None:
    """The first free place, and the last of those as far along, or `across`."""
    for n, corner in enumerate(corners):
        found = ground.settle(corner)
        if found is not None:
            return Spots(found, _last(ground, corners[n:], across) or found)
    return None


def _last(ground: Ground, corners: list[Corner], across: bool) -> Corner | None:
    """The last free place of those as far along, or `across`, as the first corner."""
    far = (corners[0][across] + SLIT) // NEAR
    last = 0
    while last < len(corners) and (corners[last][across] + SLIT) // NEAR == far:
        last += 1
    return next(filter(None, map(ground.settle, reversed(corners[:last]))), None)
