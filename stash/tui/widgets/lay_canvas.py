"""The drawing of a lay, as large as the screen allows; a part of it when it is made larger."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from rich.style import Style
from rich.text import Text
from textual.color import Color
from textual.widgets import Static

from stash.report.cell_sheet import NONE
from stash.report.lay_cells import draw_lay
from stash.report.lay_frame import WHOLE, View, seen

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.config import System
    from stash.lay.problem import Problem
    from stash.lay.result import Lay
    from stash.report.cell_sheet import Cell
    from stash.report.lay_frame import Frame
    from stash.report.lay_marks import Stretch

PIECE_COLOURS = ("#8fb4a8", "#c2a878", "#a9a0c4", "#b88f86", "#8ea9c6", "#a8b37e", "#c49bb0")
"""Tints to tell neighbours apart; names and outlines say the same without them."""
FOOT = 1
"""Rows under the drawing: what the signs mean."""
SIZES = (1.0, 1.5, 2.0, 3.0, 4.0, 6.0, 8.0)
"""How many times the size that fits the screen the drawing may have."""
STEP = 0.5
"""Share of what is seen that the drawing moves by."""


class LayCanvas(Static, can_focus=True):
    """Shows one lay, or a part of it drawn larger; the rulers stay."""

    DEFAULT_CSS = """
    LayCanvas { height: 1fr; padding: 0 1; }
    """

    def __init__(self) -> None:
        super().__init__(id="drawing", markup=False)
        self._lay: Lay | None = None
        self._problem: Problem | None = None
        self._notches: Sequence[Stretch] = ()
        self._system: System | None = None
        self._view = WHOLE
        self._frame: Frame | None = None

    @property
    def is_zoomed(self) -> bool:
        """The drawing is larger than the screen."""
        return self._frame is not None and not self._frame.is_whole

    def show(
        self,
        lay: Lay | None,
        problem: Problem | None,
        system: System,
        notches: Sequence[Stretch] = (),
    ) -> None:
        """Draw this lay, what it was asked beside it; None clears the drawing."""
        self._lay, self._problem, self._system = lay, problem, system
        self._notches = notches
        self._draw()

    def larger(self, by: int) -> None:
        """Draw it larger or smaller by `by` sizes; the middle stays in the middle."""
        frame = self._frame
        if frame is None:
            return
        times = SIZES[min(len(SIZES) - 1, max(0, SIZES.index(self._view.times) + by))]
        share = self._view.times / times
        x = frame.left + frame.wide * (1 - share) / 2
        y = frame.top + frame.high * (1 - share) / 2
        self._look(View(times, x, y))

    def fit(self) -> None:
        """Draw the whole of it."""
        self._look(WHOLE)

    def pan(self, along: int, across: int) -> None:
        """Show what lies beside, in halves of what is seen."""
        frame = self._frame
        if frame is not None:
            x = frame.left + along * STEP * frame.wide
            self._look(View(self._view.times, x, frame.top + across * STEP * frame.high))

    def on_resize(self) -> None:
        """Fit the drawing to the new size."""
        self._draw()

    def _look(self, view: View) -> None:
        self._view = replace(view, x=max(0.0, view.x), y=max(0.0, view.y))
        self._draw()

    def _draw(self) -> None:
        lay, system = self._lay, self._system
        if lay is None or system is None:
            self._frame = None
            self.update("")
            return
        columns, rows = self.content_size
        drawing = draw_lay(
            lay,
            columns,
            rows - FOOT,
            system,
            problem=self._problem,
            notches=self._notches,
            view=self._view,
        )
        self._frame = drawing.frame
        text = Text("\n").join(self._line(row, lay) for row in drawing.rows)
        foot = "   ".join(drawing.legend)
        if not drawing.frame.is_whole:
            foot = f"{self._view.times:g}× {seen(drawing.frame, system)}   {foot}"
        text.append(f"\n{foot}")
        text.no_wrap = True
        text.overflow = "ellipsis"
        self.update(text)

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
