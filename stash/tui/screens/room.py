"""What every room shares: a heading, the keys, one line of news, and reading again when stale."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.screen import Screen
from textual.widgets import Static

from stash.tui.messages import Advanced, Changed, Failed, Stopped
from stash.tui.widgets.filter_bar import FilterBar
from stash.tui.widgets.key_line import KeyLine
from stash.tui.widgets.rows import Rows
from stash.tui.widgets.said import Said
from stash.tui.work import app_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual.app import ComposeResult
    from textual.widget import Widget


class Room(Screen[None]):
    """Base of the rooms. A room says what it holds in `content` and reads it in `reload`."""

    place: ClassVar[str] = ""
    stop_key: ClassVar[str] = ""

    def __init__(self) -> None:
        super().__init__()
        self._seen = -1

    def compose(self) -> ComposeResult:
        """Heading at the top, what the room holds, news and keys at the foot."""
        yield Static(self.place.capitalize(), id="heading", markup=False)
        yield from self.content()
        yield KeyLine()
        yield Said()

    def content(self) -> Iterable[Widget]:
        """The widgets between the heading and the keys."""
        raise NotImplementedError

    def reload(self) -> None:
        """Ask the stash again, in a worker."""
        raise NotImplementedError

    def on_screen_resume(self) -> None:
        """Read again if something was changed since this room was last seen."""
        revision = app_of(self).revision
        if self._seen != revision:
            self._seen = revision
            self.reload()

    def head(self, rest: str) -> None:
        """Put a few words after the name of the room."""
        self.query_one("#heading", Static).update(f"{self.place.capitalize()}   {rest}")

    @property
    def said(self) -> Said:
        """The line of news."""
        return self.query_one(Said)

    @on(Changed)
    def _note_change(self, message: Changed) -> None:
        app = app_of(self)
        app.changed()
        self._seen = app.revision
        self.said.say(message.what)
        self.reload()

    @on(Failed)
    def _note_failure(self, message: Failed) -> None:
        self.said.fail(message.error)

    @on(Advanced)
    def _note_progress(self, message: Advanced) -> None:
        self.said.advance(message.done, message.total, message.what, self.stop_key)

    @on(Stopped)
    def _note_stop(self, message: Stopped) -> None:
        self.said.say("Stopped. What was laid so far is kept.")

    async def action_back(self) -> None:
        """Clear the filter if one is open; else go to the Bench."""
        for bar in self.query(FilterBar):
            if bar.is_open:
                bar.close()
                self.query_one(Rows).focus()
                return
        await app_of(self).open("bench")

    def action_filter(self) -> None:
        """Type words; only the rows that have them stay."""
        self.query_one(FilterBar).open()

    @on(FilterBar.Submitted, "#filter")
    def _filter_done(self) -> None:
        self.query_one(Rows).focus()
