"""One field of a form: its label, what is typed, and the one thing that is wrong with it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.containers import Horizontal, Vertical
from textual.suggester import SuggestFromList
from textual.widgets import Input, Label, Static

if TYPE_CHECKING:
    from collections.abc import Sequence

    from textual.app import ComposeResult

    from stash.errors import StashError
    from stash.services.fields import Field


class FieldRow(Vertical):
    """Label and input on one line; an error takes a second line, only while there is one."""

    DEFAULT_CSS = """
    FieldRow { height: auto; }
    FieldRow Horizontal { height: 1; }
    FieldRow Label { width: 22; color: $foreground; }
    FieldRow Label.-required { text-style: bold; }
    FieldRow Input { width: 1fr; height: 1; border: none; padding: 0 1; background: $surface; }
    FieldRow Input:focus { background: $panel; border: none; }
    FieldRow .problem { color: $error; padding-left: 22; display: none; height: auto; }
    FieldRow.-wrong .problem { display: block; }
    FieldRow.-wrong Label { color: $error; }
    FieldRow:focus-within Label { color: $primary; text-style: bold; }
    """

    def __init__(self, field: Field, text: str) -> None:
        super().__init__(id=f"field-{field.key}")
        self.field = field
        self.first_text = text
        self._choices: tuple[str, ...] = field.choices

    def compose(self) -> ComposeResult:
        """Label, input, room for the error."""
        with Horizontal():
            yield Label(
                self.field.label + (" *" if self.field.required else ""),
                classes="-required" if self.field.required else "",
            )
            yield Input(self.first_text, compact=True, select_on_focus=False)
        yield Static(classes="problem", markup=False)

    @property
    def input(self) -> Input:
        """Where one types."""
        return self.query_one(Input)

    @property
    def text(self) -> str:
        """What is typed."""
        return self.input.value

    def suggest(self, names: Sequence[str]) -> None:
        """Offer these, or else the field's own choices, as one types."""
        self._choices = tuple(names) or self.field.choices
        self.input.suggester = (
            SuggestFromList(self._choices, case_sensitive=False) if self._choices else None
        )

    @property
    def hint(self) -> str:
        """What to type here."""
        hint = self.field.hint
        # Choices a hint spells out already need not be said twice.
        if self._choices and not all(choice in hint for choice in self._choices):
            return f"{hint}.  One of: {', '.join(self._choices)}"
        return hint

    def tell(self, error: StashError | None) -> None:
        """Show what is wrong, or that nothing is."""
        self.set_class(error is not None, "-wrong")
        problem = f"✗ {error}" if error else ""
        self.query_one(".problem", Static).update(problem)
