"""The Makes: what is to be sewn, what is under way, what is worn."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from rich.text import Text
from textual import on
from textual.containers import Container
from textual.widgets import Static

from stash.services import makes
from stash.services.make_fields import MAKE_FIELDS
from stash.services.names import namesakes
from stash.services.promises import cut, release
from stash.tui.actions import bindings
from stash.tui.messages import Answered, Changed
from stash.tui.screens.confirm import ConfirmScreen
from stash.tui.screens.form import Form
from stash.tui.screens.keeping import KeepingRoom
from stash.tui.show import amount, counted, heading
from stash.tui.widgets.detail import Detail
from stash.tui.widgets.filter_bar import FilterBar
from stash.tui.widgets.rows import Column, Row, Rows
from stash.tui.work import app_of, ask, stash_of, with_remarks
from stash.units.format_length import Measure

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from textual.widget import Widget

    from stash.garment.make import Make
    from stash.garment.pattern import Pattern
    from stash.services.makes import MakeRow
    from stash.services.stash import Stash

EMPTY = """Nothing waits to be sewn.

Press a to add a make: a name for it, and which of your patterns it is made from. \
There must be a pattern first: they live in room 3."""


class MakesRead(Answered):
    """The makes were read."""


class Cut(Answered):
    """A make was cut."""


class Released(Answered):
    """The cloth of a make was freed."""


@dataclass(frozen=True, slots=True)
class Names:
    """What may be typed into the fields that name another record."""

    patterns: dict[str, Pattern]
    people: tuple[str, ...]
    makes: tuple[str, ...]

    @classmethod
    def read(cls, stash: Stash) -> Names:
        """All names of the stash; called in a worker."""
        from stash.services.patterns import all_patterns
        from stash.services.people import all_people

        return cls(
            {row.pattern.name: row.pattern for row in all_patterns(stash)},
            tuple(person.name for person in all_people(stash)),
            tuple(row.make.name for row in makes.queue(stash)),
        )

    def suggest(self, key: str, texts: Mapping[str, str]) -> Sequence[str]:
        """Names for one field; views and sizes are those of the pattern typed."""
        pattern = self.patterns.get(texts.get("pattern", "").strip())
        if key == "pattern":
            return tuple(self.patterns)
        if key == "person":
            return self.people
        if key == "muslin_for":
            return self.makes
        if key == "size" and pattern:
            return [size.label for size in pattern.sizes]
        return pattern.views if key == "view" and pattern else ()


class MakesRoom(KeepingRoom):
    """A table of makes; what the chosen one holds beside it."""

    place = "makes"
    noun = "make"
    needs_row = frozenset({"edit", "remove", "pair", "lay", "release", "cut"})
    BINDINGS = bindings("makes")
    columns: ClassVar[tuple[Column, ...]] = (
        Column("Make", 20),
        Column("Pattern", 15),
        Column("Size", 5),
        Column("For", 8),
        Column("State", 8),
        Column("Due", 10),
    )

    def __init__(self) -> None:
        super().__init__()
        self.found: dict[str, MakeRow] = {}

    def content(self) -> Iterable[Widget]:
        """Filter, table, detail, and what to do when there is nothing."""
        yield FilterBar("words of the name, pattern, person or state")
        yield Container(Rows(self.columns, id="rows"), Detail(), classes="with-detail")
        yield Static(EMPTY, classes="empty", markup=False)

    def reload(self) -> None:
        """Read the makes through the filter."""
        query, stash = self.query_one(FilterBar).value, stash_of(self)
        ask(self, "read", lambda _: makes.queue(stash, query), MakesRead)

    @on(MakesRead)
    def _show(self, message: MakesRead) -> None:
        rows: tuple[MakeRow, ...] = message.answer  # type: ignore[assignment]
        self.found = {str(row.make.id): row for row in rows}
        self.fill([self._row(row) for row in rows])
        waiting = sum(row.make.state.wants_cloth for row in rows)
        self.head(f"{counted(len(rows), 'make')}, {waiting} not cut yet")
        chosen = self.table.chosen
        if chosen in self.found:
            self.study(chosen)

    def _row(self, row: MakeRow) -> Row:
        make = row.make
        cells = (
            make.name + (" (muslin)" if make.muslin else ""),
            row.pattern,
            make.size,
            row.person,
            make.state.value,
            make.due.isoformat() if make.due else "",
        )
        return Row(str(make.id), cells)

    def study(self, key: str) -> None:
        """Show what the make is and which cloth it holds."""
        if key in self.found:
            self.query_one(Detail).show(self._describe(self.found[key]))

    def _describe(self, row: MakeRow) -> Text:
        colours, settings, make = self.app.theme_variables, stash_of(self).settings, row.make
        text = Text.styled(make.name, "bold")
        words = [row.pattern, make.view, f"size {make.size}" if make.size else ""]
        text.append("\n" + ", ".join(word for word in words if word))
        if row.tests:
            text.append(f"\na wearable muslin: it tests {row.tests}")
        heading(text, "Cloth", colours)
        held = {entry.promise.role: entry for entry in row.held}
        for role in row.roles:
            if role in held:
                entry = held[role]
                done = "cut from" if entry.promise.cut else "promised"
                length = amount(entry.promise.length, settings, Measure.TAKEN)
                text.append(f"\n{role}: {length} {done} {entry.cloth}")
            else:
                text.append(f"\n{role}: nothing yet; Enter sets it against the shelf")
        if not row.roles:
            text.append("\nits pattern has no pieces and no chart for it yet: see room 3")
        if make.notes:
            heading(text, "Notes", colours)
            text.append(f"\n{make.notes}")
        return text

    def add_form(self) -> Form:
        """A form for a new make."""
        stash = stash_of(self)
        return Form(
            title="A new make",
            fields=MAKE_FIELDS,
            suggest=Names.read(stash).suggest,
            save=partial(self._add_make, stash),
        )

    def _add_make(self, stash: Stash, texts: Mapping[str, str]) -> Make:
        kept = makes.add_make(stash, texts)
        self.remark = namesakes(stash, self.noun, kept)
        return kept

    def edit_form(self, key: str) -> Form:
        """A form for the chosen make."""
        stash, make = stash_of(self), self.found[key].make
        return Form(
            title=make.name,
            fields=MAKE_FIELDS,
            texts=makes.make_texts(stash, make),
            changing=True,
            suggest=Names.read(stash).suggest,
            save=lambda texts: makes.edit_make(stash, key, texts, base=make),
            over=lambda texts, now: makes.edit_make(stash, key, texts, base=now),
        )

    def name_of(self, key: str) -> str:
        """Name of a make."""
        return self.found[key].make.name

    def forget(self, key: str) -> object:
        """Remove a make; called in a worker."""
        return makes.remove_make(stash_of(self), key)

    async def action_pair(self) -> None:
        """Set the chosen make against the shelf."""
        from stash.tui.screens.pairing import PairingRoom

        key = self.table.chosen
        if key is not None:
            room = await app_of(self).open("pairing")
            assert isinstance(room, PairingRoom)
            room.choose(key)

    def action_lay(self) -> None:
        """Draw the lay of the chosen make."""
        from stash.tui.screens.lay import LayScreen
        from stash.tui.screens.lay_asks import LayQuestion

        key = self.table.chosen
        if key is not None and self.found[key].roles:
            question = LayQuestion(make=key, role=self.found[key].roles[0])
            self.app.push_screen(LayScreen(question))
        elif key is not None:
            self.said.say("Its pattern has no pieces and no chart for it yet: room 3, then p.")

    def action_release(self) -> None:
        """Free the cloth promised to the chosen make."""
        key, stash = self.table.chosen, stash_of(self)
        if key is not None:
            name = self.name_of(key)
            ask(self, "release", lambda _: (release(stash, key), name)[1], Released)

    def action_cut(self) -> None:
        """Ask, then say that the chosen make has been cut."""
        key = self.table.chosen
        if key is not None:
            name = self.name_of(key)
            words = f"Has {name} been cut? Its cloths get shorter by what was promised."
            question = ConfirmScreen(words, yes="It has", no="Not yet")
            self.app.push_screen(question, partial(self._cut, key, name))

    def _cut(self, key: str, name: str, sure: bool | None) -> None:
        if sure:
            stash = stash_of(self)
            told = f"✓ {name} is cut; the diary says so."
            ask(self, "cut", lambda _: with_remarks(told, lambda r: cut(stash, key, remark=r)), Cut)

    @on(Cut)
    def _was_cut(self, message: Cut) -> None:
        self.post_message(Changed(str(message.answer)))

    @on(Released)
    def _released(self, message: Released) -> None:
        self.post_message(Changed(f"✓ The cloth of {message.answer} is free again."))
