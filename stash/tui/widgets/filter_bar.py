"""A line to type words into; the table shows only the rows that have them."""

from __future__ import annotations

from textual.widgets import Input


class FilterBar(Input):
    """Hidden until asked for. Posts `Input.Changed` as one types."""

    DEFAULT_CSS = """
    FilterBar { display: none; height: 1; border: none; padding: 0 1; background: $panel; }
    FilterBar:focus { border: none; }
    FilterBar.-open { display: block; }
    """

    def __init__(self, placeholder: str) -> None:
        super().__init__(placeholder=placeholder, id="filter", compact=True)
        self.can_focus = False

    @property
    def is_open(self) -> bool:
        """It is shown."""
        return self.has_class("-open")

    def open(self) -> None:
        """Show it and type into it."""
        self.can_focus = True
        self.add_class("-open")
        self.focus()

    def close(self) -> None:
        """Clear and hide it: every row comes back."""
        self.remove_class("-open")
        self.value = ""
        self.can_focus = False
