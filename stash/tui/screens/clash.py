"""Someone else changed the record meanwhile: theirs and yours side by side, and three ways on."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, Literal

from textual.screen import ModalScreen
from textual.widgets import Static

from stash.tui.actions import bindings
from stash.tui.widgets.key_line import Foot, KeyLine
from stash.tui.widgets.rows import Column, Row, Rows

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from stash.services.clashes import ChangedMeanwhileError, Clash

Choice = Literal["theirs", "mine"]

WAYS = """t  keep theirs: what you typed is let go
m  put yours on top: fields you did not change stay as they left them
esc  back to the form: nothing is kept yet"""


class ClashScreen(ModalScreen[Choice]):
    """Dismissed with the choice, or with None to go back to the form."""

    place = "clash"
    BINDINGS = bindings("clash")
    AUTO_FOCUS = "Rows"
    columns: ClassVar[tuple[Column, ...]] = (
        Column("Field", 16),
        Column("Theirs", 18),
        Column("Yours", 18),
        Column("Before", 18),
    )

    def __init__(self, error: ChangedMeanwhileError) -> None:
        super().__init__()
        self.error = error

    def compose(self) -> ComposeResult:
        """Who changed what, field by field, and what each key does."""
        yield Static(self.error.message.partition("\n")[0], id="heading", markup=False)
        yield Rows(self.columns, id="rows")
        with Foot():
            yield Static(WAYS, id="hint", markup=False)
            yield KeyLine()

    def on_mount(self) -> None:
        """Fill the table."""
        self.query_one(Rows).fill([_row(clash) for clash in self.error.clashes])

    def action_theirs(self) -> None:
        """Leave the record as they changed it."""
        self.dismiss("theirs")

    def action_mine(self) -> None:
        """Put what was typed on top."""
        self.dismiss("mine")

    def action_back(self) -> None:
        """Go on in the form."""
        self.dismiss(None)


def _row(clash: Clash) -> Row:
    texts = (clash.theirs, clash.yours, clash.before)
    return Row(clash.label, (clash.label, *(text or "–" for text in texts)))
