"""A question with two answers, before something that cannot be typed back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static

from stash.tui.actions import bindings
from stash.tui.widgets.key_line import Foot, KeyLine

if TYPE_CHECKING:
    from textual.app import ComposeResult


class ConfirmScreen(ModalScreen[bool]):
    """Dismissed with True for yes, False for no."""

    place = "confirm"
    BINDINGS = bindings("confirm")

    def __init__(self, question: str, *, yes: str = "Yes", no: str = "No") -> None:
        super().__init__()
        self.question = question
        self.answers = (yes, no)

    def compose(self) -> ComposeResult:
        """The question, and which key answers what."""
        yes, no = self.answers
        with Vertical(classes="box"):
            yield Static(self.question, markup=False)
            yield Static(f"\n[b $primary]y[/]  {yes}      [b $primary]n[/]  {no}")
        with Foot():
            yield KeyLine()

    def action_yes(self) -> None:
        """Do it."""
        self.dismiss(True)

    def action_no(self) -> None:
        """Leave it."""
        self.dismiss(False)
