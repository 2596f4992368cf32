"""The terminal app: opens rooms by name, holds the stash, and changes nothing by itself."""

from __future__ import annotations

from functools import partial
from importlib import import_module
from multiprocessing import resource_tracker
from typing import TYPE_CHECKING, Any, ClassVar, cast

from textual import on
from textual.app import App
from textual.events import AppFocus, ScreenResume

from stash.errors import StashError
from stash.services.watching import Watcher
from stash.tui.actions import ROOMS, bindings
from stash.tui.messages import Changed, ChangedElsewhere
from stash.tui.palette import ActionsProvider
from stash.tui.season import Season
from stash.tui.theme import DAYLIGHT, EVENING

if TYPE_CHECKING:
    from collections.abc import Callable

    from textual.screen import Screen

    from stash.services.stash import Stash
    from stash.services.undoing import TurnedBack
    from stash.tui.actions import RoomEntry
    from stash.tui.screens.room import Room

WATCH_EVERY = 2.0
"""Seconds between two looks at what other programs changed."""


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
        self._watcher = Watcher(stash)
        self.untold = stash.warning
        """What is not well with the stash, until the first room has said it."""
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

    def on_mount(self) -> None:
        """Look from now on whether other programs change the stash."""
        self._watch()
        self.set_interval(WATCH_EVERY, self._watch)

    @on(AppFocus)
    def _watch(self) -> None:
        if not any(worker.group == "watch" and not worker.is_finished for worker in self.workers):
            self.run_worker(self._look, thread=True, group="watch", name="watch")

    def _look(self) -> None:
        try:
            news = self._watcher.news()
        except StashError:  # busy: the next look will do
            return
        if news is not None:
            self.post_message(ChangedElsewhere(news.sentence))

    @on(ChangedElsewhere)
    def _note_news(self, message: ChangedElsewhere) -> None:
        room = self._room()
        if room is None:
            self.changed()
        else:
            room.post_message(Changed(message.what))

    def _room(self) -> Room | None:
        """The room one is in, if nothing lies over it."""
        from stash.tui.screens.room import Room

        return self.screen if isinstance(self.screen, Room) else None

    def action_undo(self) -> None:
        """Undo the last change."""
        from stash.services.undoing import undo

        self._turn_back(undo)

    def action_redo(self) -> None:
        """Do again what was undone last."""
        from stash.services.undoing import redo

        self._turn_back(redo)

    def _turn_back(self, how: Callable[[Stash], TurnedBack]) -> None:
        room = self._room()
        if room is None:
            self.notify("Undo and redo work in the rooms: go back with esc first.")
        else:
            room.turn_back(lambda _: how(self.stash))

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
