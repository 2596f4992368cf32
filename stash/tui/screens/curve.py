"""The Curve: need against width, with every suitable cloth of the shelf as a letter."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, cast

from rich.text import Text
from textual import on
from textual.screen import Screen
from textual.widgets import Static

from stash.report.cell_sheet import NONE
from stash.report.curve_text import name_of
from stash.report.plan_text import how_sure
from stash.services.curve import width_curve
from stash.tui.actions import bindings
from stash.tui.messages import Advanced, Answered, Failed, Stopped
from stash.tui.show import amount, counted, enough, spare_words, verdict_text, width
from stash.tui.widgets.curve_canvas import CurveCanvas
from stash.tui.widgets.key_line import Foot, KeyLine
from stash.tui.widgets.said import Said
from stash.tui.widgets.swatch import swatch
from stash.tui.work import ask, is_busy, stash_of, stop
from stash.units.format_length import Measure

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from stash.pairing.width_curve import CurveDot, WidthCurve
    from stash.tui.screens.lay_asks import LayQuestion
    from stash.tui.work import Teller

NO_DOTS = "No cloth on the shelf is suitable. Press esc, then 2 to look at the shelf."


class CurveDrawn(Answered):
    """The curve was worked out."""


class CurveScreen(Screen[str | None]):
    """Opens over the Lay; answers with the id of the cloth to lay on, or None."""

    place = "curve"
    BINDINGS = bindings("curve")

    def __init__(self, question: LayQuestion) -> None:
        super().__init__()
        self.question = question
        self.curve: WidthCurve | None = None
        self.chosen = NONE

    def compose(self) -> ComposeResult:
        """Title, the chosen cloth, the drawing."""
        yield Static("Curve", id="heading", markup=False)
        yield Static(id="figures", markup=False)
        yield CurveCanvas()
        with Foot():
            yield Said()
            yield KeyLine()

    def on_mount(self) -> None:
        """Work it out."""
        self._trace()

    def _trace(self) -> None:
        asked, stash = self.question, stash_of(self)
        self.query_one(Said).say("Laying the pieces on every width …")

        def trace(teller: Teller) -> WidthCurve:
            return width_curve(
                stash,
                asked.make or asked.pattern,
                asked.role,
                size="" if asked.make else asked.size,
                view="" if asked.make else asked.view,
                bare=not asked.make,
                nap=asked.nap,
                kind=asked.kind,
                progress=teller.progress,
                cancelled=teller.cancelled,
            )

        ask(self, "curve", trace, CurveDrawn)

    @on(CurveDrawn)
    def _show(self, message: CurveDrawn) -> None:
        self.curve = curve = cast("WidthCurve", message.answer)
        self.query_one(Said).hush()
        ids = [str(dot.cloth.id) for dot in curve.dots]
        if self.chosen == NONE and ids:
            asked = self.question.cloth or ""
            self.chosen = ids.index(asked) if asked in ids else 0
        self._draw()

    def _draw(self) -> None:
        curve = self.curve
        if curve is None:
            return
        nap = "with nap" if curve.nap else "without nap"
        kind = f", {curve.kind}" if curve.kind is not None else ""
        self.query_one("#heading", Static).update(f"Curve   {curve.title}, {nap}{kind}")
        self.query_one("#figures", Static).update(self._figures(curve))
        system = stash_of(self).settings.system
        self.query_one(CurveCanvas).show(curve, system, self.chosen)
        self.refresh_bindings()

    def on_screen_resume(self) -> None:
        """Draw it again: the colours may have changed."""
        self._draw()

    def _figures(self, curve: WidthCurve) -> Text:
        """The chosen cloth in two lines, and how the whole is to be read."""
        if self.chosen == NONE:
            return Text(NO_DOTS)
        dot = curve.dots[self.chosen]
        settings = stash_of(self).settings
        text = Text(f"{name_of(dot)} ")
        text.append_text(swatch(dot.cloth.colour, dot.cloth.name))
        text.append(f"   {width(dot.at, settings)} wide, ")
        text.append(f"{self.chosen + 1} of {counted(len(curve.dots), 'suitable cloth')}\n")
        text.append_text(self._verdict(dot))
        text.append("\n")
        text.append(self._why(dot))
        return text

    def _verdict(self, dot: CurveDot) -> Text:
        settings, pairing = stash_of(self).settings, dot.pairing
        shown = enough(pairing.need.length, pairing.have, settings)
        free = shown.holds if shown else amount(pairing.have, settings, Measure.SPARE)
        text = verdict_text(pairing.verdict, self.app.theme_variables)
        text.append(spare_words(pairing.verdict, shown))
        if shown:
            text.append(f"   need {shown.needs} ({how_sure(pairing.need, settings.system)})")
        text.append(f"   free {free}   suit {pairing.suit:.0%}")
        return text

    def _why(self, dot: CurveDot) -> str:
        settings = stash_of(self).settings
        if dot.pairing.need.length is None:
            return dot.pairing.need.why
        if dot.apart:
            return f"Not judged by the line but by a need of its own: {dot.apart}."
        if dot.found_at is not None and dot.found_at < dot.at:
            narrower = width(dot.found_at, settings)
            return f"Its need is the one found for {narrower}: wider cloth never needs more."
        return "Cloths on or above the line fit."

    @on(Advanced)
    def _advanced(self, message: Advanced) -> None:
        self.query_one(Said).advance(message.done, message.total, message.what, "x")

    @on(Failed)
    def _failed(self, message: Failed) -> None:
        self.query_one(Said).fail(message.error)

    @on(Stopped)
    def _stopped(self) -> None:
        self.query_one(Said).say("Stopped. What was laid so far is kept; n begins again.")

    def on_worker_state_changed(self) -> None:
        """The key that stops work is there only while there is some."""
        self.refresh_bindings()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys that want a cloth, or work going on, are there only with them."""
        if action in ("following", "previous", "take") and self.chosen == NONE:
            return None
        if action == "stop" and not is_busy(self, "curve"):
            return None
        return super().check_action(action, parameters)

    def action_following(self) -> None:
        """Choose the next cloth."""
        self._move(1)

    def action_previous(self) -> None:
        """Choose the cloth before."""
        self._move(-1)

    def _move(self, by: int) -> None:
        if self.curve is not None and self.curve.dots:
            self.chosen = (self.chosen + by) % len(self.curve.dots)
            self._draw()

    def action_nap(self) -> None:
        """Lay it as if every cloth had nap, or as the cloths are."""
        self.question = replace(self.question, nap=None if self.question.nap else True)
        self._trace()

    def action_take(self) -> None:
        """Lay it on the chosen cloth."""
        if self.curve is not None and self.chosen != NONE:
            self.dismiss(str(self.curve.dots[self.chosen].cloth.id))

    def action_stop(self) -> None:
        """Stop working it out."""
        stop(self, "curve")

    def action_back(self) -> None:
        """Back to the lay."""
        self.dismiss(None)
