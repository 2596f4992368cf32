"""The terminal app: opens rooms by name, holds the stash, and changes nothing by itself."""

from __future__ import annotations

from functools import partial
from importlib import import_module
from multiprocessing import resource_tracker
from typing import TYPE_CHECKING, Any, ClassVar, cast

from textual.app import App
from textual.events import ScreenResume

from stash.tui.actions import ROOMS, bindings
from stash.tui.palette import ActionsProvider
from stash.tui.season import Season
from stash.tui.theme import DAYLIGHT, EVENING

if TYPE_CHECKING:
    from collections.abc import Callable

    from textual.screen import Screen

    from stash.services.stash import Stash
    from stash.tui.actions import RoomEntry
    from stash.tui.screens.room import Room


def open_room(room: RoomEntry) -> Screen[Any]:
    """The screen of a room, imported the first time it is opened."""
    return cast("Screen[Any]", getattr(import_module(room.module), room.screen)())


class StashApp(App[None]):
    """Rooms side by side; forms, lays and questions open over them."""

    TITLE = "stash"
    CSS_PATH = "app.tcss"
    BINDINGS = bindings("app")
    MODES: ClassVar[dict[str, str | Callable[[], Screen[Any]]]] = {
        room.name: partial(open_room, room) for room in ROOMS
    }
    DEFAULT_MODE = "bench"
    COMMANDS: ClassVar[set[Any]] = {ActionsProvider}
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (100, "-wide")]  # noqa: RUF012 - as Textual has it

    def __init__(self, stash: Stash) -> None:
        # Lays are worked out in processes of their own. What keeps track of those inherits the
        # error stream, and must start before Textual puts one without a file in its place.
        resource_tracker.ensure_running()
        super().__init__()
        self.stash = stash
        self.season = Season(stash)
        self.revision = 0
        """Counts the changes made; a room reads again when it has seen an older one."""
        for theme in (EVENING, DAYLIGHT):
            self.register_theme(theme)
        self.theme = EVENING.name

    def changed(self) -> None:
        """Something was kept or removed: every room is out of date."""
        self.revision += 1

    async def open(self, name: str) -> Room:
        """Go to a room, closing whatever lies over the rooms between."""
        await self._leave_overlays()
        await self.switch_mode(name)
        return cast("Room", self.screen)

    async def _leave_overlays(self) -> None:
        while len(self.screen_stack) > 1:
            await self.pop_screen()

    async def action_room(self, name: str) -> None:
        """Open a room by its name."""
        await self.open(name)

    def action_help(self) -> None:
        """Show every key of the screen one is on."""
        from stash.tui.screens.help import HelpScreen

        self.push_screen(HelpScreen(getattr(self.screen, "place", "app")))

    def action_light_or_dark(self) -> None:
        """Change between the two themes."""
        self.theme = DAYLIGHT.name if self.theme == EVENING.name else EVENING.name
        self.changed()
        self.screen.post_message(ScreenResume())


def run_app(stash: Stash) -> None:
    """Run the terminal app on an open stash until the person quits."""
    StashApp(stash).run()
