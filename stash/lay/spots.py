"""The place nearest the start of the cloth for one form, remembered.

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

REMEMBERED = 6_000
Corner = tuple[int, int]


class Spots(NamedTuple):
    """The lowest and the highest of the free places nearest the start of the cloth."""

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


def in_order(there: frozenset[Placed]) -> list[Placed]:
    """In an order of their own, or rounding might tell which order they were put down in."""
    return sorted(there, key=lambda p: (p.x, p.y, p.form.shape, p.form.turn, p.form.mirrored))


def _first(ground: Ground, corners: list[Corner]) -> Spots | None:
    """The first free place, and the last of those as far along."""
    for n, corner in enumerate(corners):
        found = ground.settle(corner)
        if found is not None:
            return Spots(found, _last(ground, corners[n:]) or found)
    return None


def _last(ground: Ground, corners: list[Corner]) -> Corner | None:
    """The last free place of those as far along as the first corner."""
    column = (corners[0][0] + SLIT) // NEAR
    last = 0
    while last < len(corners) and (corners[last][0] + SLIT) // NEAR == column:
        last += 1
    return next(filter(None, map(ground.settle, reversed(corners[:last]))), None)
