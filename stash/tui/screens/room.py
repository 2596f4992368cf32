"""What every room shares: a heading, the keys, one line of news, and reading again when stale."""

from __future__ import annotations

from abc import abstractmethod
from typing import TYPE_CHECKING, ClassVar, cast

from textual import on
from textual.screen import Screen
from textual.widgets import Static

from stash.errors import NotFoundError
from stash.tui.messages import Advanced, Answered, Changed, Failed, Stopped
from stash.tui.widgets.filter_bar import FilterBar
from stash.tui.widgets.key_line import Foot, KeyLine
from stash.tui.widgets.rows import Rows
from stash.tui.widgets.said import Said
from stash.tui.work import app_of, ask, is_busy, stop

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from textual.app import ComposeResult
    from textual.widget import Widget

    from stash.services.undoing import TurnedBack
    from stash.tui.widgets.rows import Row
    from stash.tui.work import Teller


class WasTurnedBack(Answered):
    """A change was undone or done again."""


class Room(Screen[None]):
    """Base of the rooms. A room says what it holds in `content` and reads it in `reload`."""

    AUTO_FOCUS = "Rows"
    place: ClassVar[str] = ""
    slow: ClassVar[str] = ""
    """The group of work that may be stopped by `x`; empty: nothing here takes long."""

    def __init__(self) -> None:
        super().__init__()
        self._seen = -1
        self._news = ""
        """What was done last, while long work that followed has not ended."""

    def compose(self) -> ComposeResult:
        """Heading at the top, what the room holds, news and keys at the foot."""
        yield Static(self.place.capitalize(), id="heading", markup=False)
        yield from self.content()
        with Foot():
            yield Said()
            yield KeyLine()

    @abstractmethod
    def content(self) -> Iterable[Widget]:
        """The widgets between the heading and the keys."""

    @abstractmethod
    def reload(self) -> None:
        """Ask the stash again, in a worker."""

    def on_screen_resume(self) -> None:
        """Read again if something was changed since this room was last seen."""
        app = app_of(self)
        if app.untold:
            self._news = f"! {app.untold}"
            self.said.say(self._news)
            app.untold = ""
        if self._seen != app.revision:
            self._seen = app.revision
            self.reload()

    def head(self, rest: str) -> None:
        """Put a few words after the name of the room."""
        self.query_one("#heading", Static).update(f"{self.place.capitalize()}   {rest}")

    def show_rows(self, rows: Sequence[Row], *, nothing: bool) -> None:
        """Fill the table, or with `nothing` show what to do next in its place."""
        table = self.query_one(Rows)
        self.set_class(nothing, "-nothing")
        table.fill(rows)
        self.refresh_bindings()
        if not nothing and self.focused is None:
            self.call_after_refresh(table.focus)

    @property
    def said(self) -> Said:
        """The line of news."""
        return self.query_one(Said)

    @on(Changed)
    def _note_change(self, message: Changed) -> None:
        app = app_of(self)
        app.changed()
        self._seen = app.revision
        self._news = message.what
        self.said.say(message.what)
        self.reload()

    def end_progress(self) -> None:
        """Take the bar of progress away; what was done before it is said again."""
        if self._news:
            self.said.say(self._news)
        else:
            self.said.hush()
        self._news = ""

    def turn_back(self, question: Callable[[Teller], TurnedBack]) -> None:
        """Undo or redo something in a worker, then say what it was."""
        ask(self, "undo", question, WasTurnedBack)

    @on(WasTurnedBack)
    def _note_turn(self, message: WasTurnedBack) -> None:
        done = cast("TurnedBack", message.answer)
        other = "ctrl+z undoes it." if done.again else "ctrl+y does it again."
        self.post_message(Changed(f"✓ {done.sentence} {other}"))

    @on(Failed)
    def _note_failure(self, message: Failed) -> None:
        # What was removed while one stood on it is no failure: the table is read again.
        if not (message.group == "study" and isinstance(message.error, NotFoundError)):
            self.said.fail(message.error)

    @on(Advanced)
    def _note_progress(self, message: Advanced) -> None:
        self.said.advance(message.done, message.total, message.what, "x" if self.slow else "")

    @on(Stopped)
    def _note_stop(self, message: Stopped) -> None:
        self.said.say("Stopped. What was laid so far is kept.")

    def on_worker_state_changed(self) -> None:
        """The key that stops work is there only while there is some."""
        self.refresh_bindings()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys that have nothing to act on are not shown."""
        if action == "stop" and not is_busy(self, self.slow):
            return None
        return super().check_action(action, parameters)

    def action_stop(self) -> None:
        """Stop the long work of this room."""
        stop(self, self.slow)

    async def action_back(self) -> None:
        """Clear the filter if one is open; else go to the Bench."""
        for bar in self.query(FilterBar):
            if bar.is_open:
                bar.close()
                self.query_one(Rows).focus()
                return
        await app_of(self).open("bench")

    def action_bring_in(self) -> None:
        """Look at a table someone keeps, and take what is good of it."""
        from stash.tui.screens.import_table import ask_for_table

        ask_for_table(self)

    def action_filter(self) -> None:
        """Type words; only the rows that have them stay."""
        self.query_one(FilterBar).open()
