"""A form made from the fields of `services.fields`: add and edit for every kind of record."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING, Any

from textual import on
from textual.containers import VerticalScroll
from textual.events import DescendantBlur, DescendantFocus
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from stash.errors import StashError
from stash.services.clashes import ChangedMeanwhileError
from stash.services.names import context
from stash.tui.actions import bindings
from stash.tui.messages import Answered, Failed
from stash.tui.widgets.field_row import FieldRow
from stash.tui.widgets.key_line import Foot, KeyLine
from stash.tui.widgets.said import Said
from stash.tui.work import ask, is_busy, stash_of

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from textual.app import ComposeResult

    from stash.services.fields import Context, Field
    from stash.tui.screens.clash import Choice


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """What a form asks and what becomes of it."""

    title: str
    fields: tuple[Field, ...]
    save: Callable[[dict[str, str]], object]
    """Keeps what was typed, by field key, and returns the record; called in a worker."""
    over: Callable[[dict[str, str], Any], object] | None = None
    """The same on top of the record given: one that someone else changed meanwhile."""
    texts: Mapping[str, str] | None = None
    """What stands in the fields at first. With `changing`, only what differs is saved."""
    changing: bool = False
    doing: str = ""
    """Said while it is saved, where that may take more than a moment."""
    suggest: Callable[[str, Mapping[str, str]], Sequence[str]] = lambda _key, _texts: ()
    """Names that may be typed into a field, given what stands in the others."""


@dataclass(frozen=True, slots=True)
class Checked:
    """The errors of some fields by key (None: right), and the record if it was kept."""

    errors: dict[str, StashError | None]
    kept: object = None


class FieldsChecked(Answered):
    """Some fields were read to see whether they are understood."""


class FormSaved(Answered):
    """All fields were read and, if every one was understood, kept."""


class FormScreen(ModalScreen[object]):
    """Dismissed with the kept record, or with None when the person left."""

    place = "form"
    BINDINGS = bindings("form")

    def __init__(self, form: Form) -> None:
        super().__init__()
        self.form = form

    def compose(self) -> ComposeResult:
        """A title, the fields under their headings, the hint of the field one is in."""
        yield Static(f"{self.form.title}    * must be filled in", id="heading", markup=False)
        yield from self.content()
        with Foot():
            yield Static(id="hint", markup=False)
            yield Said()
            yield KeyLine()

    def content(self) -> ComposeResult:
        """The fields; what stands beside them in some forms."""
        first = self.form.texts or {}
        with VerticalScroll(id="fields", can_focus=False):
            for field in self.form.fields:
                if field.group:
                    yield Static(field.group, classes="group", markup=False)
                yield FieldRow(field, first.get(field.key, ""))

    @property
    def rows(self) -> dict[str, FieldRow]:
        """The field rows by key."""
        return {row.field.key: row for row in self.query(FieldRow)}

    @property
    def texts(self) -> dict[str, str]:
        """What is typed in every field."""
        return {key: row.text for key, row in self.rows.items()}

    @on(DescendantFocus)
    def _entered(self, event: DescendantFocus) -> None:
        row = _row_of(event.widget)
        if row is not None:
            row.suggest(self.form.suggest(row.field.key, self.texts))
            self.query_one("#hint", Static).update(row.hint)
            row.scroll_visible(animate=False)

    @on(DescendantBlur)
    def _left(self, event: DescendantBlur) -> None:
        row = _row_of(event.widget)
        if row is not None and row.text != row.first_text:
            texts, here = self.texts, _row_of(self.focused)
            # Not the field one is in: half a number is no mistake yet.
            keys = [
                key
                for key, one in self.rows.items()
                if one.text != one.first_text and one is not here
            ]
            ask(self, "check", lambda _: self._check(keys, texts), FieldsChecked)

    def on_mount(self) -> None:
        """Start in the first field."""
        self.query(FieldRow).first().input.focus()

    def _check(self, keys: Sequence[str], texts: dict[str, str]) -> Checked:
        stash = stash_of(self)
        with stash.read() as session:
            known = replace(context(stash, session), texts=texts)
            return Checked(
                {
                    field.key: _problem(field, texts.get(field.key, ""), known)
                    for field in self.form.fields
                    if field.key in keys
                }
            )

    def _keep(
        self, texts: dict[str, str], save: Callable[[dict[str, str]], object] | None = None
    ) -> Checked:
        checked = self._check(list(texts), texts)
        if any(checked.errors.values()):
            return checked
        first = self.form.texts or {}
        if self.form.changing:
            texts = {key: text for key, text in texts.items() if text != first.get(key, "")}
        return Checked(checked.errors, (save or self.form.save)(texts))

    def action_enter(self) -> None:
        """Go to the next field; save in the last."""
        row = _row_of(self.focused)
        if row is not None and row.field is self.form.fields[-1]:
            # Behind the keys this field has still to take.
            row.input.call_later(self.action_save)
        else:
            self.focus_next()

    def action_next(self) -> None:
        """Go to the next field."""
        self.focus_next()

    def action_previous(self) -> None:
        """Go to the field before."""
        self.focus_previous()

    def action_save(self) -> None:
        """Read every field; keep the record if all are understood."""
        if is_busy(self, "save"):
            return
        texts = self.texts
        if self.form.doing:
            self.query_one(Said).say(self.form.doing)
        ask(self, "save", lambda _: self._keep(texts), FormSaved)

    async def action_back(self) -> None:
        """Leave; ask first if something was typed."""
        if all(row.text == row.first_text for row in self.query(FieldRow)):
            self.dismiss(None)
            return
        from stash.tui.screens.confirm import ConfirmScreen

        question = ConfirmScreen("Leave without keeping what you typed?", yes="Leave", no="Go on")
        self.app.push_screen(question, self._leave)

    def _leave(self, sure: bool | None) -> None:
        if sure:
            self.dismiss(None)

    @on(FieldsChecked)
    def _show_errors(self, message: FieldsChecked) -> None:
        assert isinstance(message.answer, Checked)
        rows = self.rows
        for key, error in message.answer.errors.items():
            rows[key].tell(error)

    @on(FormSaved)
    def _saved(self, message: FormSaved) -> None:
        checked = message.answer
        assert isinstance(checked, Checked)
        if checked.kept is not None:
            self.dismiss(checked.kept)
            return
        if self.form.doing:
            self.query_one(Said).hush()
        rows = self.rows
        for key, error in checked.errors.items():
            rows[key].tell(error)
        wrong = next(key for key, error in checked.errors.items() if error)
        rows[wrong].input.focus()

    @on(Failed)
    def _failed(self, message: Failed) -> None:
        if isinstance(message.error, ChangedMeanwhileError) and self.form.over is not None:
            from stash.tui.screens.clash import ClashScreen

            clash = message.error
            self.app.push_screen(ClashScreen(clash), partial(self._choose, clash.now))
        else:
            self.query_one(Said).fail(message.error)

    def _choose(self, theirs: Any, choice: Choice | None) -> None:
        """Put what is typed on top of `theirs`, or leave it, or go on in the form."""
        if choice == "theirs":
            self.dismiss(None)
        elif choice == "mine":
            form, texts = self.form, self.texts
            ask(self, "save", lambda _: self._keep(texts, partial(_over, form, theirs)), FormSaved)


def _over(form: Form, theirs: Any, texts: dict[str, str]) -> object:
    assert form.over is not None
    return form.over(texts, theirs)


def _row_of(widget: object) -> FieldRow | None:
    if not isinstance(widget, Input):
        return None
    return next((node for node in widget.ancestors if isinstance(node, FieldRow)), None)


def _problem(field: Field, text: str, context: Context) -> StashError | None:
    try:
        field.read_text(text, context)
    except StashError as error:
        # The label stands beside the error already.
        short = error.message.removeprefix(f"{field.label}: ")
        return type(error)(short[:1].upper() + short[1:], error.hint)
    return None
