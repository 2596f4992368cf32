"""What the workers report, as past facts. A worker only posts; one handler changes the screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.message import Message

if TYPE_CHECKING:
    from stash.errors import StashError


class Answered(Message):
    """A question put to the stash was answered. Rooms handle their own kinds of it."""

    def __init__(self, answer: object) -> None:
        super().__init__()
        self.answer = answer


class Failed(Message):
    """A question could not be answered: the message and its hint say why."""

    def __init__(self, error: StashError, group: str) -> None:
        super().__init__()
        self.error = error
        self.group = group


class Advanced(Message):
    """Long work went on: `done` of `total` steps, and what it is at."""

    def __init__(self, done: int, total: int, what: str) -> None:
        super().__init__()
        self.done = done
        self.total = total
        self.what = what


class Stopped(Message):
    """The person stopped the work of this group."""

    def __init__(self, group: str) -> None:
        super().__init__()
        self.group = group


class ChangedElsewhere(Message):
    """Another program changed the stash; `what` says it in words."""

    def __init__(self, what: str) -> None:
        super().__init__()
        self.what = what


class Changed(Message):
    """Something in the stash was changed; `what` says it in words."""

    def __init__(self, what: str) -> None:
        super().__init__()
        self.what = what
