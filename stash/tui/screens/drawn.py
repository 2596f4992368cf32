"""The Drawing: lays that were worked out already, one cloth after another."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.widgets import Static

from stash.report.lay_notches import notch_ticks
from stash.tui.actions import bindings
from stash.tui.screens.lay_figures import figures
from stash.tui.screens.lay_view import LayView
from stash.tui.widgets.key_line import Foot, KeyLine
from stash.tui.widgets.lay_canvas import LayCanvas
from stash.tui.work import stash_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from textual.app import ComposeResult

    from stash.report.records import LaidOut


class DrawnScreen(LayView):
    """Opens over the Ways; Escape goes back."""

    place = "drawn"
    BINDINGS = bindings("drawn")

    def __init__(self, lays: Sequence[LaidOut]) -> None:
        super().__init__()
        self.lays = lays
        self.at = 0

    def compose(self) -> ComposeResult:
        """Title, the figures, the drawing."""
        yield Static("Drawing", id="heading", markup=False)
        yield Static(id="figures", markup=False)
        yield LayCanvas()
        with Foot():
            yield KeyLine()

    def on_mount(self) -> None:
        """Draw the first."""
        self._draw()
        self.query_one(LayCanvas).focus()

    def _draw(self) -> None:
        laid, settings = self.lays[self.at], stash_of(self).settings
        place = f" ({self.at + 1} of {len(self.lays)})" if len(self.lays) > 1 else ""
        self.query_one("#heading", Static).update(f"Drawing{place}   {laid.title}")
        text = figures(laid, settings, self.app.theme_variables, best=False)
        self.query_one("#figures", Static).update(text)
        notches = notch_ticks(laid, laid.lay)
        self.query_one(LayCanvas).show(laid.lay, laid.problem, settings.system, notches)
        self.refresh_bindings()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys are there only with what they want."""
        canvas = self.query(LayCanvas)
        there = {
            "following": len(self.lays) > 1,
            "pan": bool(canvas) and canvas.first().is_zoomed,
        }
        return super().check_action(action, parameters) if there.get(action, True) else None

    def action_following(self) -> None:
        """The lay on the next cloth."""
        self.at = (self.at + 1) % len(self.lays)
        self._draw()

    def action_back(self) -> None:
        """Back to the ways."""
        self.dismiss(None)
