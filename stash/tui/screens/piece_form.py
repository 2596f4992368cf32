"""The form of a drafted piece: its drawing beside the fields changes as measures are typed."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from rich.text import Text
from textual import on
from textual.containers import Horizontal
from textual.widgets import Input, Static

from stash.services.part_words import size_words
from stash.services.sketching import sketch
from stash.tui.messages import Answered
from stash.tui.screens.form import FormScreen
from stash.tui.widgets.outlines import fitted
from stash.tui.work import ask, stash_of

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.events import Resize

    from stash.garment.pattern import Pattern, Piece
    from stash.services.sketching import Sketch
    from stash.tui.screens.form import Form

FOR_WORDS = 8
"""Lines under the drawing kept for its size and what is asked about it."""


class Sketched(Answered):
    """The piece was drafted from what is typed, as far as that goes."""


class PieceFormScreen(FormScreen):
    """A form whose measures are drawn."""

    def __init__(self, form: Form, pattern: Pattern, family: str) -> None:
        super().__init__(form)
        self.pattern = pattern
        self.family = family
        self.drawn: Piece | None = None
        """The last piece that could be drawn."""
        self.now: Sketch | None = None

    def content(self) -> ComposeResult:
        """The fields with the drawing beside them."""
        with Horizontal(id="with-sketch"):
            yield from super().content()
            yield Static(id="sketch", markup=False)

    def on_mount(self) -> None:
        """Draw what stands there already."""
        self._sketch()

    @on(Input.Changed)
    def _sketch(self) -> None:
        stash, texts = stash_of(self), self.texts
        ask(self, "sketch", lambda _: sketch(stash, self.pattern, self.family, texts), Sketched)

    @on(Sketched)
    def _show_sketch(self, message: Sketched) -> None:
        self.now = cast("Sketch", message.answer)
        self.drawn = self.now.piece or self.drawn
        self._draw()

    def on_resize(self, event: Resize) -> None:
        """Draw it as large as it goes now."""
        del event
        self.call_after_refresh(self._draw)

    def _draw(self) -> None:
        if self.now is None:
            return
        place = self.query_one("#sketch", Static)
        room, colours = place.content_size, self.app.theme_variables
        text = Text()
        if self.drawn is not None:
            stale = "" if self.now.piece is not None else colours["secondary"]
            lines = fitted(self.drawn, room.width, max(4, room.height - FOR_WORDS))
            text.append("\n".join(lines), style=stale)
            system = stash_of(self).settings.system
            text.append(f"\n{size_words(self.drawn, system)}", style=stale)
        asked = colours["warning"] if self.now.piece is not None else colours["secondary"]
        for line in self.now.says:
            text.append(f"{chr(10) if text else ''}{line}", style=asked)
        place.update(text)
