"""Every key of a screen, from the registry of actions."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.table import Table
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Static

from stash.tui.actions import KEY_NAMES, actions_of, bindings
from stash.tui.widgets.key_line import Foot, KeyLine

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from stash.tui.actions import Action

MOVING = (
    ("up down", "Go through the rows"),
    ("tab", "Go to the next part of the screen"),
    ("ctrl+p", "Find any of these by its name"),
)


class HelpScreen(ModalScreen[None]):
    """The keys of one place, and those that work everywhere."""

    place = "help"
    BINDINGS = bindings("help")

    def __init__(self, about: str) -> None:
        super().__init__()
        self.about = about

    def compose(self) -> ComposeResult:
        """Two lists of keys."""
        with VerticalScroll(classes="box"):
            if self.about != "app":
                yield Static(f"Keys of {self.about.capitalize()}", classes="group", markup=False)
                yield Static(self._table([_line(action) for action in actions_of(self.about)]))
            yield Static("Everywhere", classes="group")
            yield Static(self._table([*MOVING, *map(_line, actions_of("app"))]))
        with Foot():
            yield KeyLine()

    def _table(self, lines: list[tuple[str, str]]) -> Table:
        table = Table.grid(padding=(0, 2))
        table.add_column(style=f"bold {self.app.theme_variables['primary']}", min_width=8)
        table.add_column()
        for key, text in lines:
            table.add_row(key, text)
        return table

    def action_back(self) -> None:
        """Close the help."""
        self.dismiss(None)


def _line(action: Action) -> tuple[str, str]:
    return KEY_NAMES.get(action.key, action.key), action.text
