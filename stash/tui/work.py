"""Slow questions, asked in the background: a worker computes, a message tells, a handler changes.

Nothing that opens the store or lays out a piece runs on the loop that draws the screen.
"""

from __future__ import annotations

from functools import partial
from time import monotonic
from typing import TYPE_CHECKING, Any, cast

from textual.worker import get_current_worker

from stash.errors import StashError, StoppedError
from stash.tui.messages import Advanced, Failed, Stopped

if TYPE_CHECKING:
    from collections.abc import Callable

    from textual.screen import Screen
    from textual.worker import Worker

    from stash.services.remarks import Remark
    from stash.services.stash import Stash
    from stash.tui.app import StashApp
    from stash.tui.messages import Answered

BETWEEN = 0.1
"""Seconds between two reports of progress: more often only costs redraws."""


class Teller:
    """Handed to a service: hears how far it is, and lets it know when to stop."""

    def __init__(self, screen: Screen[Any], worker: Worker[None]) -> None:
        self._screen = screen
        self._worker = worker
        self._told = 0.0

    def cancelled(self) -> bool:
        """The person stopped it, asked something newer, or left."""
        return self._worker.is_cancelled

    def check(self, done: int, total: int, what: str) -> None:
        """Progress nobody needs to see; raises StoppedError once nobody waits for it."""
        del done, total, what
        if self.cancelled():
            raise StoppedError("Stopped.")

    def progress(self, done: int, total: int, what: str) -> None:
        """Show how far the work is; raises StoppedError once nobody waits for it."""
        if self.cancelled():
            raise StoppedError("Stopped.")
        now = monotonic()
        if now - self._told >= BETWEEN:
            self._told = now
            self._screen.post_message(Advanced(done, total, what))


def app_of(screen: Screen[Any]) -> StashApp:
    """The app this screen belongs to."""
    return cast("StashApp", screen.app)


def stash_of(screen: Screen[Any]) -> Stash:
    """The stash the app has open."""
    return app_of(screen).stash


def ask(
    screen: Screen[Any],
    group: str,
    question: Callable[[Teller], object],
    told: type[Answered],
) -> None:
    """Answer `question` in a thread and post `told(answer)`; a newer one of `group` replaces it."""
    screen.run_worker(
        partial(_answer, screen, group, question, told),
        thread=True,
        exclusive=True,
        group=group,
        name=group,
    )


def _answer(
    screen: Screen[Any],
    group: str,
    question: Callable[[Teller], object],
    told: type[Answered],
) -> None:
    worker = get_current_worker()
    try:
        answer = question(Teller(screen, worker))
    except StoppedError:
        return
    except StashError as error:
        if not worker.is_cancelled:
            screen.post_message(Failed(error, group))
        return
    if not worker.is_cancelled:
        screen.post_message(told(answer))


def is_busy(screen: Screen[Any], group: str) -> bool:
    """A question of this group is still being answered."""
    return any(
        worker.group == group and worker.node is screen and not worker.is_finished
        for worker in screen.workers
    )


def stop(screen: Screen[Any], group: str) -> None:
    """Stop the question of this group, if one is being answered."""
    if is_busy(screen, group):
        screen.workers.cancel_group(screen, group)
        screen.post_message(Stopped(group))


def with_remarks(told: str, keep: Callable[[Remark], object]) -> str:
    """Make a change with a service that takes remarks; returns `told` and what else was said."""
    said = [told]
    keep(said.append)
    return " ".join(said)
