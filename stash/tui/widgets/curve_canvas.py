"""The drawing of a width curve, as large as the screen allows, with one cloth chosen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.style import Style
from rich.text import Text
from textual.widgets import Static

from stash.report.cell_sheet import NONE
from stash.report.curve_cells import draw_curve, is_enough

if TYPE_CHECKING:
    from stash.config import System
    from stash.pairing.width_curve import WidthCurve
    from stash.report.curve_cells import CurveCell


class CurveCanvas(Static):
    """Shows one curve; capitals and full circles are cloths there is enough of."""

    DEFAULT_CSS = """
    CurveCanvas { height: 1fr; padding: 0 1; }
    """

    def __init__(self) -> None:
        super().__init__(markup=False)
        self._curve: WidthCurve | None = None
        self._system: System | None = None
        self._chosen = NONE

    def show(self, curve: WidthCurve, system: System, chosen: int) -> None:
        """Draw this curve; `chosen` is a place in its dots, or NONE."""
        self._curve, self._system, self._chosen = curve, system, chosen
        self._draw()

    def on_resize(self) -> None:
        """Fit the drawing to the new size."""
        self._draw()

    def _draw(self) -> None:
        curve, system = self._curve, self._system
        if curve is None or system is None or not self.content_size.area:
            return
        columns, rows = self.content_size
        drawn = draw_curve(curve, columns, rows, system, self._chosen)
        text = Text("\n").join(self._line(row, curve) for row in drawn)
        text.no_wrap = True
        self.update(text)

    def _line(self, row: tuple[CurveCell, ...], curve: WidthCurve) -> Text:
        text = Text()
        for cell in row:
            text.append(cell.char, style=self._style(cell, curve))
        return text

    def _style(self, cell: CurveCell, curve: WidthCurve) -> Style:
        colours = self.app.theme_variables
        if cell.dot == NONE:
            return Style()
        enough = is_enough(curve.dots[cell.dot])
        return Style(
            color=colours["success" if enough else "error"],
            bold=True,
            reverse=cell.dot == self._chosen,
        )
