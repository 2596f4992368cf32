"""Collecting what is wrong with a set of files, so that all of it is told at once."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, TypeVar

from stash.errors import BadInputError, StashError

if TYPE_CHECKING:
    from collections.abc import Callable

T = TypeVar("T")
MOST_SHOWN = 20


@dataclass(slots=True)
class Problems:
    """Every problem met so far, each a sentence that begins with its file and line."""

    found: list[BadInputError] = field(default_factory=list)
    exact: bool = False
    """The files were written by the program: what a stash held is read, sensible or not."""

    def add(self, where: str, message: str, hint: str = "") -> None:
        """Note that `where` (file, line, field) is wrong."""
        self.found.append(BadInputError(f"{where}: {message}", hint))

    def doubt(self, where: str, message: str, hint: str = "") -> None:
        """Note what can be read but makes no sense, unless the program wrote it itself."""
        if not self.exact:
            self.add(where, message, hint)

    def note(self, where: str, error: StashError) -> None:
        """Note what an error says of `where`."""
        self.add(where, error.message, error.hint)

    def attempt(self, where: str, reading: Callable[[], T]) -> T | None:
        """What `reading` returns; None, and the problem noted, when it cannot be read."""
        try:
            return reading()
        except StashError as error:
            self.note(where, error)
            return None

    def raise_any(self, what: str) -> None:
        """Raise one BadInputError for everything found; do nothing if all is well."""
        if not self.found:
            return
        if len(self.found) == 1:
            raise self.found[0]
        lines = [f"  {problem}" for problem in self.found[:MOST_SHOWN]]
        if len(self.found) > MOST_SHOWN:
            lines.append(f"  and {len(self.found) - MOST_SHOWN} more")
        raise BadInputError(
            f"{what} has {len(self.found)} problems, so nothing of it was read:\n"
            + "\n".join(lines),
        )
