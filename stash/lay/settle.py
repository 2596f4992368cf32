"""Bringing rounded positions onto the grid, with no overlap left however small."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.lay.forms import GRID
from stash.lay.ground import ground_for
from stash.lay.table import Placed

if TYPE_CHECKING:
    from stash.lay.table import Strip

NUDGES = tuple(
    sorted(
        ((dx * GRID, dy * GRID) for dx in range(-3, 4) for dy in range(-3, 4)),
        key=lambda step: (abs(step[0]) + abs(step[1]), step),
    )
)
"""Steps of a few micrometres to try around a position, nearest first."""
MARGIN = 10 * GRID


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
    ground = ground_for(strip.width, strip.blocked, row, piece.form, end=strip.end)
    if ground is None:
        return None
    x, y = _on_grid(piece.x), min(_on_grid(piece.y), ground.top)
    if strip.end is None:  # room beyond the end of the others, whatever was rounded
        ground = ground._replace(reach=max(ground.reach, x) + MARGIN)
    for dx, dy in NUDGES:
        if ground.is_free(x + dx, y + dy):
            return Placed(piece.form, x + dx, y + dy)
    for corner in sorted(ground.corners(), key=lambda c: (abs(c[0] - x) + abs(c[1] - y), c)):
        cx, cy = _on_grid(corner[0]), min(_on_grid(corner[1]), ground.top)
        for dx, dy in NUDGES:
            if ground.is_free(cx + dx, cy + dy):
                return Placed(piece.form, cx + dx, cy + dy)
    return None


def _on_grid(value: int) -> int:
    """The nearest place on the grid that is not negative."""
    return max(0, round(value / GRID) * GRID)
