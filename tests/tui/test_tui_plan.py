"""The Plan by keyboard: choices, what moves, accepting, supposing."""

from __future__ import annotations

from threading import Event
from typing import TYPE_CHECKING

from tui_kit import heading, place, rows, settled, shown, until

from stash.errors import StoppedError
from stash.garment.make import State
from stash.services import planning
from stash.services.makes import get_make
from stash.services.preferences import change_settings
from stash.services.whole import read_whole
from stash.tui.app import StashApp

if TYPE_CHECKING:
    import pytest
    from textual.pilot import Pilot

    from stash.report.records import PlanBook
    from stash.services.progress import Cancelled, Progress
    from stash.services.stash import Stash


async def open_plan(pilot: Pilot[None]) -> None:
    await settled(pilot)
    await pilot.press("v")
    await until(pilot, lambda: place(pilot) == "plan")
    await settled(pilot)


async def test_the_plan_is_read_and_accepted(small: Stash) -> None:
    async with StashApp(small).run_test(size=(100, 30)) as pilot:
        await open_plan(pilot)
        assert "rain trousers" in rows(pilot)[0]
        assert "olive cord" in rows(pilot)[0]
        assert "no better plan exists" in heading(pilot)
        assert "suits" in shown(pilot)
        await pilot.press("a")
        await until(pilot, lambda: "1 cloth is promised" in shown(pilot))
        await settled(pilot)
    (held,) = read_whole(small).promises
    assert not held.pinned
    assert get_make(small, "rain").state is State.PROMISED


async def test_one_make_is_accepted_and_undone(small: Stash) -> None:
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await open_plan(pilot)
        await pilot.press("enter")
        await until(pilot, lambda: "1 cloth is promised" in shown(pilot))
        await settled(pilot)
        await pilot.press("ctrl+z")
        await until(pilot, lambda: not read_whole(small).promises)
        await settled(pilot)


async def test_cloth_is_supposed_in_yards_where_it_is_sold_so(small: Stash) -> None:
    change_settings(small, {"units": "imperial"})
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await open_plan(pilot)
        await pilot.press("w")
        await until(pilot, lambda: "2 yd of a new cloth, 45 in wide" in shown(pilot))
        await pilot.press("end", "enter")
        await until(pilot, lambda: "3 yd of new 60 in" in shown(pilot))


async def test_supposing_shows_what_moves_and_escape_drops_it(small: Stash) -> None:
    async with StashApp(small).run_test(size=(100, 30)) as pilot:
        await open_plan(pilot)
        await pilot.press("w")
        await until(pilot, lambda: place(pilot) == "choose")
        await pilot.press("down", "enter")
        await until(pilot, lambda: "supposed" in heading(pilot))
        await settled(pilot)
        assert "to be bought" in rows(pilot)[0]
        assert "moved" in rows(pilot)[0]
        assert "1 moved" in heading(pilot)
        assert "Moved:" in shown(pilot)
        await pilot.press("a")
        await settled(pilot)
        assert read_whole(small).promises == (), "what is only supposed is not accepted"
        await pilot.press("escape")
        await until(pilot, lambda: "supposed" not in heading(pilot))
        await settled(pilot)
        assert "olive cord" in rows(pilot)[0]
        await pilot.press("escape")
        await until(pilot, lambda: place(pilot) == "bench")


async def test_planning_shows_progress_and_is_stopped(
    small: Stash, monkeypatch: pytest.MonkeyPatch
) -> None:
    stopped = Event()
    real = planning.plan_book

    def slow(
        stash: Stash,
        *,
        what_if: tuple[str, ...] = (),
        progress: Progress | None = None,
        cancelled: Cancelled | None = None,
    ) -> PlanBook:
        if not what_if:
            return real(stash, progress=progress, cancelled=cancelled)
        assert progress is not None
        assert cancelled is not None
        progress(3, 10, "lays worked out")
        while not cancelled():
            pass
        stopped.set()
        raise StoppedError("Stopped.")

    monkeypatch.setattr(planning, "plan_book", slow)
    async with StashApp(small).run_test(size=(100, 30)) as pilot:
        await open_plan(pilot)
        await pilot.press("w")
        await until(pilot, lambda: place(pilot) == "choose")
        await pilot.press("down", "enter")
        await until(pilot, lambda: "3 of 10" in shown(pilot))
        await pilot.press("x")
        await until(pilot, stopped.is_set)
        await until(pilot, lambda: "Stopped" in shown(pilot))
