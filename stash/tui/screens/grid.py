"""The Grid: every make against every cloth at once, a glyph for each verdict."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from rich.text import Text
from textual import on
from textual.containers import Container
from textual.widgets import DataTable, Static

from stash.pairing.judgement import Verdict
from stash.tui.actions import bindings
from stash.tui.messages import Answered
from stash.tui.screens.pairing_words import pairing_words
from stash.tui.screens.room import Room
from stash.tui.show import VERDICTS
from stash.tui.widgets.detail import Detail
from stash.tui.widgets.squares import Squares
from stash.tui.widgets.swatch import swatch
from stash.tui.work import ask, stash_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual.widget import Widget

    from stash.pairing.judgement import Pairing
    from stash.services.pair_grid import Grid, GridColumn
    from stash.tui.work import Teller

NOTHING = """There is nothing to set against each other yet.

Press esc, then 2 and a for a cloth, 4 and a for a make with a pattern that has pieces or a \
chart."""
WELL = 0.75
"""From this suit on a cloth that is enough is written bold: it is right for it, too."""


class GridGrown(Answered):
    """One column more was worked out."""


class GridDone(Answered):
    """All of it was worked out."""


class GridScreen(Room):
    """Opens over the Pairing; answers with the make, role and cloth to look at closer."""

    place = "grid"
    slow = "grid"
    AUTO_FOCUS = "Squares"
    BINDINGS = bindings("grid")

    def __init__(self) -> None:
        super().__init__()
        self.grid: Grid | None = None
        self.done = 0

    def content(self) -> Iterable[Widget]:
        """The squares, and the reasons of the chosen one."""
        yield Container(Squares(), Detail(), classes="with-detail -tall")
        yield Static(NOTHING, classes="empty", markup=False)

    def reload(self) -> None:
        """Work it out, column by column."""
        stash = stash_of(self)
        self.said.say("Setting every make against the shelf …")

        def find(teller: Teller) -> Grid:
            from stash.services.pair_grid import pair_grid

            return pair_grid(
                stash,
                told=lambda grid, done: self._tell(teller, grid, done),
                progress=teller.progress,
                cancelled=teller.cancelled,
            )

        ask(self, "grid", find, GridDone)

    def _tell(self, teller: Teller, grid: Grid, done: int) -> None:
        if not teller.cancelled():
            self.post_message(GridGrown((grid, done)))

    @on(GridGrown)
    def _grow(self, message: GridGrown) -> None:
        grid, done = cast("tuple[Grid, int]", message.answer)
        squares = self.query_one(Squares)
        self.grid, self.done = grid, done
        if done == 0:
            self.set_class(not (grid.cloths and grid.columns), "-nothing")
            heads = [self._head(place) for place in range(len(grid.columns))]
            sides = [(str(one.id), swatch(one.colour, one.name)) for one in grid.cloths]
            squares.lay_out("Cloth", heads, sides)
            squares.focus()
            return
        column = grid.columns[done - 1]
        for number, pairing in column.pairings.items():
            squares.put(str(number), done - 1, self._cell(pairing))
        self._explain()

    def _head(self, place: int) -> str:
        """The number of the make, and the first letter of a role that is not its first."""
        assert self.grid is not None
        columns = self.grid.columns
        makes = list(dict.fromkeys(column.make.id for column in columns))
        column = columns[place]
        first = next(one for one in columns if one.make.id == column.make.id)
        letter = "" if first is column else column.role.value[:1]
        return f"{makes.index(column.make.id) + 1}{letter}"

    def _cell(self, pairing: Pairing) -> Text:
        glyph, colour = VERDICTS[pairing.verdict]
        style = self.app.theme_variables[colour]
        if pairing.verdict.can_be_cut and pairing.suit >= WELL:
            style = f"bold {style}"
        return Text(glyph, style="dim" if pairing.verdict is Verdict.UNSUITED else style)

    @on(GridDone)
    def _end(self, message: GridDone) -> None:
        grid = cast("Grid", message.answer)
        self.end_progress()
        self.head(f"{grid.able} of {len(grid.cloths)} cloths can be cut for something")
        self.refresh_bindings()

    @on(DataTable.CellHighlighted)
    def _explain(self) -> None:
        found = self._chosen()
        if found is None or self.grid is None:
            return
        column, cloth = found
        settings, colours = stash_of(self).settings, self.app.theme_variables
        place = self._head(self.grid.columns.index(column))
        text = Text.styled(f"{place}: {column.make.name}, {column.role}\n", "bold")
        pairing = column.pairings.get(cloth)
        if pairing is None:
            text.append("Not worked out yet.")
        else:
            cloths = {one.id: one for one in self.grid.cloths}
            text.append_text(pairing_words(pairing, cloths, settings, colours))
        self.query_one(Detail).show(text)

    def _chosen(self) -> tuple[GridColumn, int] | None:
        """The column and the cloth under the cursor."""
        chosen = self.query_one(Squares).chosen if self.grid is not None else None
        if chosen is None or self.grid is None or chosen[1] >= len(self.grid.columns):
            return None
        return self.grid.columns[chosen[1]], int(chosen[0])

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys that need a make and a cloth are there only with them."""
        if action in ("pair", "fit_in", "lay") and not (self.grid and self.grid.columns):
            return None
        return super().check_action(action, parameters)

    def action_pair(self) -> None:
        """Look at the chosen make and cloth in the Pairing."""
        found = self._chosen()
        if found is not None:
            self.dismiss_with(found[0], found[1])

    def dismiss_with(self, column: GridColumn, cloth: int) -> None:
        """Close, and let the Pairing go there."""
        from stash.tui.screens.pairing import PairingRoom

        room = self.app.screen_stack[-2]
        self.dismiss(None)
        if isinstance(room, PairingRoom):
            room.look_at(str(column.make.id), column.role, str(cloth))

    def action_lay(self) -> None:
        """Draw the lay of the chosen make on the chosen cloth."""
        from stash.tui.screens.lay import LayScreen
        from stash.tui.screens.lay_asks import LayQuestion

        found = self._chosen()
        if found is not None:
            make, role = str(found[0].make.id), found[0].role
            question = LayQuestion(make=make, role=role, cloth=str(found[1]))
            self.app.push_screen(LayScreen(question))

    def action_fit_in(self) -> None:
        """Look for what makes the chosen make fit the chosen cloth."""
        from stash.tui.screens.ways import WaysScreen
        from stash.tui.screens.ways_form import Asking

        found = self._chosen()
        if found is not None:
            make, role = str(found[0].make.id), found[0].role
            self.app.push_screen(WaysScreen(Asking(make=make, role=role, cloth=str(found[1]))))

    async def action_back(self) -> None:
        """Back to the Pairing."""
        self.dismiss(None)
