"""Reading the plain fields of a record by their types: a new field needs no reader of its own."""

from __future__ import annotations

from dataclasses import MISSING, fields
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from stash.cloth.record import Structure
from stash.errors import BadInputError
from stash.garment.pattern import Grain, Role
from stash.intake import words
from stash.intake.shape_words import read_points
from stash.units.parse_length import parse_length

if TYPE_CHECKING:
    from collections.abc import Callable

    from stash.intake.tables import Table


def _number(text: str) -> float:
    try:
        return float(Decimal(text))
    except ArithmeticError:
        raise BadInputError(f"'{text}' is not a number.", "Write it like 2.5.") from None


def _whole(text: str) -> int:
    if text.isascii() and text.isdigit() and len(text) < 10:
        return int(text)
    raise BadInputError(f"'{text}' is not a whole number.", "Write it like 3.")


def _point(text: str) -> tuple[float, float]:
    points = read_points(text)
    if len(points) != 1:
        raise BadInputError(f"'{text}' is not one point.", "Write mm along and across: 90 40.")
    return points[0]


READERS: dict[str, Callable[[str], Any]] = {
    "str": str,
    "bool": words.read_flag,
    "int": _whole,
    "int | None": _whole,
    "float": _number,
    "float | None": _number,
    "Length": parse_length,
    "date | None": words.read_day,
    "Decimal | None": words.read_price,
    "Hand | None": words.read_hand,
    "Structure": lambda text: words.read_choice(Structure, text),
    "Grain": lambda text: words.read_choice(Grain, text),
    "Role": lambda text: words.read_choice(Role, text),
    "tuple[float, float] | None": _point,
    "tuple[tuple[float, float], ...]": read_points,
}
"""How a text is read, by the type of the field it is for."""


def read_fields(table: Table, record: type[Any]) -> dict[str, Any]:
    """The fields of `record` under the keys of their names; what is missing keeps its default."""
    found: dict[str, Any] = {}
    for field in fields(record):
        if field.name not in table.values and field.default is not MISSING:
            table.known.add(field.name)
            continue
        kind = str(field.type)
        if kind == "bool":
            found[field.name] = table.flag(field.name)
        elif kind == "int":
            found[field.name] = table.whole(field.name, 0, 0, 1_000_000)
        elif kind in ("float", "float | None"):
            found[field.name] = table.number(field.name, 0.0)
        elif kind == "tuple[str, ...]":
            found[field.name] = table.texts(field.name)
        elif kind == "str":
            found[field.name] = table.text(field.name, needed=field.default is MISSING)
        else:
            found[field.name] = table.parsed(field.name, READERS[kind], None, needed=True)
    return found
