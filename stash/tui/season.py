"""The season plan as the rooms share it: made once for each state of the stash."""

from __future__ import annotations

from threading import Lock
from typing import TYPE_CHECKING

from stash.errors import StoppedError

if TYPE_CHECKING:
    from stash.report.records import PlanBook
    from stash.services.stash import Stash
    from stash.tui.work import Teller


class Season:
    """Keeps the latest plan with the revision of the stash it was made for."""

    def __init__(self, stash: Stash) -> None:
        self._stash = stash
        self._lock = Lock()
        self._book: PlanBook | None = None
        self._revision = -1

    def book(self, revision: int, teller: Teller) -> PlanBook:
        """The plan for this revision; two rooms asking at once wait for the same one.

        Raises:
            StoppedError: The person stopped it, or asked something newer.
        """
        while not self._lock.acquire(timeout=0.1):
            if teller.cancelled():
                raise StoppedError("Stopped.")
        try:
            if self._book is None or self._revision != revision:
                from stash.services.planning import plan_book

                self._book = plan_book(
                    self._stash, progress=teller.progress, cancelled=teller.cancelled
                )
                self._revision = revision
            return self._book
        finally:
            self._lock.release()
