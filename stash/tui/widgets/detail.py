"""What is known of the chosen row, beside the table or under it; scrolls by keys."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.containers import VerticalScroll
from textual.widgets import Static

if TYPE_CHECKING:
    from rich.console import RenderableType
    from textual.app import ComposeResult


class Detail(VerticalScroll):
    """Takes the focus so that up and down scroll it."""

    DEFAULT_CSS = """
    Detail { border-left: tall $panel; padding: 0 1; }
    Detail:focus { border-left: tall $primary; }
    Detail Static { height: auto; }
    """

    def compose(self) -> ComposeResult:
        """The text inside."""
        yield Static(id="detail-text")

    def show(self, what: RenderableType) -> None:
        """Show this from its top."""
        self.query_one("#detail-text", Static).update(what)
        self.scroll_home(animate=False)
