"""What the Lay is asked: the question itself, and the forms that change it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.garment.pattern import Role
from stash.services import readers as r
from stash.services.fields import Field
from stash.services.laying import lay_make, lay_pattern
from stash.tui.screens.form import Form
from stash.units.number import read_number
from stash.units.parse_length import parse_length

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from stash.lay.problem import LayKind
    from stash.report.records import LaidOut
    from stash.services.asked import How
    from stash.services.fields import Context
    from stash.services.progress import Progress
    from stash.services.stash import Stash

SECONDS = 10
"""Offered for a careful search: long enough to gain something, short enough to wait for."""
MOST_SECONDS = 600


def _read_gap(text: str, _: Context) -> str:
    """The gap as typed; BadInputError if it is no length."""
    if parse_length(text).nm < 0:
        raise BadInputError(f"{text!r} is less than nothing.", "Type a gap such as 1 cm.")
    return text


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
GAP_FIELD = Field(
    key="gap",
    label="Gap",
    hint="To be kept between any two pieces: 1 cm, 3/8 in. Empty: they may touch",
    read=_read_gap,
    show=r.show_text,
)
SECONDS_FIELD = Field(
    key="seconds",
    label="Seconds",
    hint=f"How long to look, 1 to {MOST_SECONDS}; x ends it sooner. Empty: {SECONDS}",
    read=r.number(1, MOST_SECONDS),
    show=r.show_number,
    empty=SECONDS,
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
    gap: str | None = None

    @property
    def how(self) -> How:
        """On what, and how, in the words of the services."""
        return {
            "cloth": self.cloth,
            "width": self.width,
            "kind": self.kind,
            "nap": self.nap,
            "gap": self.gap,
        }


def laid_out(
    stash: Stash,
    asked: LayQuestion,
    careful: float | None = None,
    told: Callable[[float, float], bool] | None = None,
    weighed: Progress | None = None,
) -> LaidOut:
    """Lay it; with `careful` look so many seconds for a shorter lay (see `laying.How`)."""
    how: How = {**asked.how, "careful": careful, "told": told, "weighed": weighed}
    if asked.make:
        return lay_make(stash, asked.make, asked.role, **how)
    return lay_pattern(stash, asked.pattern, asked.role, size=asked.size, view=asked.view, **how)


def where_form(asked: LayQuestion, cloths: Callable[[], Sequence[str]]) -> Form:
    """Asks for a width or for another cloth; `cloths` names those on the shelf."""
    return Form(
        title="Lay it on",
        fields=WHERE_FIELDS if asked.pattern else WHERE_FIELDS[:-1],
        texts={"size": asked.size},
        save=lambda texts: _moved(asked, texts),
        suggest=lambda key, _: cloths() if key == "cloth" else (),
    )


def gap_form(asked: LayQuestion) -> Form:
    """Asks for the gap between pieces."""
    return Form(
        title="Keep a gap between pieces",
        fields=(GAP_FIELD,),
        texts={"gap": asked.gap or ""},
        save=lambda texts: replace(asked, gap=texts["gap"].strip() or None),
    )


def seconds_form() -> Form:
    """Asks how long to look for a shorter lay; answers with the seconds."""
    return Form(
        title="Look longer for a shorter lay",
        fields=(SECONDS_FIELD,),
        texts={},
        save=lambda texts: float(read_number(texts["seconds"].strip() or str(SECONDS))),
    )


def _moved(asked: LayQuestion, texts: Mapping[str, str]) -> LayQuestion:
    width, cloth = texts["width"].strip(), texts["cloth"].strip()
    if bool(width) == bool(cloth):
        raise BadInputError(
            "Say one of the two: a width or a cloth.", "For example 132 cm in the first line."
        )
    size = texts.get("size", "").strip()
    return replace(asked, width=width or None, cloth=cloth or None, size=size, nap=None)
