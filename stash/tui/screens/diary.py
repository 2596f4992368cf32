"""The Diary: what happened, the latest first."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, ClassVar, cast

from textual import on
from textual.widgets import Static

from stash.garment.make import DiaryKind
from stash.services import diary
from stash.services import ready_fields as ready
from stash.services.fields import REQUIRED
from stash.tui.actions import bindings
from stash.tui.messages import Answered, Changed
from stash.tui.screens.form import Form, FormScreen
from stash.tui.screens.room import Room
from stash.tui.show import counted
from stash.tui.widgets.rows import Column, Row, Rows
from stash.tui.work import ask, stash_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from textual.widget import Widget

    from stash.garment.make import DiaryEntry

EMPTY = """Nothing is written down yet.

Press a to write a line: what was bought, washed or cut, and what a fitting taught."""

DIARY_FIELDS = (
    ready.text("text", "What happened", "taken in 1.5 cm at each side seam", empty=REQUIRED),
    ready.one_of(DiaryKind, "kind", "Kind", "What sort of line it is", empty=DiaryKind.NOTE),
    ready.day("day", "Day", "2026-10-31; empty: today"),
    ready.record("make", "make", "Make", "Name of the make it is about"),
    ready.record("cloth", "cloth", "Cloth", "Name of the cloth it is about"),
)


@dataclass(frozen=True, slots=True)
class Pages:
    """The entries and the names they refer to."""

    entries: tuple[DiaryEntry, ...]
    makes: Mapping[int, str]
    cloths: Mapping[int, str]


class DiaryRead(Answered):
    """The diary was read."""


class DiaryRoom(Room):
    """One line an entry."""

    place = "diary"
    BINDINGS = bindings("diary")
    columns: ClassVar[tuple[Column, ...]] = (
        Column("Day", 10),
        Column("Kind", 8),
        Column("About", 20),
        Column("What"),
    )

    def __init__(self) -> None:
        super().__init__()
        self.pages = Pages((), {}, {})

    def content(self) -> Iterable[Widget]:
        """The table, or what to write first."""
        yield Rows(self.columns, id="rows")
        yield Static(EMPTY, classes="empty", markup=False)

    def reload(self) -> None:
        """Read the diary."""
        ask(self, "read", lambda _: self._read(), DiaryRead)

    def _read(self) -> Pages:
        from stash.services.cloths import shelf
        from stash.services.makes import queue

        stash = stash_of(self)
        return Pages(
            diary.entries(stash),
            {row.make.id: row.make.name for row in queue(stash)},
            {row.cloth.id: row.cloth.name for row in shelf(stash)},
        )

    @on(DiaryRead)
    def _show(self, message: DiaryRead) -> None:
        self.pages = pages = cast("Pages", message.answer)
        rows = [self._row(entry) for entry in pages.entries]
        self.show_rows(rows, nothing=not rows)
        self.head(counted(len(pages.entries), "line"))

    def _row(self, entry: DiaryEntry) -> Row:
        names = (
            self.pages.makes.get(entry.make_id or 0, ""),
            self.pages.cloths.get(entry.cloth_id or 0, ""),
        )
        about = ", ".join(name for name in names if name)
        return Row(str(entry.id), (entry.day.isoformat(), entry.kind.value, about, entry.text))

    def action_add(self) -> None:
        """Open an empty form."""
        form = Form(
            title="A line for the diary",
            fields=DIARY_FIELDS,
            suggest=partial(_names, self.pages),
            save=self._keep,
        )
        self.app.push_screen(FormScreen(form), self._kept)

    def action_history(self) -> None:
        """Open the history of the whole stash."""
        from stash.tui.screens.history import HistoryScreen

        self.app.push_screen(HistoryScreen())

    def _keep(self, texts: dict[str, str]) -> str:
        """Write the line; returns what to say of it."""
        from datetime import date

        said = ["✓ Written down."]

        kind, day = texts["kind"].strip().lower(), texts["day"].strip()
        diary.add_entry(
            stash_of(self),
            next((k for k in DiaryKind if kind and k.value.startswith(kind)), DiaryKind.NOTE),
            texts["text"].strip(),
            cloth_ref=texts["cloth"].strip(),
            make_ref=texts["make"].strip(),
            day=date.fromisoformat(day) if day else None,
            remark=said.append,
        )
        return " ".join(said)

    def _kept(self, said: object) -> None:
        if isinstance(said, str):
            self.post_message(Changed(said))


def _names(pages: Pages, key: str, texts: Mapping[str, str]) -> Sequence[str]:
    del texts
    return tuple({"make": pages.makes, "cloth": pages.cloths}.get(key, {}).values())
