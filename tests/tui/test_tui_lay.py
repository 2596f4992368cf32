"""The Lay by keyboard: larger and moved, with a gap, in another kind, searched for longer."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from tui_kit import SIZES, fill_form, go, heading, place, rows, settled, shown, until

from stash.services.cloths import add_cloth
from stash.services.makes import add_make
from stash.services.patterns import add_pattern, add_piece
from stash.tui.app import StashApp

if TYPE_CHECKING:
    from textual.pilot import Pilot

    from stash.services.stash import Stash


@pytest.fixture
def skirt(empty_stash: Stash) -> Stash:
    """Two rectangles of 60 x 62 cm on linen of 138 cm between its selvedges, 3 m of it."""
    add_pattern(empty_stash, {"name": "quay skirt", "kind": "straight skirt"})
    half = {"name": "half", "width": "60 cm", "length": "62 cm", "copies": "2"}
    add_piece(empty_stash, "quay skirt", "rectangle", half)
    add_make(empty_stash, {"name": "market skirt", "pattern": "quay skirt"})
    linen = {"name": "linen", "structure": "woven", "width": "140 cm", "length": "3 m"}
    add_cloth(empty_stash, linen | {"washed": "yes"})
    return empty_stash


async def to_lay(pilot: Pilot[None]) -> None:
    await settled(pilot)
    await go(pilot, "4", "makes")
    await go(pilot, "l", "lay")
    await until(pilot, lambda: "need" in shown(pilot))


def ruler(pilot: Pilot[None]) -> list[int]:
    """The numbers of the ruler along the cloth."""
    line = next(line for line in shown(pilot).splitlines() if re.match(r" +\d+ cm( |$)", line))
    return [int(number) for number in line.replace("cm", "").split()]


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_a_larger_drawing_is_moved_and_says_where_it_is(
    skirt: Stash, size: tuple[int, int]
) -> None:
    async with StashApp(skirt).run_test(size=size) as pilot:
        await to_lay(pilot)
        assert " of 62 cm along" not in shown(pilot)
        assert ruler(pilot)[0] == 0
        await pilot.press("plus", "plus", "plus", "plus", "plus", "plus")
        await until(pilot, lambda: "8×" in shown(pilot))
        await pilot.press(*["left"] * 2, *["up"] * 12)
        await until(pilot, lambda: re.search(r"8× 0–\d+ of 62 cm along, 0–", shown(pilot)))
        await pilot.press(*["right"] * 4, *["down"] * 16)
        await until(pilot, lambda: "–62 of 62 cm along" in shown(pilot))
        assert "–138 of 138 cm across" in shown(pilot)
        assert ruler(pilot)[0] > 0
        await pilot.press("f")
        await until(pilot, lambda: "along" not in shown(pilot))
        assert ruler(pilot)[0] == 0


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_a_kind_is_chosen_from_the_table(skirt: Stash, size: tuple[int, int]) -> None:
    """By hand: end to end each layer is 62 cm long, so 124 cm of cloth, 62 cm longer."""
    async with StashApp(skirt).run_test(size=size) as pilot:
        await to_lay(pilot)
        await go(pilot, "t", "kinds")
        table = {row.split(" | ")[0]: row for row in rows(pilot)}
        assert list(table) == ["open", "folded", "gate", "crossways"]
        assert "shortest" in table["folded"]
        assert "as short" in table["open"]
        assert "1.24 m" in table["crossways"]
        assert "62 cm longer" in table["crossways"]
        await pilot.press("end", "enter")
        await until(pilot, lambda: place(pilot) == "lay")
        await until(pilot, lambda: "crossways" in shown(pilot))
        await until(pilot, lambda: "need 1.24 m" in shown(pilot))


async def test_a_kind_that_cannot_be_laid_says_why_and_is_not_taken(skirt: Stash) -> None:
    async with StashApp(skirt).run_test(size=(80, 24)) as pilot:
        await to_lay(pilot)
        await pilot.press("n")
        await until(pilot, lambda: "with nap" in shown(pilot))
        await settled(pilot)
        await go(pilot, "t", "kinds")
        assert "cannot be laid" in rows(pilot)[-1]
        await pilot.press("end")
        await until(pilot, lambda: "upside down" in shown(pilot))
        await pilot.press("enter")
        await until(pilot, lambda: "Choose another kind" in shown(pilot))
        assert place(pilot) == "kinds"
        await pilot.press("escape")
        await until(pilot, lambda: place(pilot) == "lay")
        assert "with nap" in shown(pilot)


async def test_a_gap_is_kept_between_pieces(skirt: Stash) -> None:
    """Two pieces of 60 cm with 20 cm between them are wider than the cloth: 62 + 10 + 62 cm."""
    async with StashApp(skirt).run_test(size=(80, 24)) as pilot:
        await to_lay(pilot)
        await pilot.press("k")
        await until(pilot, lambda: "open" in shown(pilot))
        await settled(pilot)
        await pilot.press("w")
        await fill_form(pilot, {"width": "122 cm"})
        await until(pilot, lambda: "bare width" in heading(pilot))
        await until(pilot, lambda: "need 0.62 m" in shown(pilot))
        await pilot.press("g")
        await fill_form(pilot, {"gap": "10 cm"})
        await until(pilot, lambda: "need 1.34 m" in shown(pilot))
        assert "100 mm apart" in shown(pilot)
        await pilot.press("g")
        await fill_form(pilot, {"gap": ""})
        await until(pilot, lambda: "need 0.62 m" in shown(pilot))
        assert "apart" not in shown(pilot)


async def test_a_gap_that_is_no_length_is_told_in_the_form(skirt: Stash) -> None:
    async with StashApp(skirt).run_test(size=(80, 24)) as pilot:
        await to_lay(pilot)
        await pilot.press("g")
        await fill_form(pilot, {"gap": "much"})
        await until(pilot, lambda: "much" in shown(pilot))
        assert place(pilot) == "form"


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_a_search_shows_its_progress_and_ends_at_a_key(
    small: Stash, size: tuple[int, int]
) -> None:
    async with StashApp(small).run_test(size=size) as pilot:
        await to_lay(pilot)
        await pilot.press("w")  # so wide that no bound ends the search
        await fill_form(pilot, {"width": "115 cm"})
        await until(pilot, lambda: "need 1.16" not in shown(pilot))
        await settled(pilot)
        await pilot.press("s")
        await fill_form(pilot, {"seconds": "600"})
        await until(pilot, lambda: "of 600  seconds, shortest so far" in shown(pilot), 120)
        await pilot.press("x")
        await settled(pilot)
        await until(pilot, lambda: "shorter" in shown(pilot))
        assert place(pilot) == "lay"
        assert "need" in shown(pilot)


async def test_a_lay_as_long_as_its_longest_piece_cannot_be_shorter(skirt: Stash) -> None:
    async with StashApp(skirt).run_test(size=(80, 24)) as pilot:
        await to_lay(pilot)
        await pilot.press("s")
        await fill_form(pilot, {"seconds": "1"})
        await until(pilot, lambda: "It cannot be shorter" in shown(pilot))


async def test_ten_seconds_are_offered_and_escape_looks_no_longer(skirt: Stash) -> None:
    async with StashApp(skirt).run_test(size=(80, 24)) as pilot:
        await to_lay(pilot)
        before = shown(pilot)
        await pilot.press("s")
        await until(pilot, lambda: place(pilot) == "form")
        await until(pilot, lambda: "10" in shown(pilot))
        await pilot.press("escape")
        await until(pilot, lambda: place(pilot) == "lay")
        assert shown(pilot) == before


async def test_a_pattern_keeps_its_own_kinds(skirt: Stash) -> None:
    """Its number is that of a make, too: the make must not be shown in its place."""
    async with StashApp(skirt).run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await go(pilot, "3", "patterns")
        await pilot.press("l")
        await fill_form(pilot, {"width": "140 cm"})
        await until(pilot, lambda: "quay skirt" in heading(pilot))
        await settled(pilot)
        await go(pilot, "t", "kinds")
        assert "quay skirt" in heading(pilot)


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_the_bound_stands_with_the_lay_and_where_to_fold(
    skirt: Stash, size: tuple[int, int]
) -> None:
    """By hand: two of 60 cm lie side by side on 138 cm, and no lay is shorter than one of 62 cm.
    Folded end to end each layer holds one, so the fold lies 62 cm from the cut end."""
    async with StashApp(skirt).run_test(size=size) as pilot:
        await to_lay(pilot)
        assert "cannot be shorter than 0.62 m" in shown(pilot)
        await go(pilot, "t", "kinds")
        await pilot.press("end", "enter")
        await until(pilot, lambda: "need 1.24 m" in shown(pilot))
        assert "fold across the cloth, 62 cm from its cut end" in shown(pilot)
