"""Ctrl-C while a search is on: once ends the search, twice the program."""

from __future__ import annotations

import signal
from contextlib import suppress
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable
    from types import FrameType

FOLLOWS = "the best so far follows"


class Stopping:
    """Ask it again and again while something searches; use it in a `with`.

    Until it is asked first, and after the first Ctrl-C, Ctrl-C does what it did before: there
    is nothing found that could be kept yet, or the person will not wait for it.
    """

    def __init__(self, say: Callable[[str], None], then: str = FOLLOWS) -> None:
        self._say = say
        self._then = then
        self._before: Callable[[int, FrameType | None], object] | None = None
        self._pressed = False
        self.heeded = False
        """The search was told to end before its time."""

    def __enter__(self) -> Stopping:
        return self

    def __exit__(self, *_: object) -> None:
        self._leave()

    def is_wanted(self) -> bool:
        """Ctrl-C was pressed; whoever asks ends its search."""
        if self._pressed:
            self.heeded = True
        elif self._before is None and callable(before := signal.getsignal(signal.SIGINT)):
            signal.signal(signal.SIGINT, self._press)
            self._before = before
        return self._pressed

    def _press(self, _number: int, _frame: FrameType | None) -> None:
        self._pressed = True
        self._leave()
        with suppress(RuntimeError):  # Ctrl-C came in the midst of writing to the same stream
            self._say(f"Stopping: {self._then}. Ctrl-C again stops at once.")

    def _leave(self) -> None:
        if self._before is not None:
            signal.signal(signal.SIGINT, self._before)
            self._before = None
