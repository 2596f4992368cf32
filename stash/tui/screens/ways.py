"""The Ways: what makes a role fit a cloth that is too short, and what each costs the garment."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, cast

from rich.text import Text
from textual import on
from textual.containers import Container
from textual.widgets import DataTable, Static

from stash.report.fit_text import SCALE, answer, cells, stands, steps
from stash.tui.actions import bindings
from stash.tui.messages import Answered
from stash.tui.screens.form import FormScreen
from stash.tui.screens.room import Room
from stash.tui.screens.ways_form import Asking, asking_form
from stash.tui.show import heading
from stash.tui.widgets.detail import Detail
from stash.tui.widgets.rows import Column, Row, Rows
from stash.tui.work import ask, stash_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual.widget import Widget

    from stash.report.fit_records import FitIn, Rung
    from stash.tui.work import Teller


class WaysFound(Answered):
    """The ways were laid out and put together."""


class WaysScreen(Room):
    """Opens over the Pairing or a Lay: the ladder first, then every way by itself."""

    place = "ways"
    slow = "ways"
    BINDINGS = bindings("ways")
    columns: ClassVar[tuple[Column, ...]] = (
        Column("Way", 32),
        Column("Need", 9),
        Column("Wins", 11),
        Column("Missing", 10),
        Column("Cost", 5),
    )

    def __init__(self, asking: Asking) -> None:
        super().__init__()
        self.asking = asking
        self.fit: FitIn | None = None

    def content(self) -> Iterable[Widget]:
        """Table and what to do."""
        yield Container(Rows(self.columns, id="rows"), Detail(), classes="with-detail -tall")
        yield Static("", classes="empty", markup=False)

    def reload(self) -> None:
        """Look for the ways."""
        asking, stash = self.asking, stash_of(self)
        self.said.say("Laying it out every way there is …")

        def find(teller: Teller) -> FitIn:
            from stash.services.fit_in import fit_in

            return fit_in(
                stash,
                asking.make,
                asking.cloth,
                asking.role,
                wishes=asking.wishes,
                progress=teller.progress,
                cancelled=teller.cancelled,
            )

        ask(self, "ways", find, WaysFound)

    @on(WaysFound)
    def _show(self, message: WaysFound) -> None:
        self.fit = fit = cast("FitIn", message.answer)
        self.head(f"{fit.make.name}, {fit.role}, on {fit.cloth.name}: {self._outcome(fit)}")
        self.end_progress()
        ladder = [self._row(f"l{n}", r, number=n) for n, r in enumerate(fit.ladder)]
        alone = [self._row(f"a{n}", r) for n, r in enumerate(fit.alone)]
        self.show_rows([*ladder, *alone], nothing=False)
        self.query_one(Rows).focus()

    def _outcome(self, fit: FitIn) -> str:
        if fit.as_it_is:
            return "it fits as it is"
        if not fit.fits:
            return "nothing makes it fit"
        changes = len(fit.ladder) - 1
        return f"fits with {changes} change{'s' if changes > 1 else ''}, cost {fit.cost:.2f}"

    def _row(self, key: str, rung: Rung, *, number: int | None = None) -> Row:
        colours = self.app.theme_variables
        name, *figures = cells(rung, stash_of(self).settings.system)
        if number is None:
            shown = Text(f"alone: {name[:1].lower()}{name[1:]}")
        else:
            style = f"bold {colours['success']}" if rung.fits else "bold"
            shown = Text(f"{number}. {name}" if number else name, style=style)
        if rung.fits:
            figures[2] = "✓ fits"
        return Row(key, (shown, *(Text(text, justify="right") for text in figures)))

    @property
    def chosen(self) -> Rung | None:
        """The rung under the cursor."""
        key = self.query_one(Rows).chosen
        if self.fit is None or key is None:
            return None
        rungs = self.fit.ladder if key.startswith("l") else self.fit.alone
        return rungs[int(key[1:])] if int(key[1:]) < len(rungs) else None

    @on(DataTable.RowHighlighted)
    def _explain(self) -> None:
        rung, fit = self.chosen, self.fit
        if rung is not None and fit is not None:
            self.query_one(Detail).show(self._describe(rung, fit))

    def _describe(self, rung: Rung, fit: FitIn) -> Text:
        colours, system = self.app.theme_variables, stash_of(self).settings.system
        if rung.way is not None:
            text = Text("\n".join(steps(rung, system)))
            text.append(f"\n{SCALE}")
            return text
        text = Text(stands(fit, system))
        for line in answer(fit, system, typed=False):
            text.append(f"\n{line}")
        if len(fit.ladder) > 1:
            heading(text, "What to do" if fit.fits else "The nearest", colours)
            for number, one in enumerate(fit.ladder[1:], start=1):
                for line in steps(one, system, f"{number}. "):
                    text.append(f"\n{line}")
        if fit.left_out and not fit.as_it_is:
            heading(text, "Not tried", colours)
            text.append("".join(f"\n{one.kind}: {one.why}" for one in fit.left_out))
        return text

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A drawing wants a lay."""
        if action == "draw":
            rung = self.chosen if self.is_mounted else None
            if rung is None or rung.laid is None:
                return None
        return super().check_action(action, parameters)

    def action_draw(self) -> None:
        """Draw the lay with everything up to this rung, and those of other cloths."""
        from stash.tui.screens.drawn import DrawnScreen

        rung = self.chosen
        if rung is not None and rung.laid is not None:
            given = [one.laid for one in rung.given if one.laid is not None]
            self.app.push_screen(DrawnScreen((rung.laid, *given)))

    def action_allow(self) -> None:
        """Say what may change, and look again."""
        self.app.push_screen(FormScreen(asking_form(self.asking)), self._allowed)

    def _allowed(self, asking: object) -> None:
        if isinstance(asking, Asking):
            self.asking = asking
            self.reload()

    async def action_back(self) -> None:
        """Back to where one came from."""
        self.dismiss(None)
