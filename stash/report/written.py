"""Values written as people would, so that reading them back gives exactly what was there."""

from __future__ import annotations

import json
from datetime import date
from decimal import Decimal
from enum import IntEnum, StrEnum
from typing import TYPE_CHECKING, Any

from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence


def written(value: Any) -> str:
    """A plain value as one text: `yes`, `140 cm`, `crisp`, `2026-11-25`, `0 0, 900 0`.

    Nothing (None, an empty text or no points) is an empty text.
    """
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Length):
        return f"{_digits(Decimal(value.nm).scaleb(-7))} cm"
    if isinstance(value, IntEnum):
        return value.name.lower()
    if isinstance(value, StrEnum):
        return value.value
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, float):
        return number(value)
    if isinstance(value, tuple):
        return points(value if value and isinstance(value[0], tuple) else (value,))
    return str(value)


def number(value: float) -> str:
    """A number with all its digits and no exponent."""
    return _digits(Decimal(repr(value)))


def points(ring: Iterable[Sequence[float]]) -> str:
    """Points in mm: `0 0, 900 0, 900 600`."""
    return ", ".join(" ".join(number(part) for part in point) for point in ring)


def quoted(text: str) -> str:
    """A TOML string."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def pair(key: str, value: Any) -> str:
    """A line of TOML: numbers, flags, days and lists plainly, everything else as text."""
    if isinstance(value, bool):
        return f"{key} = {str(value).lower()}"
    if isinstance(value, (int, float)) and not isinstance(value, IntEnum):
        return f"{key} = {value!r}"
    if isinstance(value, date):
        return f"{key} = {value.isoformat()}"
    if isinstance(value, tuple) and all(isinstance(part, str) for part in value):
        return f"{key} = [{', '.join(quoted(part) for part in value)}]"
    return f"{key} = {quoted(written(value))}"


def amounts(key: str, named: Sequence[tuple[str, Length]]) -> str:
    """A line of TOML for named lengths: a table, or pairs where a name stands twice."""
    cells = [(quoted(name), quoted(written(length))) for name, length in named]
    if len({name for name, _ in named}) == len(named):
        return f"{key} = {{ {', '.join(f'{name} = {text}' for name, text in cells)} }}"
    return f"{key} = [{', '.join(f'[{name}, {text}]' for name, text in cells)}]"


def _digits(value: Decimal) -> str:
    plain = format(value, "f")
    return plain.rstrip("0").rstrip(".") if "." in plain else plain
