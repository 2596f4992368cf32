"""Bringing rounded positions onto the grid, with no overlap left however small."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.lay.forms import GRID
from stash.lay.table import Placed, ground_for

if TYPE_CHECKING:
    from stash.lay.table import Strip

NUDGES = tuple(
    sorted(
        ((dx * GRID, dy * GRID) for dx in range(-3, 4) for dy in range(-3, 4)),
        key=lambda step: (abs(step[0]) + abs(step[1]), step),
    )
)
"""Steps of a few micrometres to try around a position, nearest first."""


def settle(strip: Strip, wanted: tuple[Placed, ...]) -> tuple[Placed, ...] | None:
    """The wanted arrangement with every overlap undone by the least move found.

    Pieces are settled from the start of the cloth on, each against those before it: by a
    nudge if that will do, else at the nearest free corner. None if a piece finds no room.
    """
    order = sorted(range(len(wanted)), key=lambda k: (wanted[k].x, wanted[k].y, k))
    done: dict[int, Placed] = {}
    for k in order:
        spot = _settle_one(strip, list(done.values()), wanted[k])
        if spot is None:
            return None
        done[k] = spot
    return tuple(done[k] for k in range(len(wanted)))


def _settle_one(strip: Strip, row: list[Placed], piece: Placed) -> Placed | None:
    """The piece at the nearest free place tried; beyond the end of the others if need be."""
    ground = ground_for(strip, row, piece.form)
    if ground is None:
        return None
    ground = ground._replace(reach=max(ground.reach, piece.x))
    x, y = max(0, piece.x), min(max(0, piece.y), ground.top)
    for dx, dy in NUDGES:
        if ground.is_free(x + dx, y + dy):
            return Placed(piece.form, x + dx, y + dy)
    for corner in sorted(ground.corners(), key=lambda c: (abs(c[0] - x) + abs(c[1] - y), c)):
        on_grid = (round(corner[0] / GRID) * GRID, round(corner[1] / GRID) * GRID)
        for dx, dy in NUDGES:
            if ground.is_free(on_grid[0] + dx, on_grid[1] + dy):
                return Placed(piece.form, on_grid[0] + dx, on_grid[1] + dy)
    return None
