"""From an empty stash to a promised cloth, by keyboard only."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from tui_kit import SIZES, fill_form, go, heading, place, rows, settled, shown, until

from stash.services.makes import make_row
from stash.tui.app import StashApp

if TYPE_CHECKING:
    from textual.pilot import Pilot

    from stash.services.stash import Stash

CLOTH = {
    "name": "Slate twill",
    "structure": "woven",
    "width": '58/60"',
    "length": "2 1/2 yd",
    "fibres": "100% cotton",
    "weight": "8 oz",
    "washed": "yes",
}


async def kept(pilot: Pilot[None], room: str) -> None:
    """The form is gone and the room has read again."""
    await until(pilot, lambda: place(pilot) == room)
    await settled(pilot)


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_from_an_empty_stash_to_a_shorter_buying_list(
    empty_stash: Stash, size: tuple[int, int]
) -> None:
    async with StashApp(empty_stash).run_test(size=size) as pilot:
        await settled(pilot)
        assert "Press 2 and then a" in shown(pilot)

        await go(pilot, "3", "patterns")
        await pilot.press("a")
        await fill_form(pilot, {"name": "Plain bag", "kind": "bag"})
        await kept(pilot, "patterns")
        assert rows(pilot)[0].startswith("Plain bag | bag")
        await pilot.press("p")
        await until(pilot, lambda: place(pilot) == "choose")
        await pilot.press("enter")
        texts = {"name": "Body", "length": "90 cm", "width": "40 cm"}
        await fill_form(pilot, texts)
        await kept(pilot, "patterns")
        assert "Body" in shown(pilot)

        await go(pilot, "4", "makes")
        await pilot.press("a")
        await fill_form(pilot, {"name": "Market bag", "pattern": "Plain bag"})
        await kept(pilot, "makes")
        await go(pilot, "6", "buying")
        before = rows(pilot)
        assert any(row.startswith("cloth") and "Market bag" in row for row in before)

        await go(pilot, "2", "shelf")
        await pilot.press("a")
        await fill_form(pilot, CLOTH)
        await kept(pilot, "shelf")
        assert "Slate twill" in rows(pilot)[0]

        await go(pilot, "5", "pairing")
        assert "Market bag" in heading(pilot)
        assert "Slate twill | ✓ fits" in rows(pilot)[0]
        await pilot.press("enter")
        await until(pilot, lambda: place(pilot) == "lay")
        await settled(pilot)
        assert "Body" in shown(pilot)
        assert "0 cm" in shown(pilot)
        await pilot.press("p")
        await settled(pilot)
        assert "is promised to Market bag" in shown(pilot)
        assert len(make_row(empty_stash, "Market bag").held) == 1
        await pilot.press("escape")
        await until(pilot, lambda: place(pilot) == "pairing")

        await go(pilot, "6", "buying")
        after = rows(pilot)
        assert len(after) < len(before)
        assert not any(row.startswith("cloth") for row in after)
        await go(pilot, "1", "bench")
        assert "✓ ready" in rows(pilot)[0]
        assert make_row(empty_stash, "Market bag").held[0].cloth == "Slate twill"
