"""Choose one of a few things: up and down or its first letter, then Enter."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import on
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from stash.tui.actions import bindings
from stash.tui.widgets.key_line import Foot, KeyLine

if TYPE_CHECKING:
    from collections.abc import Sequence

    from textual.app import ComposeResult
    from textual.events import Key


class ChooseScreen(ModalScreen[str]):
    """Dismissed with the key of what was chosen, or with None."""

    place = "choose"
    BINDINGS = bindings("choose")

    def __init__(self, title: str, options: Sequence[tuple[str, str]], chosen: str = "") -> None:
        super().__init__()
        self.heading = title
        self.options = tuple(options)
        self.chosen = chosen

    def compose(self) -> ComposeResult:
        """The list, with the present choice under the cursor."""
        with Vertical(classes="box"):
            yield Static(self.heading, markup=False)
            yield OptionList(*(Option(text, id=key) for key, text in self.options), markup=False)
        with Foot():
            yield KeyLine()

    def on_mount(self) -> None:
        """Start on the present choice."""
        keys = [key for key, _ in self.options]
        if self.chosen in keys:
            self.query_one(OptionList).highlighted = keys.index(self.chosen)

    @on(OptionList.OptionSelected)
    def _chosen(self, event: OptionList.OptionSelected) -> None:
        self.dismiss(event.option_id)

    def on_key(self, event: Key) -> None:
        """Go to the next choice that begins with the letter."""
        if not event.character or not event.character.isalnum():
            return
        options = self.query_one(OptionList)
        here = -1 if options.highlighted is None else options.highlighted
        places = [*range(here + 1, len(self.options)), *range(here + 1)]
        letter = event.character.casefold()
        found = [p for p in places if self.options[p][1].casefold().startswith(letter)]
        if found:
            options.highlighted = found[0]
            event.stop()

    def action_take(self) -> None:
        """Take the choice under the cursor."""
        self.query_one(OptionList).action_select()

    def action_back(self) -> None:
        """Leave without choosing."""
        self.dismiss(None)
