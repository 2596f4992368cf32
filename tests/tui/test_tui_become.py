"""What a cloth could become, by keyboard from the Shelf."""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING, Any

from tui_kit import go, heading, place, rows, settled, shown, until

from stash.services import pairing
from stash.services.patterns import add_pattern
from stash.tui.app import StashApp

if TYPE_CHECKING:
    import pytest

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


async def test_a_lay_asked_for_too_soon_opens_once_it_is_there(
    small: Stash, monkeypatch: pytest.MonkeyPatch
) -> None:
    real, let_on = pairing.become, threading.Event()

    def slow(*args: Any, **options: Any) -> object:
        assert let_on.wait(120)
        return real(*args, **options)

    monkeypatch.setattr(pairing, "become", slow)
    async with StashApp(small).run_test(size=(110, 34)) as pilot:
        await settled(pilot)
        await pilot.press("2")
        await until(pilot, lambda: "laying it out" in shown(pilot))
        await pilot.press("l")
        await until(pilot, lambda: "It is still being laid out" in shown(pilot))
        assert "could be cut" not in shown(pilot)
        assert place(pilot) == "shelf"
        let_on.set()
        await until(pilot, lambda: place(pilot) == "lay")
        await settled(pilot)
        assert "on blue stripe" in heading(pilot)
        await pilot.press("escape")
        await until(pilot, lambda: place(pilot) == "shelf")
        assert "still being laid out" not in shown(pilot)


async def test_a_lay_asked_for_just_after_moving_on_is_that_of_the_new_cloth(
    small: Stash,
) -> None:
    async with StashApp(small).run_test(size=(110, 34)) as pilot:
        await settled(pilot)
        await go(pilot, "2", "shelf")
        await pilot.press("down", "l")
        await until(pilot, lambda: place(pilot) == "lay")
        await settled(pilot)
        assert "on olive cord" in heading(pilot)
