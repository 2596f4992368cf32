"""The shell: what is loaded before the first paint, colours, stopping, the lay's keys."""

from __future__ import annotations

import subprocess
import sys
from functools import partial
from threading import Event
from typing import TYPE_CHECKING, cast

from textual.filter import Monochrome
from tui_kit import app_of, go, place, rows, settled, shown, until

from stash.errors import StoppedError
from stash.services import planning
from stash.services.cloths import edit_cloth
from stash.services.makes import make_row
from stash.services.stash import Stash
from stash.tui.app import StashApp

if TYPE_CHECKING:
    from pathlib import Path

    import pytest

    from stash.report.records import PlanBook
    from stash.services.progress import Cancelled, Progress
    from stash.tui.screens.lay import LayScreen

FIRST_PAINT = """
import asyncio, sys
from pathlib import Path
from stash.services.stash import Stash
from stash.tui.app import StashApp
from stash.tui.screens.bench import BenchRoom

BenchRoom.reload = lambda self: None  # what the workers load comes after the first paint

async def main():
    with Stash.open(Path(sys.argv[1])) as stash:
        async with StashApp(stash).run_test(size=(80, 24)):
            pass

asyncio.run(main())
heavy = {"pandas", "highspy", "shapely", "alembic", "pint"}
print(sorted(heavy & {name.split(".")[0] for name in sys.modules}))
"""


def test_nothing_heavy_is_loaded_before_the_first_paint(tmp_path: Path) -> None:
    Stash.open(tmp_path / "s").close()
    done = subprocess.run(
        [sys.executable, "-c", FIRST_PAINT, str(tmp_path / "s")],
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.strip() == "[]"


async def test_the_shelf_shows_no_more_than_is_free(small: Stash) -> None:
    """2 1/4 yd are 2.0574 m."""
    edit_cloth(small, "olive", {"length": "2 1/4 yd"})
    async with StashApp(small).run_test(size=(120, 40)) as pilot:
        await go(pilot, "2", "shelf")
        [olive] = [row for row in rows(pilot) if "olive" in row]
        assert "| 2.05 m |" in olive


async def test_both_themes_show_the_same_words(small: Stash) -> None:
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await go(pilot, "5", "pairing")
        dark = shown(pilot)
        await pilot.press("ctrl+t")
        await settled(pilot)
        assert app_of(pilot).theme == "daylight"
        assert shown(pilot) == dark


async def test_without_colour_verdicts_are_still_told(
    small: Stash, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await go(pilot, "5", "pairing")
        assert "✓ fits" in shown(pilot)
        assert "▼ short" in shown(pilot) or "↔ too narrow" in shown(pilot)
        assert any(isinstance(one, Monochrome) for one in pilot.app._filters)


async def test_the_season_plan_can_be_stopped_and_the_keys_still_work(
    small: Stash, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun, stopped = Event(), Event()

    def slow(
        _: Stash, *, progress: Progress | None = None, cancelled: Cancelled | None = None
    ) -> PlanBook:
        begun.set()
        assert progress is not None
        assert cancelled is not None
        progress(3, 10, "lays worked out")
        while not cancelled():
            pass
        stopped.set()
        raise StoppedError("Stopped.")

    monkeypatch.setattr(planning, "plan_book", slow)
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await until(pilot, begun.is_set)
        await until(pilot, lambda: "3 of 10" in shown(pilot))
        assert "rain trousers" in rows(pilot)[0], "the queue is there while the plan is made"
        await pilot.press("x")
        await until(pilot, stopped.is_set)
        await until(pilot, lambda: "Stopped" in shown(pilot))


async def test_the_keys_of_the_lay(small: Stash) -> None:
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await go(pilot, "5", "pairing")
        await pilot.press("enter")
        await until(pilot, lambda: place(pilot) == "lay")
        await until(pilot, lambda: "need" in shown(pilot))
        assert "without nap" in shown(pilot)
        await pilot.press("n")
        await until(pilot, lambda: "with nap" in shown(pilot))
        await pilot.press("k")
        await until(pilot, lambda: "open" in shown(pilot).splitlines()[1])
        await pilot.press("w")
        await until(pilot, lambda: place(pilot) == "form")
        await pilot.press(*"120 cm", "ctrl+s")
        await until(pilot, lambda: "usable 118 cm" in shown(pilot))
        await pilot.press("escape")
        await until(pilot, lambda: place(pilot) == "pairing")


async def test_one_key_goes_round_every_kind_of_lay(small: Stash) -> None:
    def kind() -> str:
        return shown(pilot).splitlines()[1].rpartition("   ")[2].strip()

    def is_kind(wanted: str) -> bool:
        return kind() == wanted

    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await go(pilot, "5", "pairing")
        await pilot.press("enter")
        await until(pilot, lambda: place(pilot) == "lay")
        await settled(pilot)
        best = kind()
        assert best.startswith("best: ")
        for wanted in ("open", "folded", "gate", "crossways", best):
            await pilot.press("k")
            await until(pilot, partial(is_kind, wanted))
        await pilot.press("k", "k", "k")
        await until(pilot, partial(is_kind, "gate"))
        await pilot.press("n", "k")
        await until(pilot, lambda: "nap cannot be folded across" in " ".join(shown(pilot).split()))


async def test_a_number_leaves_the_lay_for_another_room(small: Stash) -> None:
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await go(pilot, "5", "pairing")
        await pilot.press("enter")
        await until(pilot, lambda: place(pilot) == "lay")
        await go(pilot, "2", "shelf")
        await go(pilot, "5", "pairing")


async def test_promising_from_a_lay_holds_what_that_lay_needs(small: Stash) -> None:
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await go(pilot, "5", "pairing")
        await pilot.press("enter")
        await until(pilot, lambda: place(pilot) == "lay")
        await settled(pilot)
        await pilot.press("k", "k")
        await until(pilot, lambda: "folded" in shown(pilot).splitlines()[1])
        await settled(pilot)
        laid = cast("LayScreen", pilot.app.screen).laid
        await pilot.press("p")
        await until(pilot, lambda: "is promised" in shown(pilot))
    assert laid is not None
    held = make_row(small, "rain trousers").held
    assert [one.promise.length for one in held] == [laid.cut_from_shelf]
