"""How a service tells how far it is, and hears that it should stop."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager

Progress = Callable[[int, int, str], None]
"""Called as (done, total, what)."""

Cancelled = Callable[[], bool]
"""True once the person wants to stop; the service then raises StoppedError."""

Ending = Callable[[], AbstractContextManager[Callable[[], bool]]]
"""Open while something looks longer; gives what is True once the best so far will do."""
