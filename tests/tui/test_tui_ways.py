"""What makes it fit, by keyboard from the Pairing and from a Lay."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

import pytest
from tui_kit import SIZES, fill_form, go, heading, place, rows, settled, shown, until

from stash.services.cloths import add_cloth
from stash.services.makes import add_make
from stash.services.patterns import add_pattern, add_piece
from stash.tui.app import StashApp

if TYPE_CHECKING:
    from textual.pilot import Pilot

    from stash.services.stash import Stash
    from stash.tui.screens.drawn import DrawnScreen

DRILL = {
    "name": "drill",
    "structure": "woven",
    "width": "127 cm",
    "length": "1.3 m",
    "washed": "yes",
}


@pytest.fixture
def short(empty_stash: Stash, monkeypatch: pytest.MonkeyPatch) -> Stash:
    """Three panels 80 x 60 cm on the fold need 1.80 m of 125 cm; with one seam 1.20 m."""
    monkeypatch.setattr("stash.services.solving.FEW", 1000)
    monkeypatch.setattr("stash.services.fit_in.SECONDS", 0.0)
    add_cloth(empty_stash, DRILL)
    add_pattern(empty_stash, {"name": "plain", "kind": "dress"})
    for name in ("front", "back", "side panel"):
        piece = {"name": name, "length": "60 cm", "width": "40 cm", "on_fold": "yes"}
        add_piece(empty_stash, "plain", "rectangle", piece)
    add_make(empty_stash, {"name": "plain one", "pattern": "plain"})
    return empty_stash


async def open_ways(pilot: Pilot[None], *keys: str) -> None:
    await settled(pilot)
    await go(pilot, "5", "pairing")
    for key in (*keys, "i"):
        await pilot.press(key)
        await settled(pilot)
    await until(pilot, lambda: place(pilot) == "ways")
    await settled(pilot)


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_the_ladder_and_each_way(short: Stash, size: tuple[int, int]) -> None:
    async with StashApp(short).run_test(size=size) as pilot:
        await open_ways(pilot)
        assert "fits with 1 change, cost 2.00" in heading(pilot)
        table = rows(pilot)
        assert "As the pattern is" in table[0]
        assert "1. Back with a centre seam" in table[1]
        assert "60 cm" in table[1]
        assert "✓ fits" in table[1]
        assert any("alone: accept less margin" in row for row in table)
        assert "It needs 1.80 m" in " ".join(shown(pilot).split())
        await pilot.press("down")
        await until(pilot, lambda: "two halves" in shown(pilot))
        await pilot.press("enter")
        await until(pilot, lambda: place(pilot) == "drawn")
        await settled(pilot)
        drawn = cast("DrawnScreen", pilot.app.screen)
        assert drawn.lays[0].lay is not None
        assert drawn.lays[0].lay.need == pytest.approx(1200)
        await pilot.press("escape")
        await until(pilot, lambda: place(pilot) == "ways")


async def test_what_is_not_wanted_is_left_out(short: Stash) -> None:
    async with StashApp(short).run_test(size=(80, 24)) as pilot:
        await open_ways(pilot, "enter")  # from the lay
        await pilot.press("o")
        await fill_form(pilot, {"barred": "centre"})
        await until(pilot, lambda: place(pilot) == "ways")
        await until(pilot, lambda: "nothing makes it fit" in heading(pilot))
        assert not any("centre seam" in row for row in rows(pilot))
        await pilot.press("escape")
        await until(pilot, lambda: place(pilot) == "lay")
