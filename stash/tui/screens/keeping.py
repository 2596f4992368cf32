"""What the rooms that keep records share: fill, filter, study, add, edit, remove."""

from __future__ import annotations

from abc import abstractmethod
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.widgets import DataTable

from stash.tui.messages import Answered, Changed, Failed
from stash.tui.screens.confirm import ConfirmScreen
from stash.tui.screens.form import FormScreen
from stash.tui.screens.room import Room
from stash.tui.widgets.detail import Detail
from stash.tui.widgets.filter_bar import FilterBar
from stash.tui.widgets.rows import Rows
from stash.tui.work import ask, is_busy

if TYPE_CHECKING:
    from collections.abc import Sequence

    from textual.timer import Timer

    from stash.tui.screens.form import Form
    from stash.tui.widgets.rows import Row

STUDY_AFTER = 0.15
"""Seconds the cursor rests on a row before it is studied: running past costs nothing."""


class FormReady(Answered):
    """The texts of a form were read."""


class Removed(Answered):
    """A record was removed."""


class KeepingRoom(Room):
    """A room with a table of records of one noun."""

    noun: ClassVar[str] = ""
    needs_row: ClassVar[frozenset[str]] = frozenset({"edit", "remove"})
    """Actions that are there only while the table has a row."""

    @abstractmethod
    def study(self, key: str) -> None:
        """Work out what to show beside the table for this row."""

    @abstractmethod
    def add_form(self) -> Form:
        """A form for a new record; called in a worker."""

    @abstractmethod
    def edit_form(self, key: str) -> Form:
        """A form for this record; called in a worker."""

    @abstractmethod
    def name_of(self, key: str) -> str:
        """The name of a record in the table."""

    @abstractmethod
    def forget(self, key: str) -> object:
        """Remove a record; called in a worker."""

    @property
    def table(self) -> Rows:
        """The table of records."""
        return self.query_one(Rows)

    def __init__(self) -> None:
        super().__init__()
        self._resting: Timer | None = None
        self._refused = False
        """The filter is not understood; its line is not left before it is mended or cleared."""
        self._filtered = False
        """Enter was pressed in the filter while its rows were still being read."""
        self.remark = ""
        """What is to be said of the record kept last, besides that it is kept."""

    def fill(self, rows: Sequence[Row]) -> None:
        """Show these rows; with none, say what to do next."""
        if self._refused:
            self._refused = False
            self.said.hush()
        filtered = bool(self.query_one(FilterBar).value)
        self.show_rows(rows, nothing=not rows and not filtered)
        if not rows:
            self.query_one(Detail).show("No row has these words." if filtered else "")
        if self._filtered:
            self._filtered = False
            self.table.focus()

    @on(DataTable.RowHighlighted)
    def _rest_on(self, event: DataTable.RowHighlighted) -> None:
        key = event.row_key.value
        if key is not None:
            if self._resting is not None:
                self._resting.stop()
            self._resting = self.set_timer(STUDY_AFTER, partial(self._study_if_here, key))

    def _study_if_here(self, key: str) -> None:
        if self.table.chosen == key:
            self.study(key)

    @on(FilterBar.Changed, "#filter")
    def _filter_typed(self) -> None:
        self.reload()

    @on(FilterBar.Submitted, "#filter")
    def _filter_done(self) -> None:
        if is_busy(self, "read"):
            self._filtered = True
        elif not self._refused:
            self.table.focus()

    @on(Failed)
    def _filter_refused(self, message: Failed) -> None:
        self._filtered = False
        bar = self.query_one(FilterBar)
        if message.group == "read" and bar.is_open:
            self._refused = True
            bar.focus()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys that need a row are there only while there is one."""
        if action in self.needs_row and not self.table.row_count:
            return None
        return super().check_action(action, parameters)

    def action_add(self) -> None:
        """Open an empty form."""
        ask(self, "form", lambda _: self.add_form(), FormReady)

    def action_edit(self) -> None:
        """Open a form on the chosen record."""
        key = self.table.chosen
        if key is not None:
            ask(self, "form", lambda _: self.edit_form(key), FormReady)

    @on(FormReady)
    def _open_form(self, message: FormReady) -> None:
        form: Form = message.answer  # type: ignore[assignment]
        self.open_form(form)

    def open_form(self, form: Form) -> None:
        """Show a form; once it is kept, say so and read again."""
        self.app.push_screen(FormScreen(form), partial(self._kept, form))

    def _kept(self, form: Form, record: object) -> None:
        if record is None:
            return
        name = getattr(record, "name", self.noun)
        new = getattr(record, "id", 0)
        if new and not form.changing:
            self.table.choose(str(new))
        remark = f" {self.remark}" if self.remark else ""
        self.remark = ""
        self.post_message(Changed(f"✓ Kept {name}. ctrl+z undoes it.{remark}"))

    def action_remove(self) -> None:
        """Ask, then remove."""
        key = self.table.chosen
        if key is None:
            return
        name = self.name_of(key)
        question = ConfirmScreen(f"Remove the {self.noun} “{name}”?", yes="Remove", no="Keep")
        self.app.push_screen(question, partial(self._remove, key, name))

    def _remove(self, key: str, name: str, sure: bool | None) -> None:
        if sure:
            ask(self, "remove", lambda _: self._forget(key, name), Removed)

    def _forget(self, key: str, name: str) -> str:
        self.forget(key)
        return name

    @on(Removed)
    def _removed(self, message: Removed) -> None:
        self.post_message(Changed(f"✓ Removed {message.answer}. ctrl+z undoes it."))
