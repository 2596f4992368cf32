"""The Plan: what the season plan chose for every role, what moved, and accepting it."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, cast

from rich.text import Text
from textual import on
from textual.containers import Container
from textual.widgets import DataTable

from stash.config import System
from stash.report.plan_text import amounts, move_words, proof_words
from stash.tui.actions import bindings
from stash.tui.messages import Answered, Changed
from stash.tui.screens.room import Room
from stash.tui.widgets.detail import Detail
from stash.tui.widgets.rows import Column, Row, Rows
from stash.tui.work import app_of, ask, stash_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from textual.widget import Widget

    from stash.pairing.judgement import PlannedRole
    from stash.report.records import PlanBook
    from stash.services.accepting import Accepted
    from stash.tui.work import Teller


USUAL_CLOTH = {
    System.METRIC: ("m", ("115 cm", "150 cm")),
    System.IMPERIAL: ("yd", ("45 in", "60 in")),
}
"""How cloth is sold (common practice): the unit of its length, a narrow and a wide one."""


class PlanMade(Answered):
    """The plan, or the plan with something supposed, was made."""


class PlanAccepted(Answered):
    """Choices of the plan were promised."""


class PlanScreen(Room):
    """Opens over the Bench; every role of every make in the order to sew."""

    place = "plan"
    slow = "plan"
    BINDINGS = bindings("plan")
    columns: ClassVar[tuple[Column, ...]] = (
        Column("Make", 22),
        Column("For", 11),
        Column("Cloth", 22),
        Column("", 14),
    )

    def __init__(self) -> None:
        super().__init__()
        self.book: PlanBook | None = None
        self.supposed: tuple[str, ...] = ()

    def content(self) -> Iterable[Widget]:
        """Table and reasons."""
        yield Container(Rows(self.columns, id="rows"), Detail(), classes="with-detail")

    def reload(self) -> None:
        """Plan, with what is supposed."""
        revision, supposed = app_of(self).revision, self.supposed

        def plan(teller: Teller) -> PlanBook:
            if not supposed:
                return app_of(self).season.book(revision, teller)
            from stash.services.planning import plan_book

            return plan_book(
                stash_of(self),
                what_if=supposed,
                progress=teller.progress,
                cancelled=teller.cancelled,
            )

        ask(self, "plan", plan, PlanMade)

    @on(PlanMade)
    def _show(self, message: PlanMade) -> None:
        self.book = book = cast("PlanBook", message.answer)
        place = {make_id: number for number, make_id in enumerate(book.plan.order)}
        roles = sorted(book.plan.roles, key=lambda role: place[role.make_id])
        self.show_rows([self._row(role) for role in roles], nothing=not roles)
        self.head(self._words(book))
        self.end_progress()
        self._explain_chosen()

    def _words(self, book: PlanBook) -> str:
        plan = book.plan
        proof = proof_words(plan)
        moved = f", {len(book.moves)} moved" if book.moves or book.supposed else ""
        supposed = f"supposed: {'; '.join(book.supposed)}   " if book.supposed else ""
        return f"{supposed}{proof}{moved}"

    def _row(self, role: PlannedRole) -> Row:
        book, colours = cast("PlanBook", self.book), self.app.theme_variables
        moved = any((m.make_id, m.role) == (role.make_id, role.role) for m in book.moves)
        if role.pairing is None:
            name = "waits for the budget" if role.waits else "to be bought"
            cloth = Text(name, style=colours["warning"])
        else:
            cloth = Text(book.cloths[role.pairing.cloth_id].name)
        words = "promised" if role.pinned else "moved" if moved else ""
        if role.with_ is not None:
            words = f"{words} joint lay".strip()
        key = f"{role.make_id} {role.role.value}"
        return Row(key, (book.makes[role.make_id].name, role.role.value, cloth, words))

    @property
    def chosen(self) -> PlannedRole | None:
        """The role under the cursor."""
        if self.book is None:
            return None
        key, roles = self.query_one(Rows).chosen, self.book.plan.roles
        return next((r for r in roles if f"{r.make_id} {r.role.value}" == key), None)

    @on(DataTable.RowHighlighted)
    def _explain_chosen(self) -> None:
        role = self.chosen
        if role is not None and self.book is not None:
            self.query_one(Detail).show(self._describe(role, self.book))

    def _describe(self, role: PlannedRole, book: PlanBook) -> Text:
        colours, system = self.app.theme_variables, stash_of(self).settings.system
        text = Text.styled(f"{book.makes[role.make_id].name}, {role.role}", "bold")
        for move in book.moves:
            if (move.make_id, move.role) == (role.make_id, role.role):
                text.append(f"\nMoved: {move_words(book, move)}", style=colours["warning"])
        text.append(f"\n{role.why}")
        if role.pairing is not None:
            text.append(f"\n{amounts(role.pairing, system)}", style="dim")
        if role.runner_up is not None:
            other = role.runner_up
            name = book.cloths[other.cloth_id].name
            text.append(f"\nRunner-up: {name}, {other.verdict}, suit {other.suit:.0%}. ")
            text.append(amounts(other, system), style="dim")
        return text

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """What is only supposed cannot be accepted; a lay wants a cloth."""
        role = self.chosen
        if action in ("accept_all", "accept_one") and (self.supposed or role is None):
            return None
        if action == "lay" and (self.supposed or role is None or role.pairing is None):
            return None
        if action == "what_if" and self.book is None:
            return None
        return super().check_action(action, parameters)

    def action_accept_all(self) -> None:
        """Promise every choice."""
        self._accept(())

    def action_accept_one(self) -> None:
        """Promise what is chosen for the make under the cursor."""
        role = self.chosen
        if role is not None:
            self._accept((str(role.make_id),))

    def _accept(self, makes: Sequence[str]) -> None:
        from stash.services.accepting import accept_plan

        stash, book = stash_of(self), self.book
        if book is not None:
            ask(self, "accept", lambda _: accept_plan(stash, book, makes), PlanAccepted)

    @on(PlanAccepted)
    def _accepted(self, message: PlanAccepted) -> None:
        done = cast("Accepted", message.answer)
        count = len(done.promised)
        cloths = "1 cloth is" if count == 1 else f"{count} cloths are"
        self.post_message(Changed(f"✓ {cloths} promised. A later plan may move them, and says so."))

    def action_what_if(self) -> None:
        """Choose what to suppose, beside the make and cloth under the cursor."""
        from stash.tui.screens.choose import ChooseScreen

        role, book = self.chosen, self.book
        if role is None or book is None:
            return
        make = book.makes[role.make_id]
        unit, widths = USUAL_CLOTH[stash_of(self).settings.system]
        options = [(f"drop {make.id}", f"{make.name} is not sewn")]
        if role.pairing is not None and role.pairing.cloth_id > 0:
            cloth = book.cloths[role.pairing.cloth_id]
            options += [
                (f"without {cloth.id}", f"{cloth.name} is not to be had"),
                (f"buy 1 {unit} of {cloth.id}", f"1 {unit} more of {cloth.name}"),
            ]
        options += [
            (f"buy {length} {unit} of {width}", f"{length} {unit} of a new cloth, {width} wide")
            for length in (2, 3)
            for width in widths
        ]
        self.app.push_screen(ChooseScreen("What if …", options, ""), self._suppose)

    def _suppose(self, text: str | None) -> None:
        if text is not None:
            self.supposed = (*self.supposed, text)
            self.reload()

    def action_lay(self) -> None:
        """Draw the lay on the chosen cloth."""
        from stash.tui.screens.lay import LayScreen
        from stash.tui.screens.lay_asks import LayQuestion

        role = self.chosen
        if role is not None and role.pairing is not None:
            question = LayQuestion(
                make=str(role.make_id), role=role.role, cloth=str(role.pairing.cloth_id)
            )
            self.app.push_screen(LayScreen(question))

    async def action_back(self) -> None:
        """Drop what was supposed; then back to the Bench."""
        if self.supposed:
            self.supposed = ()
            self.reload()
            return
        self.dismiss(None)
