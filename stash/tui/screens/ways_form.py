"""What the Ways are asked, and the form that says what may change."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from stash.pairing.ways.offer import Wishes
from stash.services import readers as r
from stash.services.fields import Field
from stash.services.fit_in import wishes_of
from stash.tui.screens.form import Form

if TYPE_CHECKING:
    from stash.garment.pattern import Role


@dataclass(frozen=True, slots=True, kw_only=True)
class Asking:
    """Which role of which make on which cloth, and what may change."""

    make: str
    role: Role
    cloth: str
    wishes: Wishes = field(default_factory=Wishes)
    texts: tuple[tuple[str, str], ...] = ()
    """What was typed into the form last."""


FIELDS = (
    Field(
        key="barred",
        label="Not wanted",
        hint="Kinds of change you do not want: centre, length, donor, view, margin …",
        read=r.words,
        show=r.show_words,
        empty=(),
    ),
    Field(
        key="seam",
        label="Seam allowance",
        hint="In the pieces, where the pattern does not say: 15 mm, 5/8 in",
        read=r.read_positive_length,
        show=r.show_as("small"),
    ),
    Field(
        key="shorter",
        label="Always shorter",
        hint="What you always take off the length of this garment: 3 cm",
        read=r.read_positive_length,
        show=r.show_as("small"),
    ),
    Field(
        key="nap",
        label="Ignore the nap",
        hint="yes or no: pieces may be turned against the nap, and shade differently for ever",
        read=r.read_flag,
        show=r.show_flag,
        choices=("yes", "no"),
        empty=False,
    ),
)


def asking_form(asking: Asking) -> Form:
    """Asks what may change; answers with the new asking."""
    return Form(
        title="What may change",
        fields=FIELDS,
        texts={one.key: "" for one in FIELDS} | {"nap": "no"} | dict(asking.texts),
        save=lambda texts: _changed(asking, texts),
    )


def _changed(asking: Asking, texts: dict[str, str]) -> Asking:
    wishes = wishes_of(
        barred=texts["barred"].replace(",", " ").lower().split(),
        ignore_nap=texts["nap"].strip().lower() in ("yes", "y"),
        shorter=texts["shorter"].strip(),
        seam=texts["seam"].strip(),
    )
    return replace(asking, wishes=wishes, texts=tuple(texts.items()))
