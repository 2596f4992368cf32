"""What is said of a change that was kept, besides that it was."""

from __future__ import annotations

from collections.abc import Callable

CUT_FORGOTTEN = "What was cut stays in the diary, but counts no longer in stash cloth months."
"""Of a cloth or a make that is removed after a cut."""

Remark = Callable[[str], object]
"""Takes one sentence or more; called before the change is kept for good."""


def unsaid(_: str) -> None:
    """Nobody wants to hear it."""
