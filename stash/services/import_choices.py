"""How a table is to be read: what the person said, typed or kept in a small file."""

from __future__ import annotations

import json
import re
import tomllib
from dataclasses import dataclass, field, fields
from typing import TYPE_CHECKING, Any

from stash.errors import BadInputError, NotFoundError

if TYPE_CHECKING:
    from pathlib import Path

DATES = ("", "day-first", "month-first")
OTHERS = ("", "notes", "leave")
SYSTEMS: dict[str, dict[str, str]] = {
    "metric": {
        **dict.fromkeys(("length", "bought", "amount"), "m"),
        **dict.fromkeys(("width", "selvedge", "repeat_length", "repeat_width"), "cm"),
        "weight": "gsm",
    },
    "imperial": {
        **dict.fromkeys(("length", "bought", "amount"), "yd"),
        **dict.fromkeys(("width", "selvedge", "repeat_length", "repeat_width"), "in"),
        "weight": "oz",
    },
}
"""Units of bare numbers, by field, for the two habits of measuring."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choices:
    """What the person said about a table. Empty: let the program find out, or ask."""

    kind: str = ""
    """cloths, makes, chart or diary."""
    sheet: str = ""
    """Name of the sheet in a workbook."""
    headings: dict[str, str] = field(default_factory=dict)
    """What a column is: a field, `notes` or `leave`, by its heading."""
    units: dict[str, str] = field(default_factory=dict)
    """Unit of bare numbers, by field; under `all`: metric or imperial."""
    fixed: dict[str, str] = field(default_factory=dict)
    """What empty cells stand for, by field."""
    others: str = ""
    """What becomes of columns nobody knows: `notes` or `leave`; empty: they are asked for."""
    unread: str = ""
    """`notes`: a cell that is not understood goes there, if the row can do without it."""
    key: str = ""
    """Heading of the column by which rows are known again."""
    dates: str = ""

    def unit(self, key: str) -> str:
        """The unit of bare numbers in the field `key`."""
        return self.units.get(key) or SYSTEMS.get(self.units.get("all", ""), {}).get(key, "")


def read_pairs(words: tuple[str, ...], what: str) -> dict[str, str]:
    """Words like `Vendor=notes` as pairs; the last `=` parts them.

    Raises:
        BadInputError: A word without `=`, or with nothing on one side.
    """
    found = {}
    for word in words:
        left, equals, right = word.rpartition("=")
        if not equals or not left.strip() or not right.strip():
            raise BadInputError(f"{word!r} is not of the form {what}.", f"Type {what}.")
        found[left.strip()] = right.strip()
    return found


def read_units(words: tuple[str, ...]) -> dict[str, str]:
    """`metric`, `imperial`, or a unit for one field such as `width=cm`."""
    systems = [word for word in words if word in SYSTEMS]
    pairs = read_pairs(tuple(word for word in words if word not in SYSTEMS), "width=cm")
    return ({"all": systems[-1]} if systems else {}) | pairs


def save_choices(choices: Choices, path: Path) -> None:
    """Write choices to a file that `load_choices` reads, whole or not at all."""
    lines = ["# How a table is read into the stash: stash import FILE --mapping THIS"]
    tables = []
    for name, value in _values(choices).items():
        if isinstance(value, str):
            lines.append(f"{name} = {_quoted(value)}")
        else:
            tables.append(f"\n[{name}]")
            tables += [f"{_quoted(key)} = {_quoted(text)}" for key, text in value.items()]
    half_written = path.with_name(path.name + ".new")
    try:
        half_written.write_text("\n".join(lines + tables) + "\n", encoding="utf-8")
        half_written.replace(path)
    except OSError as error:
        raise BadInputError(
            f"{path} cannot be written: {error.strerror}.", "Name another file."
        ) from error


def load_choices(path: Path) -> Choices:
    """Choices from a file.

    Raises:
        NotFoundError: There is no such file.
        BadInputError: It is no TOML, or has something else in it.
    """
    try:
        found = tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except FileNotFoundError as error:
        raise NotFoundError(f"There is no file {path}.", "Check the name.") from error
    except (OSError, ValueError, RecursionError) as error:
        raise BadInputError(
            f"{path.name} cannot be read as TOML ({error}).", "Correct it there."
        ) from error
    known = {one.name: getattr(Choices(), one.name) for one in fields(Choices)}
    for name, value in found.items():
        if name not in known:
            raise BadInputError(
                f"{path.name}: there is no entry {name!r}.", f"Entries are {', '.join(known)}."
            )
        if not _is_like(value, known[name]):
            raise BadInputError(
                f"{path.name}: {name} should be {'text' if known[name] == '' else 'a table'}.",
                f'Write {name} = "…", or [{name}] with a line for each.',
            )
    return Choices(**found)


def _values(choices: Choices) -> dict[str, str | dict[str, str]]:
    """What was said, without what was not."""
    values = {one.name: getattr(choices, one.name) for one in fields(Choices)}
    return {name: value for name, value in values.items() if value}


def _is_like(value: Any, usual: object) -> bool:
    if isinstance(usual, str):
        return isinstance(value, str)
    return isinstance(value, dict) and all(isinstance(text, str) for text in value.values())


def _quoted(text: str) -> str:
    """A basic TOML string: JSON's escapes are TOML's too, but for DEL."""
    return re.sub("\x7f", r"\\u007f", json.dumps(text, ensure_ascii=False))
