"""Pieces from a file in the Patterns room: looked at, then taken or left, by keyboard."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from tui_kit import SIZES, fill_form, go, place, settled, shown, until

from stash.services.patterns import add_pattern, get_pattern
from stash.tui.app import StashApp

if TYPE_CHECKING:
    from pathlib import Path

    from stash.services.stash import Stash

DRAWN = """<svg xmlns="http://www.w3.org/2000/svg" width="9in" height="6in" viewBox="0 0 900 600">
<path d="M0,0 H200 V300 H0 Z"><title>front | cut 2</title></path>
<path id="back" d="M300,0 H500 V300 H300 Z"/></svg>"""


@pytest.mark.parametrize("size", SIZES)
async def test_pieces_are_shown_before_they_are_taken(
    empty_stash: Stash, tmp_path: Path, size: tuple[int, int]
) -> None:
    add_pattern(empty_stash, {"name": "easy skirt", "kind": "flared skirt", "sizes": "38, 40"})
    file = tmp_path / "skirt.svg"
    file.write_text(DRAWN, encoding="utf-8")
    async with StashApp(empty_stash).run_test(size=size) as pilot:
        await go(pilot, "3", "patterns")
        await pilot.press("i")
        await fill_form(pilot, {"file": str(file), "keep_as": "40"})
        await until(pilot, lambda: place(pilot) == "confirm")
        assert "front" in shown(pilot)
        assert "Take 2 pieces" in shown(pilot)
        assert "2 back: nothing says how many are cut" in shown(pilot)
        await pilot.press("n")
        await settled(pilot)
        assert get_pattern(empty_stash, "easy skirt").pieces == ()
        await pilot.press("i")
        await fill_form(pilot, {"file": str(file), "keep_as": "40", "pick": "1"})
        await until(pilot, lambda: place(pilot) == "confirm")
        await pilot.press("y")
        await settled(pilot)
        kept = get_pattern(empty_stash, "easy skirt")
        assert [(p.name, p.size, p.copies) for p in kept.pieces] == [("front", "40", 2)]


async def test_a_file_that_cannot_be_read_is_told_in_the_form(
    empty_stash: Stash, tmp_path: Path
) -> None:
    add_pattern(empty_stash, {"name": "easy skirt", "kind": "flared skirt"})
    async with StashApp(empty_stash).run_test(size=(100, 40)) as pilot:
        await go(pilot, "3", "patterns")
        await pilot.press("i")
        await fill_form(pilot, {"file": str(tmp_path / "gone.pdf")})
        await settled(pilot)
        assert place(pilot) == "form"
        assert "There is no file" in shown(pilot)
