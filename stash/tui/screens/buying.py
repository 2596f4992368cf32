"""The Buying: what little has to be bought, by section of the shop."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, cast

from rich.text import Text
from textual import on
from textual.containers import Container
from textual.widgets import DataTable, Static

from stash.garment.pattern import Role
from stash.report.records import NotionLine
from stash.tui.actions import bindings
from stash.tui.messages import Answered
from stash.tui.screens.room import Room
from stash.tui.show import amount, counted, heading, width
from stash.tui.widgets.detail import Detail
from stash.tui.widgets.rows import Column, Row, Rows
from stash.tui.work import app_of, ask, stash_of
from stash.units.format_length import Measure

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual.widget import Widget

    from stash.report.records import BuyingList, ClothLine, PlanBook

SECTIONS = {
    Role.MAIN: "cloth",
    Role.CONTRAST: "cloth",
    Role.LINING: "lining",
    Role.INTERFACING: "interfacing",
    Role.RIB: "rib",
}
"""Where a shop keeps what a role is cut from."""

NOTHING = """Nothing has to be bought.

Either every make in the queue has its cloth and its notions, or no make waits yet:
press 4 for the makes."""


class BuyingRead(Answered):
    """The buying list was worked out."""


class BuyingRoom(Room):
    """One line a thing; widths and what to look for beside it."""

    place = "buying"
    slow = "plan"
    BINDINGS = bindings("buying")
    columns: ClassVar[tuple[Column, ...]] = (
        Column("Section", 12),
        Column("What", 23),
        Column("How much", 20),
        Column("For", 15),
    )

    def __init__(self) -> None:
        super().__init__()
        self.lines: dict[str, ClothLine | NotionLine] = {}

    def content(self) -> Iterable[Widget]:
        """Table and widths, or that there is nothing to buy."""
        yield Container(Rows(self.columns, id="rows"), Detail(), classes="with-detail -tall")
        yield Static(NOTHING, classes="empty", markup=False)

    def reload(self) -> None:
        """Work out the list from the season plan."""
        app = app_of(self)
        revision = app.revision
        self.said.say("The list follows from the season plan …")
        ask(self, "plan", lambda teller: app.season.book(revision, teller), BuyingRead)

    @on(BuyingRead)
    def _show(self, message: BuyingRead) -> None:
        buying = cast("PlanBook", message.answer).buying
        self.end_progress()
        self.lines = _by_section(buying)
        rows = [self._row(key, line) for key, line in self.lines.items()]
        self.show_rows(rows, nothing=not rows)
        self.head(
            f"{counted(len(buying.cloths), 'cloth')}, {counted(len(buying.notions), 'notion')}"
        )
        self._explain_chosen()

    def _row(self, key: str, line: ClothLine | NotionLine) -> Row:
        if isinstance(line, NotionLine):
            return Row(key, ("notions", line.what, line.amount, line.make))
        cloth = line
        settings = stash_of(self).settings
        best = cloth.shortfall.widths[cloth.best] if cloth.best is not None else None
        much = "see beside"
        if best is not None and best.length is not None:
            length = amount(best.length, settings, Measure.NEED)
            much = f"{length} of {width(best.width, settings)}"
        section = SECTIONS[cloth.shortfall.role]
        return Row(key, (section, cloth.shortfall.asks, much, cloth.make))

    @on(DataTable.RowHighlighted)
    def _explain_chosen(self) -> None:
        line = self.lines.get(self.query_one(Rows).chosen or "")
        if line is not None:
            self.query_one(Detail).show(self._describe(line))

    def _describe(self, line: ClothLine | NotionLine) -> Text:
        if isinstance(line, NotionLine):
            return Text(f"{line.what}\n{line.amount} for {line.make}\n{line.note}")
        cloth = line
        settings, colours = stash_of(self).settings, self.app.theme_variables
        text = Text.styled(f"{cloth.make}, {cloth.shortfall.role}", "bold")
        text.append(f"\nlook for: {cloth.shortfall.asks}")
        heading(text, "Length to buy, before the first wash", colours)
        for index, row in enumerate(cloth.shortfall.widths):
            mark = "●" if index == cloth.best else " "
            length = amount(row.length, settings, Measure.NEED)
            text.append(f"\n{mark} {width(row.width, settings):>8}  {length:>9}  {row.sureness}")
            if row.length is None:
                text.append(f": {row.why}")
        text.append("\n● takes the least cloth", style="dim")
        heading(text, "Why not from the shelf", colours)
        text.append(f"\n{cloth.shortfall.why}")
        return text

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys that need a line, or work under way, are there only with it."""
        if action == "pair" and not self.lines:
            return None
        return super().check_action(action, parameters)

    async def action_pair(self) -> None:
        """See what the shelf has for this make."""
        from stash.tui.screens.pairing import PairingRoom

        line = self.lines.get(self.query_one(Rows).chosen or "")
        if line is None:
            return
        room = await app_of(self).open("pairing")
        assert isinstance(room, PairingRoom)
        if isinstance(line, NotionLine):
            room.choose(str(line.make_id))
        else:
            shortfall = line.shortfall
            room.choose(str(shortfall.make_id), shortfall.role)


def _by_section(buying: BuyingList) -> dict[str, ClothLine | NotionLine]:
    """The lines in the order one walks through a shop, by a key that stays the same."""
    order = list(SECTIONS)
    cloths = sorted(buying.cloths, key=lambda c: (order.index(c.shortfall.role), c.make))
    lines: dict[str, ClothLine | NotionLine] = {
        f"cloth {line.shortfall.make_id} {line.shortfall.role}": line for line in cloths
    }
    for notion in sorted(buying.notions, key=lambda n: (n.what, n.make)):
        lines[f"notion {notion.make_id} {notion.what} {notion.amount}"] = notion
    return lines
