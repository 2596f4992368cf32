"""What a cloth could become, by keyboard from the Shelf."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tui_kit import go, heading, place, rows, settled, shown, until

from stash.services.patterns import add_pattern
from stash.tui.app import StashApp

if TYPE_CHECKING:
    from stash.services.stash import Stash


async def test_the_shelf_opens_what_a_cloth_could_become(small: Stash) -> None:
    add_pattern(small, {"name": "knit top", "kind": "t-shirt"})
    async with StashApp(small).run_test(size=(110, 34)) as pilot:
        await settled(pilot)
        await go(pilot, "2", "shelf")
        await pilot.press("down")
        await settled(pilot)
        await pilot.press("b")
        await until(pilot, lambda: place(pilot) == "become")
        await settled(pilot)
        assert "olive cord: 1 of 2 can be cut from it" in heading(pilot)
        first, last = rows(pilot)
        assert "easy trousers" in first
        assert "fits" in first
        assert "knit top" in last
        assert "unsuited" in last
        await pilot.press("down")
        await until(pilot, lambda: "The pattern asks for knit" in shown(pilot))
        await pilot.press("up", "enter")
        await until(pilot, lambda: place(pilot) == "lay")
        await settled(pilot)
        assert "easy trousers" in heading(pilot)
        await pilot.press("escape")
        await until(pilot, lambda: place(pilot) == "become")
        await pilot.press("escape")
        await until(pilot, lambda: place(pilot) == "shelf")
        await settled(pilot)
