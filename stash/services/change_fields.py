"""How the columns of every table are called and shown when a change is told."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from enum import IntEnum, StrEnum
from typing import TYPE_CHECKING, Any

from stash.report.shape_text import tape
from stash.services import readers as r
from stash.services.cloth_fields import CLOTH_FIELDS
from stash.services.fields import Context, Field
from stash.services.make_fields import MAKE_FIELDS, PERSON_FIELDS
from stash.services.pattern_fields import (
    ASKS_FIELDS,
    CHART_FIELDS,
    NOTION_FIELDS,
    PATTERN_FIELDS,
)
from stash.store.record_names import noun_of_column
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Sequence

FIELDS: dict[str, Sequence[Field]] = {
    "cloth": CLOTH_FIELDS,
    "make": MAKE_FIELDS,
    "pattern": PATTERN_FIELDS,
    "person": PERSON_FIELDS,
    "pattern_chart": CHART_FIELDS,
    "pattern_asks": ASKS_FIELDS,
    "pattern_notion": NOTION_FIELDS,
}
"""What a person may say about a record; columns nobody types are shown by their kind."""

AMOUNTS = {("promise", "length")}
"""Lengths of cloth among the columns without a field."""


TAPED = {
    ("cloth_flaw", "x"): "Along",
    ("cloth_flaw", "y"): "Across",
    ("cloth_flaw", "radius"): "Radius",
}
"""Millimetres kept as plain numbers, and what a person calls them."""


def column_field(table: str, column: str) -> Field:
    """The field of a column; of one nobody types a plain one that shows any value."""
    for field in FIELDS.get(table, ()):
        if field.attribute == column:
            return field
    noun = noun_of_column(table, column)
    label = TAPED.get((table, column)) or noun or column.replace("_", " ")
    return Field(
        key=column,
        label=label[:1].upper() + label[1:],
        hint="",
        read=r.read_text,
        show=_shower(table, column, noun),
    )


def order_of(table: str, column: str) -> tuple[int, str]:
    """Columns in the order of the form, then those without a field by name."""
    known = [field.attribute for field in FIELDS.get(table, ())]
    return (known.index(column) if column in known else len(known), column)


def exact(field: Field) -> Field:
    """The same field with lengths to the last digit, where rounded ones look alike."""
    return replace(field, show=r.show_as("EXACT"))


def _shower(table: str, column: str, noun: str) -> Any:
    if noun:
        return r.show_reference(noun)
    if (table, column) in TAPED:
        return _show_taped
    return r.show_as("TAKEN") if (table, column) in AMOUNTS else show_any


def _show_taped(value: float, context: Context) -> str:
    return tape(value, context.settings.system)


def show_any(value: Any, context: Context) -> str:
    """A value by its kind: lengths as widths, yes or no, outlines by their corners."""
    match value:
        case None:
            return ""
        case Length():
            return r.show_as("WIDTH")(value, context)
        case bool():
            return r.show_flag(value, context)
        case IntEnum():
            return r.show_level(value, context)
        case StrEnum() | str() | date():
            return str(value)
        case float():
            return f"{value:g}"
        case tuple():
            return _show_list(value)
    return str(value)


def _show_list(value: tuple[Any, ...]) -> str:
    if value and all(isinstance(part, tuple) for part in value):
        return f"{len(value)} corners"
    return ", ".join(f"{part:g}" if isinstance(part, float) else str(part) for part in value)
