"""The Pairing: one role of a make against every cloth on the shelf."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, cast

from rich.text import Text
from textual import on
from textual.containers import Container
from textual.widgets import DataTable, Static

from stash.pairing.judgement import Sureness
from stash.tui.actions import bindings
from stash.tui.messages import Answered, Changed
from stash.tui.screens.choose import ChooseScreen
from stash.tui.screens.pairing_words import pairing_words
from stash.tui.screens.room import Room
from stash.tui.show import amount, enough, suit_text, verdict_text
from stash.tui.widgets.detail import Detail
from stash.tui.widgets.rows import Column, Row, Rows
from stash.tui.widgets.swatch import swatch
from stash.tui.work import Teller, ask, stash_of, with_remarks

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from textual.widget import Widget

    from stash.cloth.record import Cloth
    from stash.garment.pattern import Role
    from stash.pairing.judgement import Pairing
    from stash.services.makes import Held, MakeRow

NO_MAKE = """Nothing to pair yet: no make in the queue.

Room 4 keeps the makes; press 4, then a, to add one. A make needs a pattern (room 3) \
and, to be judged, cloths on the shelf (room 2)."""

NO_CLOTH = """There is no cloth to set against it.

Press 2, then a, to put a cloth on the shelf; m chooses another make."""

NO_ROLE = """Its pattern has no pieces and no chart for it yet, so nothing says how much it takes.

Press 3 for the patterns: p draws a piece from a few measurements, c adds a line of the \
envelope's chart. m chooses another make."""


@dataclass(frozen=True, slots=True)
class Board:
    """The makes to choose from, the one chosen, and its pairings."""

    makes: tuple[MakeRow, ...]
    make: MakeRow | None
    role: Role | None
    pairings: tuple[Pairing, ...]
    cloths: Mapping[int, Cloth]


class MakesListed(Answered):
    """The makes were read; the pairings are still being worked out."""


class Paired(Answered):
    """The make was set against the shelf."""


class PairingPromised(Answered):
    """The chosen cloth was promised."""


class PairingReleased(Answered):
    """The cloth of the role was freed."""


class PairingRoom(Room):
    """Cloths ranked for one role; the reasons beside them."""

    place = "pairing"
    slow = "pair"
    BINDINGS = bindings("pairing")
    columns: ClassVar[tuple[Column, ...]] = (
        Column("Cloth", 25),
        Column("Verdict", 12),
        Column("Need", 9),
        Column("Spare", 10),
        Column("Suit", 12),
    )

    def __init__(self) -> None:
        super().__init__()
        self.make = ""
        self.role: Role | None = None
        self.board = Board((), None, None, (), {})
        self._wanted = ""
        """Cloth the cursor goes to as soon as it is there."""

    def content(self) -> Iterable[Widget]:
        """Table and reasons, or what is missing."""
        yield Container(Rows(self.columns, id="rows"), Detail(), classes="with-detail -tall")
        yield Static(NO_MAKE, classes="empty", id="empty", markup=False)

    def choose(self, make: str, role: Role | None = None) -> None:
        """Set another make against the shelf."""
        if (make, role) != (self.make, self.role):
            self.make, self.role = make, role
            self.reload()

    def reload(self) -> None:
        """Work out the pairings of the chosen make."""
        make, role = self.make, self.role
        ask(self, "pair", lambda teller: self._pair(make, role, teller), Paired)

    def _pair(self, make: str, role: Role | None, teller: Teller) -> Board:
        from stash.services.cloths import shelf
        from stash.services.makes import queue
        from stash.services.muslin import pair_and_advise

        stash = stash_of(self)
        rows = tuple(row for row in queue(stash) if row.make.state.wants_cloth)
        by_key = {str(row.make.id): row for row in rows}
        chosen = by_key.get(make) or next(iter(rows), None)
        cloths = {row.cloth.id: row.cloth for row in shelf(stash)}
        if chosen is None or not chosen.roles:
            return Board(rows, chosen, None, (), cloths)
        wanted = role if role in chosen.roles else chosen.roles[0]
        self.post_message(MakesListed(Board(rows, chosen, wanted, (), cloths)))
        found = pair_and_advise(
            stash,
            str(chosen.make.id),
            wanted,
            progress=teller.progress,
            cancelled=teller.cancelled,
        )
        return Board(rows, chosen, wanted, found, cloths)

    @on(MakesListed)
    def _show_title(self, message: MakesListed) -> None:
        self._take(cast("Board", message.answer))
        self.said.say("Setting it against the shelf …")

    @on(Paired)
    def _show(self, message: Paired) -> None:
        board = cast("Board", message.answer)
        self._take(board)
        self.end_progress()
        if not board.pairings:
            missing = NO_CLOTH
            if board.make is None:
                missing = NO_MAKE
            elif board.role is None:
                missing = NO_ROLE
            self.query_one("#empty", Static).update(missing)
        rows = [self._row(pairing) for pairing in board.pairings]
        self.show_rows(rows, nothing=not rows)
        if self._wanted:
            self.query_one(Rows).choose(self._wanted)
            self._wanted = ""

    def _take(self, board: Board) -> None:
        self.board = board
        if board.make is None:
            self.head("")
            return
        self.make, self.role = str(board.make.make.id), board.role
        held = [
            f"promised {entry.cloth}"
            for entry in board.make.held
            if entry.promise.role == board.role
        ]
        place = ""
        if board.role is not None and len(board.make.roles) > 1:
            place = f" (role {board.make.roles.index(board.role) + 1} of {len(board.make.roles)})"
        words = [board.make.make.name, f"{board.role or ''}{place}", *held]
        self.head(", ".join(word for word in words if word))

    def _row(self, pairing: Pairing) -> Row:
        settings, colours = stash_of(self).settings, self.app.theme_variables
        cloth = self.board.cloths[pairing.cloth_id]
        name = swatch(cloth.colour, cloth.name)
        sure = "~" if pairing.need.sureness is Sureness.ESTIMATED else ""
        shown = enough(pairing.need.length, pairing.have, settings)
        need = sure + shown.needs if shown else amount(None, settings)
        cells = (
            name,
            verdict_text(pairing.verdict, colours),
            Text(need, justify="right"),
            Text(shown.signed if shown else amount(None, settings), justify="right"),
            suit_text(pairing),
        )
        return Row(str(pairing.cloth_id), cells)

    @on(DataTable.RowHighlighted)
    def _explain(self, event: DataTable.RowHighlighted) -> None:
        key = event.row_key.value
        pairing = next((p for p in self.board.pairings if str(p.cloth_id) == key), None)
        if pairing is not None:
            colours, settings = self.app.theme_variables, stash_of(self).settings
            text = pairing_words(pairing, self.board.cloths, settings, colours)
            self.query_one(Detail).show(text)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys that need a cloth, a make or a second role are there only with them."""
        roles = self.board.make.roles if self.board.make else ()
        missing = {
            "make": not self.board.makes,
            "role": len(roles) < 2,
            "lay": not self.board.pairings,
            "promise": not self.board.pairings,
            "fit_in": not self.board.pairings,
            "release": not any(e.promise.role == self.role for e in self._held()),
        }
        return None if missing.get(action) else super().check_action(action, parameters)

    def _held(self) -> tuple[Held, ...]:
        return self.board.make.held if self.board.make else ()

    def action_make(self) -> None:
        """Choose the make."""
        options = [(str(row.make.id), row.make.name) for row in self.board.makes]
        screen = ChooseScreen("Which make?", options, self.make)
        self.app.push_screen(screen, self._make_chosen)

    def _make_chosen(self, make: str | None) -> None:
        if make is not None:
            self.choose(make)

    def action_role(self) -> None:
        """Go to the next role of the make."""
        if self.board.make is not None and self.role is not None:
            roles = self.board.make.roles
            self.choose(self.make, roles[(roles.index(self.role) + 1) % len(roles)])

    def action_lay(self) -> None:
        """Draw the lay on the chosen cloth."""
        from stash.tui.screens.lay import LayScreen
        from stash.tui.screens.lay_asks import LayQuestion

        cloth = self.query_one(Rows).chosen
        if cloth is not None and self.role is not None:
            self.app.push_screen(
                LayScreen(LayQuestion(make=self.make, role=self.role, cloth=cloth))
            )

    def look_at(self, make: str, role: Role, cloth: str) -> None:
        """Set this make against the shelf, with the cursor on this cloth."""
        self._wanted = cloth
        self.choose(make, role)
        if (make, role) == (self.make, self.role):
            self.query_one(Rows).choose(cloth)

    def action_grid(self) -> None:
        """Every make against every cloth at once."""
        from stash.tui.screens.grid import GridScreen

        self.app.push_screen(GridScreen())

    def action_fit_in(self) -> None:
        """Look for what makes it fit the chosen cloth."""
        from stash.tui.screens.ways import WaysScreen
        from stash.tui.screens.ways_form import Asking

        cloth = self.query_one(Rows).chosen
        if cloth is not None and self.role is not None:
            self.app.push_screen(WaysScreen(Asking(make=self.make, role=self.role, cloth=cloth)))

    def action_promise(self) -> None:
        """Promise the chosen cloth to the role."""
        from stash.services.promises import promise

        stash, make, role, cloth = stash_of(self), self.make, self.role, self.query_one(Rows).chosen
        if cloth is not None and role is not None:
            ask(
                self,
                "promise",
                lambda _: with_remarks(
                    "✓ Promised. The season plan leaves it alone from now on.",
                    lambda remark: promise(stash, make, role, cloth, remark=remark),
                ),
                PairingPromised,
            )

    @on(PairingPromised)
    def _promised(self, message: PairingPromised) -> None:
        self.post_message(Changed(str(message.answer)))

    def action_release(self) -> None:
        """Free the cloth promised to the role."""
        from stash.services.promises import release

        stash, make, role = stash_of(self), self.make, self.role
        ask(self, "promise", lambda _: release(stash, make, role), PairingReleased)

    @on(PairingReleased)
    def _released(self) -> None:
        self.post_message(Changed("✓ The cloth is free again."))
