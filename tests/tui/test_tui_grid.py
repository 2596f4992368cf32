"""Every make against every cloth by keyboard: glyphs, reasons, and where enter leads."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from tui_kit import SIZES, go, heading, place, settled, shown, until

from stash.services.cloths import add_cloth
from stash.services.makes import add_make
from stash.services.pair_grid import pair_grid
from stash.tui.app import StashApp
from stash.tui.widgets.rows import Rows
from stash.tui.widgets.squares import Squares

if TYPE_CHECKING:
    from textual.pilot import Pilot

    from stash.services.stash import Stash


def cells(pilot: Pilot[None]) -> list[str]:
    table = pilot.app.screen.query_one(Squares)
    return [" ".join(str(cell) for cell in table.get_row_at(i)) for i in range(table.row_count)]


@pytest.fixture
def two_makes(small: Stash) -> Stash:
    add_make(
        small, {"name": "sun trousers", "pattern": "easy trousers", "size": "40", "priority": "1"}
    )
    lace = {"name": "lace", "structure": "lace", "width": "140 cm", "length": "3 m"}
    add_cloth(small, {**lace, "washed": "yes"})
    return small


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_it_is_moved_through_by_keys(two_makes: Stash, size: tuple[int, int]) -> None:
    async with StashApp(two_makes).run_test(size=size) as pilot:
        await settled(pilot)
        await go(pilot, "5", "pairing")
        await pilot.press("g")
        await until(pilot, lambda: place(pilot) == "grid")
        await until(pilot, lambda: "1 of 3 cloths can be cut" in heading(pilot))
        # By name: blue stripe is too short for both, lace is no trouser cloth, the cord does.
        stripe, lace, cord = cells(pilot)
        assert stripe.split()[-2:] == ["▼", "▼"]
        assert lace.split()[-2:] == ["✗", "✗"]
        assert cord.split()[-2:] == ["✓", "✓"]
        assert "1: rain trousers, main" in shown(pilot)
        assert "short" in shown(pilot)
        await pilot.press("right", "down", "down")
        await until(pilot, lambda: "2: sun trousers, main" in shown(pilot))
        assert "fits" in shown(pilot)
        await pilot.press("enter")
        await until(pilot, lambda: place(pilot) == "pairing")
        await settled(pilot)
        assert "sun trousers" in heading(pilot)
        cord_id = next(c.id for c in pair_grid(two_makes).cloths if c.name == "olive cord")
        assert pilot.app.screen.query_one(Rows).chosen == str(cord_id)


def test_columns_come_one_after_another(two_makes: Stash) -> None:
    seen: list[int] = []
    grid = pair_grid(two_makes, told=lambda some, done: seen.append(done))
    assert seen == [0, 1, 2]
    assert [column.make.name for column in grid.columns] == ["rain trousers", "sun trousers"]
    assert grid.able == 1
