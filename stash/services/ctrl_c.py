"""Ctrl-C at a moment at which nothing may be torn apart."""

from __future__ import annotations

import signal
import threading
from contextlib import ExitStack, contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

CAN_BLOCK = hasattr(signal, "pthread_sigmask")


@contextmanager
def held() -> Iterator[None]:
    """Ctrl-C pressed inside is answered at the end, and processes started inside never hear it.

    They are born with it blocked, where the system can do that: told only once they run, they
    would hear it while they still read their modules.
    """
    with ExitStack() as stack:
        if threading.current_thread() is threading.main_thread():
            stack.enter_context(_answered_later())
        if CAN_BLOCK:
            stack.enter_context(_blocked())
        yield


@contextmanager
def _answered_later() -> Iterator[None]:
    """Only the main thread answers it, but any thread may be the one the signal reaches."""
    pressed: list[int] = []
    before = signal.signal(signal.SIGINT, lambda number, _: pressed.append(number))
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
        if pressed:
            signal.raise_signal(signal.SIGINT)


@contextmanager
def _blocked() -> Iterator[None]:
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
