"""The two lines of keys at the foot: what can be done here, and where one can go."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from rich.text import Text
from textual.containers import Vertical
from textual.widgets import Static

if TYPE_CHECKING:
    from textual.binding import Binding
    from textual.screen import Screen


class Foot(Vertical):
    """What stands at the foot of a screen: news over keys."""

    DEFAULT_CSS = """
    Foot { dock: bottom; height: auto; }
    """


class KeyLine(Static):
    """Shows every binding meant for the footer; wraps rather than hide one."""

    DEFAULT_CSS = """
    KeyLine { height: auto; max-height: 5; padding: 0 1; background: $panel; }
    """

    def on_mount(self) -> None:
        """Follow the bindings as the focus moves."""
        self.screen.bindings_updated_signal.subscribe(self, self._changed)

    def on_unmount(self) -> None:
        """Let go of the signal."""
        self.screen.bindings_updated_signal.unsubscribe(self)

    def on_resize(self) -> None:
        """Lay the keys out for the new width."""
        self.update(self._keys())

    def _changed(self, screen: Screen[Any]) -> None:
        if self.is_attached and screen is self.screen:
            self.update(self._keys())

    def _keys(self) -> Text:
        here: list[Binding] = []
        away: list[Binding] = []
        for _, binding, enabled, _ in self.screen.active_bindings.values():
            if binding.show and enabled and binding.id:
                (away if binding.id.startswith("app.") else here).append(binding)
        lines = [self._line(group, "  ") for group in (here, away) if group]
        room = self.content_size.width or self.app.size.width
        if any(line.cell_len > room for line in lines):
            lines = [self._line(group, " ") for group in (here, away) if group]
        return Text("\n").join(lines)

    def _line(self, group: list[Binding], between: str) -> Text:
        colours = self.app.theme_variables
        line = Text()
        for binding in group:
            # Spaces inside one key and its label must not break when the line wraps.
            here = binding.action == f"room('{self.app.current_mode}')"
            entry = Text(style="reverse bold" if here else "")
            key_style = "" if here else f"bold {colours['primary']}"
            entry.append(self.app.get_key_display(binding), key_style)
            entry.append("\u00a0" + binding.description.replace(" ", "\u00a0"))
            line.append_text(entry).append(between)
        line.rstrip()
        return line
