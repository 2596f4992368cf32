"""The drawing of a lay, as large as the screen allows; scrolls when it is made larger."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.style import Style
from rich.text import Text
from textual.color import Color
from textual.containers import ScrollableContainer
from textual.widgets import Static

from stash.report.lay_cells import NONE, draw_lay

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from stash.config import System
    from stash.lay.result import Lay
    from stash.report.lay_cells import Cell

PIECE_COLOURS = ("#8fb4a8", "#c2a878", "#a9a0c4", "#b88f86", "#8ea9c6", "#a8b37e", "#c49bb0")
"""Tints to tell neighbours apart; names and outlines say the same without them."""
LARGEST = 4
"""How many times the size that fits the screen the drawing may have."""


class LayCanvas(ScrollableContainer):
    """Shows one lay; takes the focus so that the arrow keys scroll it."""

    DEFAULT_CSS = """
    LayCanvas { height: 1fr; padding: 0 1; }
    LayCanvas Static { width: auto; height: auto; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._lay: Lay | None = None
        self._system: System | None = None
        self._times = 1

    def compose(self) -> ComposeResult:
        """The drawing itself."""
        yield Static(id="drawing", markup=False)

    def show(self, lay: Lay | None, system: System) -> None:
        """Draw this lay; None clears the drawing."""
        self._lay, self._system = lay, system
        self._draw()

    def larger(self, by: int) -> None:
        """Draw it larger or smaller by whole times the size that fits."""
        self._times = min(LARGEST, max(1, self._times + by))
        self._draw()

    def on_resize(self) -> None:
        """Fit the drawing to the new size."""
        self._draw()

    def _draw(self) -> None:
        picture = self.query_one("#drawing", Static)
        lay, system = self._lay, self._system
        if lay is None or system is None:
            picture.update("")
            return
        columns, rows = self.size.width - 1, self.size.height
        drawing = draw_lay(lay, columns * self._times, (rows - 1) * self._times, system)
        text = Text("\n").join(self._line(row, lay) for row in drawing.rows)
        if drawing.legend:
            text.append("\n" + "   ".join(drawing.legend))
        text.no_wrap = True
        picture.update(text)

    def _line(self, row: tuple[Cell, ...], lay: Lay) -> Text:
        text = Text()
        ground = Color.parse(self.app.theme_variables["background"])
        for cell in row:
            text.append(cell.char, style=self._style(cell, lay, ground))
        return text

    def _style(self, cell: Cell, lay: Lay, ground: Color) -> Style:
        """A piece's own tint under its outline; copies of one piece share it."""
        line = fill = None
        if cell.line != NONE:
            tint = _tint(lay, cell.line)
            line = ground.blend(tint, 0.9) if ground.brightness < 0.5 else tint.darken(0.3)
        if cell.fill != NONE:
            fill = ground.blend(_tint(lay, cell.fill), 0.3)
        letters = cell.fill != NONE and cell.char.isprintable() and not _is_dots(cell.char)
        return Style(
            color=line.rich_color if line and not letters else None,
            bgcolor=fill.rich_color if fill else None,
            bold=letters,
        )


def _tint(lay: Lay, index: int) -> Color:
    return Color.parse(PIECE_COLOURS[lay.placements[index].shape % len(PIECE_COLOURS)])


def _is_dots(char: str) -> bool:
    return "\u2800" <= char <= "\u28ff"
