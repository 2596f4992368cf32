"""What may be said about a make, and about the person it is for."""

from __future__ import annotations

from stash.garment.make import State
from stash.services import readers as r
from stash.services import ready_fields as ready
from stash.services.fields import REQUIRED, Field

MAKE_FIELDS: tuple[Field, ...] = (
    ready.name("make", "What you call it, for example: rain trousers", group="The make"),
    ready.record(
        "pattern",
        "pattern",
        "Pattern",
        "Name or number of one of your patterns",
        name="pattern_id",
        empty=REQUIRED,
    ),
    ready.text("view", "View", "One of the pattern's views; empty if it has none"),
    ready.text("size", "Size", "One of the pattern's sizes"),
    ready.record("person", "person", "For", "Name of a person", name="person_id"),
    ready.flag("muslin", "Wearable muslin", "yes if it is a test of the fit that is to be kept"),
    ready.record("make", "muslin_for", "Tests the make", "Name of the make this one is cut before"),
    ready.one_of(
        State,
        "state",
        "State",
        "thought, promised, cut, sewing, worn or let go",
        empty=State.THOUGHT,
        group="The queue",
    ),
    ready.marks("priority", "Priority", "1 some day, 5 next"),
    ready.day("due", "Due", "2026-10-31"),
    ready.notes(),
)
"""In the order of a form."""


PERSON_FIELDS: tuple[Field, ...] = (
    ready.name("person", "Who is sewn for"),
    Field(
        key="child_age",
        label="Age of a child",
        hint="Years, for children only; their garments carry extra cautions",
        read=r.whole(0, 17),
        show=r.show_text,
    ),
    Field(
        key="measures",
        label="Measures",
        hint="waist = 78 cm; hip = 102 cm",
        read=r.read_measures,
        show=r.show_measures,
        empty=(),
    ),
    ready.day("measured_on", "Measured on", "2026-10-31"),
    ready.notes(),
)
"""In the order of a form."""
