"""The Shelf: every cloth, what is free of it, and what it could become."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from rich.text import Text
from textual import on
from textual.containers import Container
from textual.widgets import Static

from stash.services import cloths
from stash.services.cloth_fields import CLOTH_FIELDS
from stash.services.names import namesakes
from stash.tui.actions import bindings
from stash.tui.messages import Answered
from stash.tui.screens.form import Form
from stash.tui.screens.keeping import KeepingRoom
from stash.tui.show import (
    amount,
    counted,
    enough,
    heading,
    spare_words,
    verdict_text,
    weight,
    width,
)
from stash.tui.widgets.detail import Detail
from stash.tui.widgets.filter_bar import FilterBar
from stash.tui.widgets.rows import Column, Row, Rows
from stash.tui.widgets.swatch import swatch
from stash.tui.work import ask, stash_of
from stash.units.format_length import Measure

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from textual.widget import Widget

    from stash.cloth.record import Cloth
    from stash.pairing.judgement import Pairing
    from stash.services.cloths import ShelfRow
    from stash.services.stash import Stash
    from stash.tui.work import Teller

EMPTY = """The shelf is empty.

Press a to put the first cloth on it: its name, whether it is woven or knit, its \
width and the length you have are enough. Type lengths as you say them: \
140 cm, 58", 2 5/8 yd, 2,40 m. If you keep a table of your cloth already, i brings it in.

To look around with invented cloths first, leave with q and run:  stash demo"""

ORDERS: tuple[tuple[str, Callable[[ShelfRow], object]], ...] = (
    ("name", lambda row: row.cloth.name.lower()),
    ("free length", lambda row: row.free.nm),
    ("width", lambda row: row.cloth.width.nm),
    ("structure", lambda row: row.cloth.structure.value),
    ("weight", lambda row: row.cloth.weight or 0.0),
    ("how loved", lambda row: row.cloth.loved),
)
"""What the shelf may be sorted by."""


class ShelfRead(Answered):
    """The shelf was read."""


class ClothStudied(Answered):
    """What one cloth is, and what it could become, was worked out."""


@dataclass(frozen=True, slots=True)
class Study:
    """One cloth in words, and its pairings with the names of the makes."""

    cloth: Cloth
    texts: dict[str, str]
    could: tuple[tuple[str, Pairing], ...] | None
    """None: still being worked out."""


class ShelfRoom(KeepingRoom):
    """A table with swatches; the chosen cloth beside it."""

    place = "shelf"
    noun = "cloth"
    needs_row = frozenset({"edit", "remove", "sort", "turn", "lay", "become"})
    BINDINGS = bindings("shelf")
    columns: ClassVar[tuple[Column, ...]] = (
        Column("Cloth", 20),
        Column("Width", 9),
        Column("Free", 9),
        Column("Structure", 9),
        Column("Weight", 11),
        Column("State", 8),
    )

    def __init__(self) -> None:
        super().__init__()
        self.found: dict[str, ShelfRow] = {}
        self.order = 0
        self.turned = False
        self.studied: Study | None = None
        self.waiting = ""
        """The cloth whose lay was asked for before it was there."""

    def content(self) -> Iterable[Widget]:
        """Filter, table, detail, and what to do when there is nothing."""
        yield FilterBar("words, is:knit, width>=140cm, length>2m, weight<200, state:free")
        yield Container(Rows(self.columns, id="rows"), Detail(), classes="with-detail")
        yield Static(EMPTY, classes="empty", markup=False)

    def reload(self) -> None:
        """Read the shelf through the filter."""
        query, stash = self.query_one(FilterBar).value, stash_of(self)
        ask(self, "read", lambda _: cloths.shelf(stash, query), ShelfRead)

    @on(ShelfRead)
    def _show(self, message: ShelfRead) -> None:
        rows: tuple[ShelfRow, ...] = message.answer  # type: ignore[assignment]
        self.found = {str(row.cloth.id): row for row in rows}
        self._draw()

    def _draw(self) -> None:
        title, key = ORDERS[self.order]
        rows = sorted(self.found.values(), key=lambda row: row.cloth.name.lower())
        rows.sort(key=key, reverse=self.turned)  # type: ignore[arg-type]
        self.fill([self._row(row) for row in rows])
        sign = "↓" if self.turned else "↑"
        self.head(f"{counted(len(rows), 'cloth')}, by {title} {sign}")

    def _row(self, row: ShelfRow) -> Row:
        cloth, settings = row.cloth, stash_of(self).settings
        name = swatch(cloth.colour, cloth.name)
        cells = (
            name,
            Text(width(cloth.width, settings), justify="right"),
            Text(amount(row.free, settings, Measure.SPARE), justify="right"),
            cloth.structure.value,
            Text(weight(cloth.weight, settings), justify="right"),
            row.state.value,
        )
        return Row(str(cloth.id), cells)

    def study(self, key: str) -> None:
        """Show what is known at once, and work out what the cloth could become."""
        if self.waiting not in ("", key):
            self.waiting = ""
            self.said.hush()
        cloth = self.found[key].cloth
        ask(self, "study", lambda teller: self._study(cloth, teller), ClothStudied)

    def _study(self, cloth: Cloth, teller: Teller) -> Study:
        from stash.services.makes import queue
        from stash.services.pairing import become

        stash = stash_of(self)
        texts = cloths.cloth_texts(stash, cloth)
        self.post_message(ClothStudied(Study(cloth, texts, None)))
        names = {row.make.id: row.make.name for row in queue(stash)}
        could = become(stash, str(cloth.id), progress=teller.check, cancelled=teller.cancelled)
        return Study(cloth, texts, tuple((names[p.make_id], p) for p in could))

    @on(ClothStudied)
    def _show_study(self, message: ClothStudied) -> None:
        study = message.answer
        assert isinstance(study, Study)
        self.studied = study
        self.query_one(Detail).show(self._describe(study))
        if study.could is not None and self.waiting == str(study.cloth.id):
            self.waiting = ""
            self.said.hush()
            if self.is_current:
                self.action_lay()

    def _describe(self, study: Study) -> Text:
        colours, settings = self.app.theme_variables, stash_of(self).settings
        text = Text()
        text.append_text(swatch(study.cloth.colour, study.cloth.name, cells=4))
        text.append("\nCould become", style=f"bold {colours['secondary']}")
        for name, pairing in study.could or ():
            text.append("\n")
            text.append_text(verdict_text(pairing.verdict, colours))
            text.append(
                spare_words(pairing.verdict, enough(pairing.need.length, pairing.have, settings))
            )
            text.append(f"  {name}, {pairing.role}")
        if study.could is None:
            text.append("\nlaying it out …")
        elif not study.could:
            text.append("\nnothing in the queue yet: makes wait in room 4")
        heading(text, "What it is", colours)
        for field in CLOTH_FIELDS:
            if study.texts.get(field.key):
                text.append(f"\n{field.label}: ", style="dim")
                text.append(study.texts[field.key])
        return text

    def add_form(self) -> Form:
        """A form for a new cloth."""
        stash = stash_of(self)
        return Form(
            title="A new cloth",
            fields=CLOTH_FIELDS,
            save=partial(self._add_cloth, stash),
        )

    def _add_cloth(self, stash: Stash, texts: Mapping[str, str]) -> Cloth:
        kept = cloths.add_cloth(stash, texts)
        self.remark = namesakes(stash, self.noun, kept)
        return kept

    def edit_form(self, key: str) -> Form:
        """A form for the chosen cloth."""
        stash, cloth = stash_of(self), self.found[key].cloth
        return Form(
            title=cloth.name,
            fields=CLOTH_FIELDS,
            texts=cloths.cloth_texts(stash, cloth),
            changing=True,
            save=lambda texts: self._edit(cloth, texts),
            over=lambda texts, now: self._edit(now, texts),
        )

    def _edit(self, base: Cloth, texts: Mapping[str, str]) -> Cloth:
        """Keep an edit and what is to be said of it; called in a worker."""
        said: list[str] = []
        stash = stash_of(self)
        kept = cloths.edit_cloth(stash, str(base.id), texts, base=base, remark=said.append)
        self.remark = " ".join(said)
        return kept

    def name_of(self, key: str) -> str:
        """Name of a cloth."""
        return self.found[key].cloth.name

    def forget(self, key: str) -> object:
        """Take the cloth off the shelf; called in a worker."""
        return cloths.remove_cloth(stash_of(self), key)

    def action_sort(self) -> None:
        """Sort by the next thing."""
        self.order = (self.order + 1) % len(ORDERS)
        self._draw()

    def action_turn(self) -> None:
        """Turn the order round."""
        self.turned = not self.turned
        self._draw()

    def action_become(self) -> None:
        """Open what the chosen cloth could become."""
        from stash.tui.screens.become import BecomeScreen

        cloth = self.table.chosen
        if cloth is not None:
            self.app.push_screen(BecomeScreen(cloth))

    def action_lay(self) -> None:
        """Lay the best make for this cloth on it."""
        from stash.tui.screens.lay import LayScreen
        from stash.tui.screens.lay_asks import LayQuestion

        cloth, study = self.table.chosen, self.studied
        if cloth is None:
            return
        if study is None or study.could is None or str(study.cloth.id) != cloth:
            self.waiting = cloth
            self.said.say("It is still being laid out: the best lay opens once it is there.")
            return
        if not study.could:
            self.said.say("No make in the queue could be cut from this cloth so far.")
            return
        _, pairing = study.could[0]
        question = LayQuestion(
            make=str(pairing.make_id), role=pairing.role, cloth=str(pairing.cloth_id)
        )
        self.app.push_screen(LayScreen(question))
