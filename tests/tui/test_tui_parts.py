"""The parts of a pattern by keyboard: drawn while typed, changed, taken out; needs over widths."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

import pytest
from tui_kit import SIZES, fill_form, go, heading, place, rows, settled, shown, until

from stash.services import solving
from stash.services.patterns import add_chart_row, get_pattern
from stash.tui.app import StashApp
from stash.tui.screens.piece_form import PieceFormScreen

if TYPE_CHECKING:
    from textual.pilot import Pilot

    from stash.services.stash import Stash


async def _open_rectangle(pilot: Pilot[None]) -> PieceFormScreen:
    await go(pilot, "3", "patterns")
    await pilot.press("enter")
    await until(pilot, lambda: place(pilot) == "parts")
    await settled(pilot)
    await pilot.press("a")
    await until(pilot, lambda: place(pilot) == "choose")
    await pilot.press("enter")
    await until(pilot, lambda: "What shape is the piece?" in shown(pilot))
    await pilot.press("enter")
    await until(pilot, lambda: isinstance(pilot.app.screen, PieceFormScreen))
    return cast("PieceFormScreen", pilot.app.screen)


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_a_drawing_follows_what_is_typed(small: Stash, size: tuple[int, int]) -> None:
    async with StashApp(small).run_test(size=size) as pilot:
        form = await _open_rectangle(pilot)
        await settled(pilot)
        assert "Still to be typed" in shown(pilot)
        form.rows["length"].input.value = "90 cm"
        form.rows["width"].input.value = "40 cm"
        await until(pilot, lambda: "90 cm x 40 cm" in shown(pilot))
        assert any("⡇" in line for line in shown(pilot).splitlines())
        form.rows["width"].input.value = "30 cm"
        await until(pilot, lambda: "90 cm x 30 cm" in shown(pilot))
        form.rows["name"].input.value = "flap"
        await pilot.press("ctrl+s")
        await until(pilot, lambda: place(pilot) == "parts")
        await settled(pilot)
        assert any(row.startswith("piece | flap") for row in rows(pilot))
    assert get_pattern(small, "easy").pieces[-1].typed == ("length=90 cm", "width=30 cm")


async def test_parts_are_changed_and_taken_out(small: Stash) -> None:
    # 1 1/2 yd are 1.3716 m: never shown as less.
    add_chart_row(small, "easy", {"size": "40", "width": "150 cm", "amount": "1 1/2 yd"})
    async with StashApp(small).run_test(size=(120, 40)) as pilot:
        await go(pilot, "3", "patterns")
        await until(pilot, lambda: "1.38 m of 150 cm" in shown(pilot))
        await pilot.press("enter")
        await until(pilot, lambda: place(pilot) == "parts")
        await settled(pilot)
        assert rows(pilot)[0].startswith("piece | front")
        await pilot.press("e")
        await fill_form(pilot, {"length": "98 cm"})
        await until(pilot, lambda: place(pilot) == "parts")
        await settled(pilot)
        assert "length=98 cm" in get_pattern(small, "easy").pieces[0].typed
        await pilot.press("down", "d")
        await until(pilot, lambda: place(pilot) == "confirm")
        await pilot.press("y")
        await settled(pilot)
        assert [piece.name for piece in get_pattern(small, "easy").pieces] == ["front"]
        await pilot.press("escape")
        await until(pilot, lambda: place(pilot) == "patterns")
        await settled(pilot)


async def test_a_chart_row_that_gives_way_is_told(small: Stash) -> None:
    add_chart_row(small, "easy", {"size": "40", "width": "150 cm", "amount": "1.4 m"})
    async with StashApp(small).run_test(size=(120, 40)) as pilot:
        await go(pilot, "3", "patterns")
        await pilot.press("enter")
        await until(pilot, lambda: place(pilot) == "parts")
        await settled(pilot)
        await pilot.press("a")
        await until(pilot, lambda: place(pilot) == "choose")
        await pilot.press("down", "down", "enter")
        await fill_form(pilot, {"size": "40", "width": "150 cm", "amount": "1.2 m"})
        told = "This replaced chart row 40, main (1.40 m of 150 cm, without nap)."
        await until(pilot, lambda: told in shown(pilot))


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_needs_over_all_widths(
    small: Stash, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(solving, "FEW", 99)
    async with StashApp(small).run_test(size=size) as pilot:
        await go(pilot, "3", "patterns")
        await pilot.press("w")
        await until(pilot, lambda: place(pilot) == "widths")
        await settled(pilot)
        found = rows(pilot)
        assert [row.split(" | ")[1] for row in found][:2] == ["90 cm", "106 cm"]
        assert all("laid out" in row for row in found)
        assert "size 42, shortest lay" in heading(pilot)
        assert "With nap" in shown(pilot)
        await pilot.press("z")
        await until(pilot, lambda: place(pilot) == "choose")
        await pilot.press("4", "enter")
        await until(pilot, lambda: "size 40" in heading(pilot))
