"""The Kinds: every kind of lay with its length, to choose one from."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, cast

from rich.text import Text
from textual import on
from textual.screen import Screen
from textual.widgets import DataTable, Static

from stash.lay.problem import LayKind
from stash.report.kinds_text import beside, need_words, spare_words
from stash.services.lay_kinds import lay_kinds
from stash.tui.actions import bindings
from stash.tui.messages import Advanced, Answered, Failed, Stopped
from stash.tui.show import usable
from stash.tui.widgets.key_line import Foot, KeyLine
from stash.tui.widgets.rows import Column, Row, Rows
from stash.tui.widgets.said import Said
from stash.tui.work import ask, is_busy, stash_of, stop

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from stash.report.records import KindRow, KindTable
    from stash.tui.screens.lay_asks import LayQuestion
    from stash.tui.work import Teller

WHAT: dict[LayKind, str] = {
    LayKind.OPEN: "A single layer: every piece is cut once, each on its own.",
    LayKind.FOLDED: "Folded lengthwise into two layers: pairs are cut in one go.",
    LayKind.GATE: "Both selvedges folded in to meet: two layers with a fold on either side.",
    LayKind.CROSSWAYS: "Folded end to end: two layers as wide as the cloth.",
}


class KindsLaid(Answered):
    """Every kind was laid out, or found to be impossible."""


class KindsScreen(Screen[LayKind | None]):
    """Opens over the Lay; answers with the kind chosen, or None."""

    place = "kinds"
    BINDINGS = bindings("kinds")
    columns: ClassVar[tuple[Column, ...]] = (
        Column("Kind", 10),
        Column("Need", 9),
        Column("Beside the shortest", 20),
        Column("On this cloth", 18),
    )

    def __init__(self, question: LayQuestion) -> None:
        super().__init__()
        self.question = question
        self.kinds: KindTable | None = None

    def compose(self) -> ComposeResult:
        """Title, the table, what is to be known of the chosen kind."""
        yield Static("Kinds", id="heading", markup=False)
        yield Static(id="figures", markup=False)
        yield Rows(self.columns, id="rows")
        with Foot():
            yield Static(id="hint", markup=False)
            yield Said()
            yield KeyLine()

    def on_mount(self) -> None:
        """Work them out."""
        asked, stash = self.question, stash_of(self)
        self.query_one(Said).say("Laying every kind …")

        def lay(teller: Teller) -> KindTable:
            return lay_kinds(
                stash,
                asked.make or asked.pattern,
                asked.role,
                size="" if asked.make else asked.size,
                view="" if asked.make else asked.view,
                bare=not asked.make,
                progress=teller.progress,
                cancelled=teller.cancelled,
                **asked.how,
            )

        ask(self, "kinds", lay, KindsLaid)

    @on(KindsLaid)
    def _show(self, message: KindsLaid) -> None:
        self.kinds = kinds = cast("KindTable", message.answer)
        settings = stash_of(self).settings
        self.query_one(Said).hush()
        self.query_one("#heading", Static).update(f"Kinds   {kinds.title}")
        nap = "with nap" if kinds.nap else "without nap"
        self.query_one("#figures", Static).update(
            f"usable {usable(kinds.usable_width, settings)}, {nap}   shortest: {kinds.best}"
        )
        table = self.query_one(Rows)
        chosen = self.question.kind or kinds.best
        table.fill([self._row(row, kinds) for row in kinds.rows], chosen=chosen)
        table.focus()
        self.refresh_bindings()

    def _row(self, row: KindRow, kinds: KindTable) -> Row:
        system, colours = stash_of(self).settings.system, self.app.theme_variables
        style = ""
        if row.need is None:
            style = colours["error"]
        elif row.kind is kinds.best:
            style = f"bold {colours['success']}"
        cells = (
            row.kind.value,
            Text(need_words(row, kinds, system), justify="right"),
            Text(beside(row, kinds, system), style=style),
            spare_words(row, kinds, system),
        )
        return Row(row.kind.value, cells)

    @property
    def chosen(self) -> KindRow | None:
        """The kind under the cursor."""
        key = self.query_one(Rows).chosen
        rows = self.kinds.rows if self.kinds is not None else ()
        return next((row for row in rows if row.kind.value == key), None)

    @on(DataTable.RowHighlighted)
    def _explain(self) -> None:
        row = self.chosen
        if row is not None:
            self.query_one("#hint", Static).update(row.why or WHAT[row.kind])

    @on(Advanced)
    def _advanced(self, message: Advanced) -> None:
        self.query_one(Said).advance(message.done, message.total, message.what, "x")

    @on(Failed)
    def _failed(self, message: Failed) -> None:
        self.query_one(Said).fail(message.error)

    @on(Stopped)
    def _stopped(self) -> None:
        self.query_one(Said).say("Stopped. What was laid so far is kept.")

    def on_worker_state_changed(self) -> None:
        """The key that stops work is there only while there is some."""
        self.refresh_bindings()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys that want the table, or work going on, are there only with them."""
        if action == "take" and self.kinds is None:
            return None
        if action == "stop" and not is_busy(self, "kinds"):
            return None
        return super().check_action(action, parameters)

    def action_take(self) -> None:
        """Lay it in the chosen kind."""
        row = self.chosen
        if row is None:
            return
        if row.need is None:
            self.query_one(Said).say(f"It cannot be laid {row.kind}. Choose another kind.")
            return
        self.dismiss(row.kind)

    def action_stop(self) -> None:
        """Stop working them out."""
        stop(self, "kinds")

    def action_back(self) -> None:
        """Back to the lay."""
        self.dismiss(None)
