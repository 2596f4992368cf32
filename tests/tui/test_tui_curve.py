"""The Curve by keyboard: from the Lay, over the cloths, back onto one of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from tui_kit import SIZES, heading, place, settled, shown, until

from stash.pairing import blocked
from stash.services.cloths import add_cloth
from stash.services.makes import add_make
from stash.services.patterns import add_chart_row, add_pattern
from stash.tui.app import StashApp

if TYPE_CHECKING:
    from textual.pilot import Pilot

    from stash.services.stash import Stash


@pytest.fixture
def charted(empty_stash: Stash, monkeypatch: pytest.MonkeyPatch) -> Stash:
    """Two cloths and a make that has only a chart and no block: nothing has to be laid out."""
    monkeypatch.setattr(blocked, "block_of", lambda *_: ())
    add_pattern(empty_stash, {"name": "quay skirt", "kind": "straight skirt", "sizes": "M"})
    row = {"size": "M", "width": "140 cm", "amount": "1.5 m"}
    add_chart_row(empty_stash, "quay skirt", row)
    add_make(empty_stash, {"name": "market skirt", "pattern": "quay skirt", "size": "M"})
    for name, width, length in (("long linen", "150 cm", "2 m"), ("short lawn", "142 cm", "1 m")):
        texts = {"name": name, "structure": "woven", "width": width, "length": length}
        add_cloth(empty_stash, texts | {"washed": "yes"})
    return empty_stash


async def to_curve(pilot: Pilot[None]) -> None:
    await settled(pilot)
    for key, where in (("5", "pairing"), ("enter", "lay"), ("c", "curve")):
        await pilot.press(key)
        await until(pilot, lambda where=where: place(pilot) == where)  # type: ignore[misc]
        await settled(pilot)


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_arrow_keys_name_each_cloth(charted: Stash, size: tuple[int, int]) -> None:
    async with StashApp(charted).run_test(size=size) as pilot:
        await to_curve(pilot)
        assert "market skirt" in heading(pilot)
        # The Lay lies on the better cloth, the long one: the curve begins there.
        assert "long linen" in shown(pilot)
        assert "need 1.50 m" in shown(pilot)
        assert "free 2.00 m" in shown(pilot)
        assert "0.50 m spare" in shown(pilot)
        await pilot.press("left")
        await until(pilot, lambda: "short lawn" in shown(pilot))
        assert "short by 0.50 m" in shown(pilot)
        await pilot.press("right")
        await until(pilot, lambda: "long linen" in shown(pilot))
        for words in ("◆", "cm", "0 m"):
            assert words in shown(pilot)


async def test_enter_lays_the_make_on_the_chosen_cloth(charted: Stash) -> None:
    async with StashApp(charted).run_test(size=(80, 24)) as pilot:
        await to_curve(pilot)
        await pilot.press("left", "enter")
        await until(pilot, lambda: place(pilot) == "lay")
        await until(pilot, lambda: "on short lawn" in heading(pilot))


async def test_escape_leaves_the_lay_as_it_was(charted: Stash) -> None:
    async with StashApp(charted).run_test(size=(80, 24)) as pilot:
        await to_curve(pilot)
        await pilot.press("left", "escape")
        await until(pilot, lambda: place(pilot) == "lay")
        assert "on long linen" in heading(pilot)


async def test_work_can_be_stopped_and_begun_again(small: Stash) -> None:
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("5")
        await until(pilot, lambda: place(pilot) == "pairing")
        await settled(pilot)
        await pilot.press("enter")
        await until(pilot, lambda: place(pilot) == "lay")
        await settled(pilot)
        await pilot.press("c")
        await until(pilot, lambda: "widths laid out" in shown(pilot))
        await pilot.press("x")
        await until(pilot, lambda: "Stopped" in shown(pilot))
        await settled(pilot)
        await pilot.press("escape")
        await until(pilot, lambda: place(pilot) == "lay")
