"""Pieces from a file in the Patterns room: looked at, then taken or left, by keyboard."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from tui_kit import SIZES, fill_form, go, place, rows, settled, shown, until

from stash.services.patterns import add_pattern, get_pattern
from stash.tui.app import StashApp

if TYPE_CHECKING:
    from pathlib import Path

    from textual.pilot import Pilot

    from stash.services.stash import Stash

DRAWN = """<svg xmlns="http://www.w3.org/2000/svg" width="9in" height="6in" viewBox="0 0 900 600">
<path d="M0,0 H200 V300 H0 Z"><title>front | cut 2</title></path>
<path id="back" d="M300,0 H500 V300 H300 Z"/>
<path id="yoke" d="M600,0 H800 V300 H600"/></svg>"""
SIZES_DRAWN = """<svg xmlns="http://www.w3.org/2000/svg" width="9in" height="6in"
 viewBox="0 0 900 600"><g id="size 12"><path id="leg" d="M0,0 H200 V300 H0 Z"/></g>
<g id="size 14"><path id="leg2" d="M0,0 H210 V300 H0 Z"/></g></svg>"""


async def _look(pilot: Pilot[None], file: Path, text: str) -> None:
    file.write_text(text, encoding="utf-8")
    await go(pilot, "3", "patterns")
    await pilot.press("i")
    await fill_form(pilot, {"file": str(file)})
    await until(pilot, lambda: place(pilot) == "found")
    await settled(pilot)


@pytest.mark.parametrize("size", SIZES)
async def test_outlines_are_drawn_and_chosen_before_any_is_kept(
    empty_stash: Stash, tmp_path: Path, size: tuple[int, int]
) -> None:
    add_pattern(empty_stash, {"name": "easy skirt", "kind": "flared skirt", "sizes": "38, 40"})
    async with StashApp(empty_stash).run_test(size=size) as pilot:
        await _look(pilot, tmp_path / "skirt.svg", DRAWN)
        assert "2 of 3 outlines chosen, ✗ 1 cannot be used" in shown(pilot)
        assert [row[:10] for row in rows(pilot)] == ["✓ | 1 | fr", "✓ | 2 | ba", "✗ | 3 | yo"]
        await pilot.press("down")
        await until(pilot, lambda: "? nothing says how many are cut" in shown(pilot))
        assert any("\u2801" <= letter <= "\u28ff" for letter in shown(pilot))
        await pilot.press("space", "down")
        await until(pilot, lambda: "3 yoke cannot be used" in shown(pilot))
        await pilot.press("space", "k", "down", "down", "enter")
        await until(pilot, lambda: "Kept as size 40" in shown(pilot))
        assert get_pattern(empty_stash, "easy skirt").pieces == ()
        await pilot.press("enter")
        await until(pilot, lambda: place(pilot) == "patterns")
        await settled(pilot)
        assert "Kept 1 piece for easy skirt" in shown(pilot)
        kept = get_pattern(empty_stash, "easy skirt")
        assert [(p.name, p.size, p.copies) for p in kept.pieces] == [("front", "40", 2)]


async def test_one_of_the_drawn_sizes_is_kept_as_one_of_the_patterns(
    empty_stash: Stash, tmp_path: Path
) -> None:
    add_pattern(empty_stash, {"name": "easy skirt", "kind": "flared skirt", "sizes": "38, 40"})
    async with StashApp(empty_stash).run_test(size=(80, 24)) as pilot:
        await _look(pilot, tmp_path / "skirt.svg", SIZES_DRAWN)
        await pilot.press("k", "down", "enter", "enter")
        await until(pilot, lambda: "z shows only one of them" in shown(pilot))
        await pilot.press("z", "down", "down", "enter")
        await settled(pilot)
        assert "only 14 is shown" in shown(pilot)
        # What was said about the file may be changed, and it is read anew.
        await pilot.press("r")
        await fill_form(pilot, {"seam": "15mm"})
        await until(pilot, lambda: place(pilot) == "found")
        await pilot.press("enter")
        await until(pilot, lambda: place(pilot) == "patterns")
        await settled(pilot)
        (leg,) = get_pattern(empty_stash, "easy skirt").pieces
        assert (leg.size, leg.seam) == ("38", 15)


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
