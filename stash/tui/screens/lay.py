"""The Lay: one role of a make or pattern on a cloth or width, drawn to scale."""

from __future__ import annotations

from dataclasses import replace
from threading import Event
from typing import TYPE_CHECKING, cast

from textual import on
from textual.widgets import Static

from stash.lay.problem import LayKind
from stash.report.lay_notches import notch_ticks
from stash.services.promises import promise
from stash.tui.actions import bindings
from stash.tui.messages import Advanced, Answered, Failed
from stash.tui.screens.form import FormScreen
from stash.tui.screens.lay_asks import LayQuestion, gap_form, laid_out, seconds_form, where_form
from stash.tui.screens.lay_figures import figures, gained
from stash.tui.screens.lay_view import LayView
from stash.tui.show import amount
from stash.tui.widgets.key_line import Foot, KeyLine
from stash.tui.widgets.lay_canvas import LayCanvas
from stash.tui.widgets.said import Said
from stash.tui.work import app_of, ask, is_busy, stash_of, with_remarks
from stash.units.format_length import Measure
from stash.units.length import Length

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from stash.report.records import LaidOut
    from stash.tui.work import Teller


class LaidDown(Answered):
    """The lay was worked out."""


class SearchEnded(Answered):
    """Nothing shorter is looked for any more."""


class LayPromised(Answered):
    """The cloth was promised."""


class LayScreen(LayView):
    """Opens over any room; Escape goes back to it."""

    place = "lay"
    BINDINGS = bindings("lay")

    def __init__(self, question: LayQuestion) -> None:
        super().__init__()
        self.question = question
        self.laid: LaidOut | None = None
        self.search: Event | None = None
        """Set to end the search for a shorter lay; None while there is none."""

    def compose(self) -> ComposeResult:
        """Title, the figures, the drawing."""
        yield Static("Lay", id="heading", markup=False)
        yield Static(id="figures", markup=False)
        yield LayCanvas()
        with Foot():
            yield Said()
            yield KeyLine()

    def on_mount(self) -> None:
        """Lay it; a pattern needs a width first."""
        asked = self.question
        if asked.pattern and not (asked.cloth or asked.width):
            self.action_width()
        else:
            self._lay()

    def _lay(self) -> None:
        asked, stash = self.question, stash_of(self)
        self.search = None
        self.query_one(Said).say("Laying the pieces …")
        ask(self, "lay", lambda teller: laid_out(stash, asked, weighed=teller.progress), LaidDown)

    @on(LaidDown)
    def _show(self, message: LaidDown) -> None:
        self.query_one(Said).hush()
        self._take(cast("LaidOut", message.answer))
        self.query_one(LayCanvas).focus()

    def _take(self, laid: LaidOut) -> None:
        self.laid = laid
        self.query_one("#heading", Static).update(f"Lay   {laid.title}")
        self._draw()
        self.refresh_bindings()

    def _draw(self) -> None:
        laid, settings = self.laid, stash_of(self).settings
        if laid is None:
            return
        best = self.question.kind is None
        text = figures(laid, settings, self.app.theme_variables, best=best)
        self.query_one("#figures", Static).update(text)
        shown = laid if laid.lay is not None else laid.stand_in or laid
        notches = notch_ticks(laid, laid.lay)
        self.query_one(LayCanvas).show(shown.lay, shown.problem, settings.system, notches)

    def on_screen_resume(self) -> None:
        """Draw it again: the colours may have changed."""
        self._draw()

    @on(Failed)
    def _failed(self, message: Failed) -> None:
        self.search = None
        self.query_one(Said).fail(message.error)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys are there only with what they want: a lay, pieces, a make, work going on."""
        laid, canvas = self.laid, self.query(LayCanvas)
        there = {
            "promise": self._can_promise(),
            "fit_in": self._can_promise() and laid is not None and laid.lay is not None,
            "nap": laid is not None,
            "kinds": laid is not None and laid.lay is not None,
            "search": laid is not None and laid.lay is not None and self.search is None,
            "stop": self.search is not None,
            "pan": bool(canvas) and canvas.first().is_zoomed,
        }
        return super().check_action(action, parameters) if there.get(action, True) else None

    def _can_promise(self) -> bool:
        laid = self.laid
        return laid is not None and laid.make is not None and laid.cloth is not None

    def action_kind(self) -> None:
        """Go to the next way the cloth may lie."""
        kinds: tuple[LayKind | None, ...] = (None, *LayKind)
        there = kinds.index(self.question.kind)
        self.question = replace(self.question, kind=kinds[(there + 1) % len(kinds)])
        self._lay()

    def action_nap(self) -> None:
        """Lay it with nap if it was without, and the other way round."""
        if self.laid is not None:
            self.question = replace(self.question, nap=not self.laid.nap)
            self._lay()

    def action_gap(self) -> None:
        """Ask for the gap between pieces."""
        self.app.push_screen(FormScreen(gap_form(self.question)), self._move)

    def action_width(self) -> None:
        """Ask for a width or for another cloth."""
        from stash.services.cloths import shelf

        stash = stash_of(self)
        form = where_form(self.question, lambda: [row.cloth.name for row in shelf(stash)])
        self.app.push_screen(FormScreen(form), self._move)

    def _move(self, question: object) -> None:
        if isinstance(question, LayQuestion):
            self.question = question
            self._lay()
        elif self.laid is None:
            self.action_back()

    def action_kinds(self) -> None:
        """Show every kind with its length, and lay the one chosen there."""
        from stash.tui.screens.kinds import KindsScreen

        self.app.push_screen(KindsScreen(self._on_this_cloth()), self._lay_as)

    def _lay_as(self, kind: LayKind | None) -> None:
        if kind is not None:
            self.question = replace(self.question, kind=kind)
            self._lay()

    def action_fit_in(self) -> None:
        """Look for what makes the make fit this cloth."""
        from stash.tui.screens.ways import WaysScreen
        from stash.tui.screens.ways_form import Asking

        laid = self.laid
        if laid is not None and laid.make is not None and laid.cloth is not None:
            make, cloth = str(laid.make.id), str(laid.cloth.id)
            self.app.push_screen(WaysScreen(Asking(make=make, role=laid.role, cloth=cloth)))

    def action_curve(self) -> None:
        """Show need against width, and lay on the cloth chosen there."""
        from stash.tui.screens.curve import CurveScreen

        self.app.push_screen(CurveScreen(self._on_this_cloth()), self._lay_on)

    def _on_this_cloth(self) -> LayQuestion:
        """The question with the cloth named that was found for it."""
        cloth = self.laid.cloth if self.laid is not None else None
        return self.question if cloth is None else replace(self.question, cloth=str(cloth.id))

    def _lay_on(self, cloth: str | None) -> None:
        if cloth is not None:
            self.question = replace(self.question, cloth=cloth, width=None, nap=None)
            self._lay()

    def action_search(self) -> None:
        """Ask how long to look for a shorter lay."""
        self.app.push_screen(FormScreen(seconds_form()), self._search)

    def _search(self, seconds: object) -> None:
        if not isinstance(seconds, float):
            return
        asked, stash, settings = self._on_this_cloth(), stash_of(self), stash_of(self).settings
        self.search = enough = Event()
        self.query_one(Said).say("Looking for a shorter lay …  (x stops it)")
        self.refresh_bindings()

        def look(teller: Teller) -> LaidOut:
            def told(share: float, best: float) -> bool:
                if enough.is_set() or teller.cancelled():
                    return False
                need = amount(Length.from_mm(best), settings, Measure.NEED)
                spent = round(share * seconds)
                teller.progress(spent, round(seconds), f"seconds, shortest so far {need}")
                return True

            return laid_out(stash, asked, seconds, told)

        ask(self, "lay", look, SearchEnded)

    @on(Advanced)
    def _advanced(self, message: Advanced) -> None:
        if self.search is None:
            self.query_one(Said).advance(message.done, message.total, message.what)
        elif not self.search.is_set():
            self.query_one(Said).advance(message.done, message.total, message.what, "x")

    @on(SearchEnded)
    def _ended(self, message: SearchEnded) -> None:
        before = self.laid.need.length if self.laid is not None else None
        laid = cast("LaidOut", message.answer)
        self.search = None
        self._take(laid)
        self.query_one(Said).say(gained(before, laid, stash_of(self).settings))

    def action_stop(self) -> None:
        """End the search; the shortest lay so far is shown and kept."""
        if self.search is not None:
            self.search.set()
            self.query_one(Said).say("Ending the search; the shortest lay so far is kept …")

    def action_promise(self) -> None:
        """Hold what this lay needs of the cloth for the make."""
        laid, stash = self.laid, stash_of(self)
        if laid is None or laid.make is None or laid.cloth is None or is_busy(self, "promise"):
            return
        make, cloth, role = laid.make, laid.cloth, laid.role
        enough = laid.verdict is not None and laid.verdict.can_be_cut
        length = laid.cut_from_shelf if enough else None
        ask(
            self,
            "promise",
            lambda _: with_remarks(
                f"✓ {cloth.name} is promised to {make.name}.",
                lambda r: promise(stash, str(make.id), role, str(cloth.id), length, remark=r),
            ),
            LayPromised,
        )

    @on(LayPromised)
    def _promised(self, message: LayPromised) -> None:
        app_of(self).changed()
        self.query_one(Said).say(str(message.answer))

    def action_back(self) -> None:
        """Close the lay."""
        self.dismiss(None)
