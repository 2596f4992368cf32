"""The Bench: what can I sew next, and what stops me."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, cast

from rich.text import Text
from textual import on
from textual.containers import Container
from textual.widgets import DataTable, Static

from stash.report.plan_text import proof_words
from stash.tui.actions import bindings
from stash.tui.messages import Answered
from stash.tui.screens.room import Room
from stash.tui.widgets.detail import Detail
from stash.tui.widgets.rows import Column, Row, Rows
from stash.tui.work import Teller, app_of, ask, stash_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual.widget import Widget

    from stash.report.records import PlanBook
    from stash.services.bench import BenchRow
    from stash.services.makes import MakeRow

EMPTY = """Welcome to the bench: nothing waits to be sewn yet.

  1.  Press 2 and then a:  put a cloth on the shelf.
  2.  Press 3 and then a:  add a pattern; then p draws its pieces.
  3.  Press 4 and then a:  add a make, a garment you mean to sew from it.

Then the bench says what can be sewn next, and what stops it.
Keys stand at the foot of every screen; ? tells more."""


@dataclass(frozen=True, slots=True)
class Work:
    """The queue in the order to sew, with the plan behind it."""

    rows: tuple[BenchRow, ...]
    book: PlanBook


class QueueListed(Answered):
    """The makes were read; the plan is still being made."""


class SeasonPlanned(Answered):
    """The season plan was made."""


class BenchRoom(Room):
    """Makes in the order to sew; why the chosen one waits beside them."""

    place = "bench"
    slow = "plan"
    BINDINGS = bindings("bench")
    columns: ClassVar[tuple[Column, ...]] = (
        Column("", 7),
        Column("Make", 22),
        Column("For", 10),
        Column("Cloth, or what stops it", 30),
    )

    def __init__(self) -> None:
        super().__init__()
        self.rows: dict[str, BenchRow] = {}
        self.book: PlanBook | None = None

    def content(self) -> Iterable[Widget]:
        """Table and reasons, or where to begin."""
        yield Container(Rows(self.columns, id="rows"), Detail(), classes="with-detail")
        yield Static(EMPTY, classes="empty", markup=False)

    def reload(self) -> None:
        """Show the queue at once, then plan it."""
        revision = app_of(self).revision
        ask(self, "plan", lambda teller: self._plan(revision, teller), SeasonPlanned)

    def _plan(self, revision: int, teller: Teller) -> Work:
        from stash.services.bench import bench
        from stash.services.makes import queue

        stash = stash_of(self)
        self.post_message(QueueListed(queue(stash)))
        book = app_of(self).season.book(revision, teller)
        return Work(bench(stash, book.plan, cancelled=teller.cancelled), book)

    @on(QueueListed)
    def _list(self, message: QueueListed) -> None:
        found = cast("tuple[MakeRow, ...]", message.answer)
        self.refresh_bindings()
        if self.rows or not found:
            return
        self.head("the season plan is being made")
        self.said.advance(0, 0, "laying the pieces out", "x")
        waiting = [row for row in found if row.make.state.wants_cloth]
        self.query_one(Rows).fill(
            [Row(str(row.make.id), ("…", row.make.name, row.person, "")) for row in waiting]
        )

    @on(SeasonPlanned)
    def _show(self, message: SeasonPlanned) -> None:
        work = cast("Work", message.answer)
        self.rows = {str(row.make.id): row for row in work.rows}
        self.book = work.book
        self.show_rows([self._row(row) for row in work.rows], nothing=not work.rows)
        ready = sum(row.ready for row in work.rows)
        plan = work.book.plan
        proof = "" if plan.proven else f", {proof_words(plan)}"
        self.head(f"{ready} of {len(work.rows)} can be sewn now{proof}" if work.rows else "")
        self.end_progress()
        self._explain_chosen()

    def _row(self, row: BenchRow) -> Row:
        colours = self.app.theme_variables
        if row.ready:
            sign = Text("✓ ready", style=colours["success"])
        else:
            sign = Text("✗ waits", style=colours["warning"])
        name = row.make.name + (" (muslin)" if row.make.muslin else "")
        what = "; ".join(row.cloths) if row.ready else " ".join(row.stops)
        return Row(str(row.make.id), (sign, name, row.person, what))

    @on(DataTable.RowHighlighted)
    def _explain_chosen(self) -> None:
        row = self.rows.get(self.query_one(Rows).chosen or "")
        if row is not None and self.book is not None:
            self.query_one(Detail).show(self._describe(row))

    def _describe(self, row: BenchRow) -> Text:
        make, colours = row.make, self.app.theme_variables
        text = Text.styled(make.name, "bold")
        words = [row.pattern, f"size {make.size}" if make.size else "", make.state.value]
        if make.due:
            words.append(f"due {make.due.isoformat()}")
        text.append("\n" + ", ".join(word for word in words if word))
        for stop_words in row.stops:
            text.append(f"\n✗ {stop_words}", style=colours["warning"])
        for cloth in row.cloths:
            text.append(f"\n• {cloth}")
        for role in row.roles:
            text.append(f"\n{role.role}: {role.why}", style="dim")
        return text

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys that need a make, or a plan under way, are there only with one."""
        if action == "view" and self.book is None:
            return None
        if action in ("pair", "lay", "plan", "view") and not self.query_one(Rows).row_count:
            return None
        return super().check_action(action, parameters)

    def action_plan(self) -> None:
        """Make the season plan again, or go on with it after a stop."""
        self.reload()

    def action_stop(self) -> None:
        """Stop the plan that is being made."""
        super().action_stop()
        self.head("the season plan was stopped; s goes on with it")

    def action_view(self) -> None:
        """Open the plan: choices, moves, runners-up."""
        from stash.tui.screens.plan import PlanScreen

        self.app.push_screen(PlanScreen())

    async def action_pair(self) -> None:
        """Set the chosen make against the shelf."""
        from stash.tui.screens.pairing import PairingRoom

        key = self.query_one(Rows).chosen
        if key is not None:
            room = await app_of(self).open("pairing")
            assert isinstance(room, PairingRoom)
            room.choose(key)

    def action_lay(self) -> None:
        """Draw the lay of the chosen make."""
        from stash.tui.screens.lay import LayScreen
        from stash.tui.screens.lay_asks import LayQuestion

        key = self.query_one(Rows).chosen
        if key is not None:
            roles = self.rows[key].roles if key in self.rows else ()
            question = LayQuestion(make=key, role=roles[0].role) if roles else LayQuestion(make=key)
            self.app.push_screen(LayScreen(question))
