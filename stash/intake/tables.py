"""TOML tables read with their line numbers, so that a problem can be found again."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, TypeVar

from stash.errors import StashError
from stash.intake import words
from stash.intake.file_bytes import file_text

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date
    from pathlib import Path

    from stash.intake.problems import Problems

T = TypeVar("T")
_DEEP = re.compile(r"(?:[\w\"'-]{1,40}[ \t]*\.[ \t]*){40}")
"""Keys within keys; the parser takes the square of their number in memory."""


@dataclass(slots=True)
class Table:
    """One table of a file. Every `take` marks its key as known; `finish` tells of the rest."""

    where: str
    values: dict[str, Any]
    problems: Problems
    known: set[str] = field(default_factory=set)

    def text(self, key: str, default: str = "", *, needed: bool = False) -> str:
        """The text under `key`."""
        return self._plain(key, str, default, "text", needed=needed)

    def flag(self, key: str, default: bool = False) -> bool:
        """True or false under `key`."""
        return self._plain(key, bool, default, "true or false")

    def whole(self, key: str, default: int, low: int, high: int) -> int:
        """A whole number from `low` to `high`."""
        number = self._plain(key, int, default, "a whole number")
        if not low <= number <= high:
            self.wrong(key, f"{number} is not from {low} to {high}.")
        return number

    def number(self, key: str, default: float) -> float:
        """A number under `key`."""
        value = self.take(key, default)
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            self.wrong(key, f"'{value}' is not a number.")
            return default
        return float(value)

    def day(self, key: str) -> date | None:
        """A date under `key`, written plainly: `due = 2026-12-05`."""
        value = self.take(key, None)
        return None if value is None else self.read(key, str(value), words.read_day)

    def record_number(self) -> int:
        """The number the record had in the stash it was written from; 0: none."""
        return self.whole("number", 0, 0, 2**31 - 1)

    def texts(self, key: str) -> tuple[str, ...]:
        """A list of texts under `key`."""
        value = self.take(key, [])
        if isinstance(value, list) and all(isinstance(part, str) for part in value):
            return tuple(value)
        self.wrong(key, "this should be a list of texts.", 'Write it like ["A", "B"].')
        return ()

    def parsed(
        self, key: str, reader: Callable[[str], T], default: T, *, needed: bool = False
    ) -> T:
        """The text under `key` read by `reader`."""
        text = self.text(key, needed=needed)
        value = self.read(key, text, reader) if text else None
        return default if value is None else value

    def pairs(self, key: str, reader: Callable[[str], T]) -> tuple[tuple[str, T], ...]:
        """A little table of names and texts, each read by `reader`.

        A list of pairs will do as well: in it a name may stand twice.
        """
        value = self.take(key, {})
        if isinstance(value, dict):
            value = list(value.items())
        if not isinstance(value, list) or not all(
            isinstance(pair, (list, tuple)) and len(pair) == 2 for pair in value
        ):
            self.wrong(
                key, "this should be a table.", f'Write it like {key} = {{ hip = "96 cm" }}.'
            )
            return ()
        read = ((str(name), self.read(f"{key}, {name}", str(text), reader)) for name, text in value)
        return tuple((name, found) for name, found in read if found is not None)

    def inner(self, key: str) -> list[Table]:
        """The tables under `[[key]]` inside this one; each is to be finished."""
        value = self.take(key, [])
        if not isinstance(value, list) or not all(isinstance(part, dict) for part in value):
            self.wrong(key, f"this should be tables headed [[{key}]].")
            return []
        return [
            Table(f"{self.where}, {key} {number}", part, self.problems)
            for number, part in enumerate(value, 1)
        ]

    def read(self, key: str, text: str, reader: Callable[[str], T]) -> T | None:
        """`text` read by `reader`; None and a problem noted when it cannot be."""
        return self.problems.attempt(f"{self.where}, {key}", lambda: reader(text))

    def take(self, key: str, default: object) -> Any:
        """The raw value under `key`."""
        self.known.add(key)
        return self.values.get(key, default)

    def wrong(self, key: str, message: str, hint: str = "") -> None:
        """Note a problem at `key`."""
        self.problems.add(f"{self.where}, {key}", message, hint)

    def finish(self) -> None:
        """Tell of every key nobody asked for: a slip of the fingers is never passed over."""
        for key in self.values:
            if key not in self.known:
                self.problems.note(self.where, words.unknown("entry", key, self.known))

    def _plain(self, key: str, kind: type[T], default: T, what: str, *, needed: bool = False) -> T:
        value = self.take(key, None)
        if value is None:
            if needed:
                self.problems.add(self.where, f"the {key} is missing.")
            return default
        if type(value) is not kind:
            self.wrong(key, f"'{value}' is not {what}.")
            return default
        return value


def read_toml(path: Path, problems: Problems) -> Table | None:
    """A TOML file as one table; None, and the problem noted, when it cannot be read."""
    try:
        text = file_text(path)
        if _DEEP.search(text):
            problems.add(path.name, "its tables lie too deep in one another.", "Correct it there.")
            return None
        values = tomllib.loads(text)
    except StashError as error:
        problems.note(path.name, error)
        return None
    except (ValueError, RecursionError) as error:
        problems.add(path.name, f"it cannot be read as TOML ({error}).", "Correct it there.")
        return None
    return Table(path.name, values, problems)


def read_entries(path: Path, heading: str, problems: Problems) -> list[Table]:
    """The tables headed `[[heading]]` of a file that holds nothing else, with their lines."""
    whole = read_toml(path, problems)
    if whole is None:
        return []
    entries = whole.inner(heading)
    whole.finish()
    text = file_text(path).splitlines()
    head = re.compile(rf"\s*\[\[\s*{heading}\s*\]\]")
    lines = [number for number, line in enumerate(text, 1) if head.match(line)]
    for entry, line in zip(entries, lines, strict=False):
        entry.where = f"{path.name}, line {line} ({entry.values.get('name', 'no name')})"
    return entries
