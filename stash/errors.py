"""What can go wrong, said once: a message, what to do about it, an exit code."""

from __future__ import annotations

from enum import IntEnum


class Exit(IntEnum):
    """Exit codes of the command line; part of its published behaviour."""

    DONE = 0
    BUG = 1
    USAGE = 2
    BAD_INPUT = 3
    NOT_FOUND = 4
    REFUSED = 5
    STORE = 6
    STOPPED = 130


class StashError(Exception):
    """Something the person can put right. `hint` says what to type or do instead."""

    exit_code = Exit.BUG

    def __init__(self, message: str, hint: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint

    def __str__(self) -> str:
        return f"{self.message} {self.hint}".strip()


class BadInputError(StashError):
    """What was typed or read cannot be understood."""

    exit_code = Exit.BAD_INPUT


class NotFoundError(StashError):
    """No such cloth, pattern, make, person or file; or more than one by that name."""

    exit_code = Exit.NOT_FOUND


class RefusedError(StashError):
    """Understood, but it would break something: another record depends on it."""

    exit_code = Exit.REFUSED


class StoreError(StashError):
    """The stash itself cannot be opened, read or written."""

    exit_code = Exit.STORE


class StoppedError(StashError):
    """The person stopped it."""

    exit_code = Exit.STOPPED
