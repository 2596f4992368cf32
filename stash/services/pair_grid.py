"""Every role of every waiting make against every cloth: one column after another."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.errors import StoppedError
from stash.services.pairing import judged
from stash.services.whole import read_whole

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from stash.cloth.record import Cloth
    from stash.garment.make import Make
    from stash.garment.pattern import Role
    from stash.pairing.judgement import Pairing
    from stash.services.progress import Cancelled, Progress
    from stash.services.stash import Stash


@dataclass(frozen=True, slots=True, kw_only=True)
class GridColumn:
    """One role of a make; `pairings` by cloth id, empty until it was worked out."""

    make: Make
    role: Role
    pairings: Mapping[int, Pairing]


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """The makes by priority and name, and the cloths by name."""

    cloths: tuple[Cloth, ...]
    columns: tuple[GridColumn, ...]

    @property
    def able(self) -> int:
        """Cloths that can be cut for something."""
        return sum(
            1
            for cloth in self.cloths
            if any(
                cloth.id in column.pairings and column.pairings[cloth.id].verdict.can_be_cut
                for column in self.columns
            )
        )


def pair_grid(
    stash: Stash,
    *,
    told: Callable[[Grid, int], None] | None = None,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> Grid:
    """Set every role of every waiting make against every cloth that is left.

    Args:
        stash: The stash.
        told: Hears the grid as far as it is, and how many columns of it are worked out.
        progress: Told how many columns are worked out.
        cancelled: Asked between lays.

    Raises:
        StoppedError: `cancelled` said so; lays found until then are kept.
    """
    whole = read_whole(stash)
    cloths = sorted((c for c in whole.cloths.values() if c.left), key=lambda c: (c.name, c.id))
    makes = sorted(whole.waiting(), key=lambda m: (-m.priority, m.name, m.id))
    columns = [
        GridColumn(make=make, role=role, pairings={})
        for make in makes
        for role in whole.roles_of(make)
    ]
    grid = Grid(cloths=tuple(cloths), columns=tuple(columns))
    if told:
        told(grid, 0)
    for place, column in enumerate(columns):
        if cancelled and cancelled():
            raise StoppedError("Stopped.", "What was worked out until now is kept.")
        if progress:
            progress(place, len(columns), "columns worked out")
        asked = [(column.make, column.role, cloth) for cloth in cloths]
        found = judged(stash, whole, asked, cancelled=cancelled)
        columns[place] = GridColumn(
            make=column.make, role=column.role, pairings={p.cloth_id: p for p in found}
        )
        grid = Grid(cloths=grid.cloths, columns=tuple(columns))
        if told:
            told(grid, place + 1)
    return grid
