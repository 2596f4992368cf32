"""The Pairing by keyboard: why a cloth suits, and when a test comes first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tui_kit import go, settled, shown, until

from stash.services.cloths import add_cloth, edit_cloth
from stash.tui.app import StashApp

if TYPE_CHECKING:
    from stash.services.stash import Stash


async def test_a_loved_cloth_is_to_be_tested_first(small: Stash) -> None:
    edit_cloth(small, "olive", {"loved": "5"})
    twill = {"name": "old twill", "structure": "woven", "width": "150 cm", "length": "2.6 m"}
    add_cloth(small, {**twill, "loved": "1", "washed": "yes"})
    async with StashApp(small).run_test(size=(120, 40)) as pilot:
        await settled(pilot)
        await go(pilot, "5", "pairing")
        await until(pilot, lambda: "known by" in shown(pilot))
        assert "kitchen scale" in " ".join(shown(pilot).split())
        assert "Test it first" not in shown(pilot)
        await pilot.press("down")
        await until(pilot, lambda: "Test it first" in shown(pilot))
        assert "known by" not in shown(pilot), "everything about the olive cord is measured"
        assert shown(pilot).count("old twill") == 2, "in the table, and as the cloth to risk"
