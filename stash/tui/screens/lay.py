"""The Lay: one role of a make or pattern on a cloth or width, drawn to scale."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, cast

from rich.text import Text
from textual import on
from textual.screen import Screen
from textual.widgets import Static

from stash.errors import BadInputError
from stash.garment.pattern import Role
from stash.lay.problem import LayKind
from stash.report.plan_text import how_sure
from stash.services import readers as r
from stash.services.fields import Field
from stash.services.laying import lay_make, lay_pattern
from stash.services.promises import promise
from stash.tui.actions import bindings
from stash.tui.messages import Answered, Failed
from stash.tui.screens.form import Form, FormScreen
from stash.tui.show import amount, enough, spare_words, verdict_text, width
from stash.tui.widgets.key_line import Foot, KeyLine
from stash.tui.widgets.lay_canvas import LayCanvas
from stash.tui.widgets.said import Said
from stash.tui.work import app_of, ask, is_busy, stash_of
from stash.units.format_length import Measure

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from textual.app import ComposeResult

    from stash.report.records import LaidOut

WHERE_FIELDS = (
    Field(
        key="width",
        label="Width",
        hint='A bare width, edge to edge: 132 cm, 45", 58/60"',
        read=r.read_width,
        show=r.show_text,
    ),
    Field(
        key="cloth",
        label="or a cloth",
        hint="Name of a cloth on the shelf",
        read=r.reference("cloth"),
        show=r.show_text,
    ),
    Field(
        key="size",
        label="Size",
        hint="Of the pattern; for a pattern only, a make has its own",
        read=r.read_text,
        show=r.show_text,
        empty="",
    ),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LayQuestion:
    """What is to be laid: a make or a pattern, on a cloth, a width or whatever suits best."""

    make: str = ""
    pattern: str = ""
    role: Role = Role.MAIN
    size: str = ""
    view: str = ""
    cloth: str | None = None
    width: str | None = None
    kind: LayKind | None = None
    nap: bool | None = None


class LaidDown(Answered):
    """The lay was worked out."""


class LayPromised(Answered):
    """The cloth was promised."""


class LayScreen(Screen[None]):
    """Opens over any room; Escape goes back to it."""

    place = "lay"
    BINDINGS = bindings("lay")

    def __init__(self, question: LayQuestion) -> None:
        super().__init__()
        self.question = question
        self.laid: LaidOut | None = None

    def compose(self) -> ComposeResult:
        """Title, the figures, the drawing."""
        yield Static("Lay", id="heading", markup=False)
        yield Static(id="figures", markup=False)
        yield LayCanvas()
        with Foot():
            yield Said()
            yield KeyLine()

    def on_mount(self) -> None:
        """Lay it; a pattern needs a width first."""
        asked = self.question
        if asked.pattern and not (asked.cloth or asked.width):
            self.action_width()
        else:
            self._lay()

    def _lay(self) -> None:
        asked, stash = self.question, stash_of(self)
        self.query_one(Said).say("Laying the pieces …")

        def lay() -> LaidOut:
            if asked.make:
                return lay_make(
                    stash,
                    asked.make,
                    asked.role,
                    cloth=asked.cloth,
                    width=asked.width,
                    kind=asked.kind,
                    nap=asked.nap,
                )
            return lay_pattern(
                stash,
                asked.pattern,
                asked.role,
                size=asked.size,
                view=asked.view,
                cloth=asked.cloth,
                width=asked.width,
                kind=asked.kind,
                nap=asked.nap,
            )

        ask(self, "lay", lambda _: lay(), LaidDown)

    @on(LaidDown)
    def _show(self, message: LaidDown) -> None:
        self.laid = laid = cast("LaidOut", message.answer)
        self.query_one(Said).hush()
        self.query_one("#heading", Static).update(f"Lay   {laid.title}")
        self.query_one("#figures", Static).update(self._figures(laid))
        canvas = self.query_one(LayCanvas)
        canvas.show(laid.lay, stash_of(self).settings.system)
        canvas.focus()
        self.refresh_bindings()

    def on_screen_resume(self) -> None:
        """Draw it again: the colours may have changed."""
        if self.laid is not None:
            self.query_one("#figures", Static).update(self._figures(self.laid))
            self.query_one(LayCanvas).show(self.laid.lay, stash_of(self).settings.system)

    def _figures(self, laid: LaidOut) -> Text:
        colours, settings = self.app.theme_variables, stash_of(self).settings
        shown = enough(laid.need.length, laid.have, settings)
        wants = shown.needs if shown else amount(laid.need.length, settings, Measure.NEED)
        text = Text("need ")
        text.append(wants, style="bold")
        text.append(f" ({how_sure(laid.need, settings.system)})")
        text.append(f"   usable {width(laid.usable_width, settings)}, {laid.nap_words}")
        if laid.lay is not None:
            chosen = "" if self.question.kind else "best: "
            text.append(f"   {chosen}{laid.lay.kind}")
        text.append("\n")
        if laid.verdict is not None:
            text.append_text(verdict_text(laid.verdict, colours))
            text.append(spare_words(laid.verdict, shown))
            if laid.cut_from_shelf is not None and laid.verdict.can_be_cut:
                cut = amount(laid.cut_from_shelf, settings, Measure.NEED)
                text.append(f"   cut {cut} off the cloth as it lies")
        elif laid.cut_from_shelf is not None:
            text.append(f"before the first wash {amount(laid.cut_from_shelf, settings)}")
        if laid.lay is not None:
            text.append(f"   {laid.lay.utilisation:.0%} of it used")
        if laid.lay is None:
            text.append(f"\n{laid.need.why}")
        return text

    @on(Failed)
    def _failed(self, message: Failed) -> None:
        self.query_one(Said).fail(message.error)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Promising needs a make, a cloth and a lay."""
        if action == "promise" and not self._can_promise():
            return None
        if action == "nap" and self.laid is None:
            return None
        return super().check_action(action, parameters)

    def _can_promise(self) -> bool:
        laid = self.laid
        return laid is not None and laid.make is not None and laid.cloth is not None

    def action_kind(self) -> None:
        """Go to the next way the cloth may lie."""
        kinds: tuple[LayKind | None, ...] = (None, *LayKind)
        there = kinds.index(self.question.kind)
        self.question = replace(self.question, kind=kinds[(there + 1) % len(kinds)])
        self._lay()

    def action_nap(self) -> None:
        """Lay it with nap if it was without, and the other way round."""
        if self.laid is not None:
            self.question = replace(self.question, nap=not self.laid.nap)
            self._lay()

    def action_larger(self) -> None:
        """Draw it larger; the arrow keys scroll."""
        self.query_one(LayCanvas).larger(1)

    def action_smaller(self) -> None:
        """Draw it smaller again."""
        self.query_one(LayCanvas).larger(-1)

    def action_width(self) -> None:
        """Ask for a width or for another cloth."""
        from stash.services.cloths import shelf

        stash, asked = stash_of(self), self.question
        fields = WHERE_FIELDS if asked.pattern else WHERE_FIELDS[:-1]

        def names(key: str, _: Mapping[str, str]) -> Sequence[str]:
            return [row.cloth.name for row in shelf(stash)] if key == "cloth" else ()

        form = Form(
            title="Lay it on",
            fields=fields,
            texts={"size": asked.size},
            save=lambda texts: _moved(asked, texts),
            suggest=names,
        )
        self.app.push_screen(FormScreen(form), self._move)

    def _move(self, question: object) -> None:
        if isinstance(question, LayQuestion):
            self.question = question
            self._lay()
        elif self.laid is None:
            self.action_back()

    def action_curve(self) -> None:
        """Show need against width, and lay on the cloth chosen there."""
        from stash.tui.screens.curve import CurveScreen

        cloth = self.laid.cloth if self.laid is not None else None
        on = str(cloth.id) if cloth is not None else None
        self.app.push_screen(CurveScreen(replace(self.question, cloth=on)), self._lay_on)

    def _lay_on(self, cloth: str | None) -> None:
        if cloth is not None:
            self.question = replace(self.question, cloth=cloth, width=None, nap=None)
            self._lay()

    def action_promise(self) -> None:
        """Hold what this lay needs of the cloth for the make."""
        laid, stash = self.laid, stash_of(self)
        if laid is None or laid.make is None or laid.cloth is None or is_busy(self, "promise"):
            return
        make, cloth, role = laid.make, laid.cloth, laid.role
        enough = laid.verdict is not None and laid.verdict.can_be_cut
        length = laid.cut_from_shelf if enough else None
        ask(
            self,
            "promise",
            lambda _: promise(stash, str(make.id), role, str(cloth.id), length),
            LayPromised,
        )

    @on(LayPromised)
    def _promised(self) -> None:
        app_of(self).changed()
        assert self.laid is not None
        assert self.laid.cloth is not None
        assert self.laid.make is not None
        self.query_one(Said).say(f"✓ {self.laid.cloth.name} is promised to {self.laid.make.name}.")

    def action_back(self) -> None:
        """Close the lay."""
        self.dismiss(None)


def _moved(asked: LayQuestion, texts: Mapping[str, str]) -> LayQuestion:
    width, cloth = texts["width"].strip(), texts["cloth"].strip()
    if bool(width) == bool(cloth):
        raise BadInputError(
            "Say one of the two: a width or a cloth.", "For example 132 cm in the first line."
        )
    size = texts.get("size", "").strip()
    return replace(asked, width=width or None, cloth=cloth or None, size=size, nap=None)
