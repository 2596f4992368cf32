"""What the tests of the terminal app share: waiting for a condition, typing into forms."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING, cast

from textual.widgets import Static

from stash.tui.screens.form import FormScreen
from stash.tui.widgets.rows import Rows

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from textual.pilot import Pilot

    from stash.tui.app import StashApp

SIZES = [(80, 24), (120, 40)]


async def until(pilot: Pilot[None], test: Callable[[], object], seconds: float = 30.0) -> None:
    """Wait until `test` holds; a screen that never comes fails the test with what is shown."""
    try:
        async with asyncio.timeout(seconds):
            while not test():
                await pilot.pause(0.01)
    except TimeoutError:
        raise AssertionError(f"waited in vain; the screen shows:\n{shown(pilot)}") from None


def app_of(pilot: Pilot[None]) -> StashApp:
    return cast("StashApp", pilot.app)


def place(pilot: Pilot[None]) -> str:
    return cast("str", getattr(pilot.app.screen, "place", ""))


def shown(pilot: Pilot[None]) -> str:
    """The screen as plain text."""
    strips = pilot.app.screen._compositor.render_strips()
    return "\n".join("".join(segment.text for segment in strip).rstrip() for strip in strips)


def heading(pilot: Pilot[None]) -> str:
    return str(pilot.app.screen.query_one("#heading", Static).render())


def rows(pilot: Pilot[None]) -> list[str]:
    """The rows of the table, their cells with a bar between."""
    table = pilot.app.screen.query_one(Rows)
    return [" | ".join(str(cell) for cell in table.get_row_at(i)) for i in range(table.row_count)]


async def settled(pilot: Pilot[None]) -> None:
    """Wait until no worker works and every message is handled."""
    await until(pilot, lambda: all(worker.is_finished for worker in pilot.app.workers), 120)
    await pilot.pause()


async def go(pilot: Pilot[None], key: str, room: str) -> None:
    await pilot.press(key)
    await until(pilot, lambda: place(pilot) == room)
    await settled(pilot)


async def fill_form(pilot: Pilot[None], texts: Mapping[str, str]) -> None:
    """Type into the open form, going from field to field by Tab, and save it."""
    await until(pilot, lambda: isinstance(pilot.app.screen, FormScreen))
    form = cast("FormScreen", pilot.app.screen)
    await until(pilot, lambda: form.focused is not None)
    for key, row in form.rows.items():
        if key in texts:
            assert form.focused is row.input, f"Tab did not lead to {key}"
            row.input.value = texts[key]
        await pilot.press("tab")
    await pilot.press("ctrl+s")
