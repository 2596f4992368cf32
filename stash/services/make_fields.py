"""What may be said about a make, and about the person it is for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.garment.make import State
from stash.services import readers as r
from stash.services.fields import REQUIRED, Context, Field

if TYPE_CHECKING:
    from stash.units.length import Length

MAKE_FIELDS: tuple[Field, ...] = (
    Field(
        key="name",
        label="Name",
        hint="What you call it, for example: rain trousers",
        read=r.read_text,
        show=r.show_text,
        empty=REQUIRED,
        group="The make",
    ),
    Field(
        key="pattern",
        label="Pattern",
        hint="Name or number of one of your patterns",
        read=r.reference("pattern"),
        show=r.show_reference("pattern"),
        name="pattern_id",
        empty=REQUIRED,
    ),
    Field(
        key="view",
        label="View",
        hint="One of the pattern's views; empty if it has none",
        read=r.read_text,
        show=r.show_text,
        empty="",
    ),
    Field(
        key="size",
        label="Size",
        hint="One of the pattern's sizes",
        read=r.read_text,
        show=r.show_text,
        empty="",
    ),
    Field(
        key="person",
        label="For",
        hint="Name of a person",
        read=r.reference("person"),
        show=r.show_reference("person"),
        name="person_id",
    ),
    r.flag("muslin", "Wearable muslin", "yes if it is a test of the fit that is to be kept"),
    Field(
        key="muslin_for",
        label="Tests the make",
        hint="Name of the make this one is cut before",
        read=r.reference("make"),
        show=r.show_reference("make"),
    ),
    Field(
        key="state",
        label="State",
        hint="thought, promised, cut, sewing, worn or let go",
        read=r.choice(State),
        show=r.show_text,
        empty=State.THOUGHT,
        choices=tuple(State),
        group="The queue",
    ),
    Field(
        key="priority",
        label="Priority",
        hint="1 some day, 5 next",
        read=r.whole(1, 5),
        show=r.show_text,
        empty=3,
        choices=("1", "2", "3", "4", "5"),
    ),
    Field(key="due", label="Due", hint="2026-10-31", read=r.read_day, show=r.show_text),
    Field(
        key="notes",
        label="Notes",
        hint="Anything else",
        read=r.read_text,
        show=r.show_text,
        empty="",
    ),
)
"""In the order of a form."""


def _read_measures(text: str, _: Context) -> tuple[tuple[str, Length], ...]:
    from stash.units.parse_length import parse_length

    measures = []
    for part in (p.strip() for p in text.split(";")):
        name, equals, amount = part.partition("=")
        if not part:
            continue
        if not equals or not name.strip():
            raise BadInputError(f"{part!r} is not a measure.", "Type: waist = 78 cm; hip = 102 cm")
        measures.append((name.strip().lower(), parse_length(amount.strip())))
    return tuple(measures)


def _show_measures(value: tuple[tuple[str, Length], ...], context: Context) -> str:
    show = r.show_as("WIDTH")
    return "; ".join(f"{name} = {show(length, context)}" for name, length in value)


PERSON_FIELDS: tuple[Field, ...] = (
    Field(
        key="name",
        label="Name",
        hint="Who is sewn for",
        read=r.read_text,
        show=r.show_text,
        empty=REQUIRED,
    ),
    Field(
        key="child_age",
        label="Age of a child",
        hint="Years, for children only: their garments carry extra cautions",
        read=r.whole(0, 17),
        show=r.show_text,
    ),
    Field(
        key="measures",
        label="Measures",
        hint="waist = 78 cm; hip = 102 cm",
        read=_read_measures,
        show=_show_measures,
        empty=(),
    ),
    Field(
        key="measured_on",
        label="Measured on",
        hint="2026-10-31",
        read=r.read_day,
        show=r.show_text,
    ),
    Field(
        key="notes",
        label="Notes",
        hint="Anything else",
        read=r.read_text,
        show=r.show_text,
        empty="",
    ),
)
"""In the order of a form."""
