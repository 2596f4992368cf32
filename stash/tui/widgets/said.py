"""One line over the keys: what was just done, what went wrong, how far the work is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.text import Text
from textual.widgets import Static

if TYPE_CHECKING:
    from stash.errors import StashError

BAR = 20
"""Cells of the bar of progress."""


class Said(Static):
    """Hidden while there is nothing to say."""

    DEFAULT_CSS = """
    Said { height: auto; max-height: 4; padding: 0 1; display: none; }
    Said.-said { display: block; background: $surface; color: $primary; }
    Said.-failed { display: block; background: $surface; color: $error; text-style: bold; }
    """

    def say(self, what: str) -> None:
        """Say what was done."""
        self._show(Text(what), failed=False)

    def fail(self, error: StashError) -> None:
        """Say what went wrong and what to do about it."""
        self._show(Text(f"✗ {error}"), failed=True)

    def advance(self, done: int, total: int, what: str, stop_key: str = "") -> None:
        """Show how far the work is."""
        filled = round(BAR * done / total) if total else 0
        text = Text("█" * filled + "░" * (BAR - filled))
        text.append(f" {done} of {total}  {what}" if total else f" {what}")
        if stop_key:
            text.append(f"  ({stop_key} stops it)")
        self._show(text, failed=False)

    def hush(self) -> None:
        """Nothing to say any more."""
        self.remove_class("-said", "-failed")
        self.update("")

    def _show(self, text: Text, *, failed: bool) -> None:
        self.update(text)
        self.set_class(failed, "-failed")
        self.set_class(not failed, "-said")
