"""Ctrl-C for the whole program: never lost, and never in the midst of reading a module."""

from __future__ import annotations

import _thread
import signal
import sys
import threading
import time
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sys import UnraisableHookArgs
    from types import FrameType

SOON = 0.05
"""Seconds until Ctrl-C is pressed anew where it cannot be heeded yet."""


def heed() -> None:
    """From here on; where Ctrl-C is ignored it stays so."""
    if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
        signal.signal(signal.SIGINT, stop)
        sys.unraisablehook = hear_after_all


def ignore() -> None:
    """Only the last word is left to be said; nothing where it is not heeded from here."""
    if signal.getsignal(signal.SIGINT) is stop:
        signal.signal(signal.SIGINT, signal.SIG_IGN)


def stop(number: int, frame: FrameType | None) -> None:
    """Handler that waits for the modules being read.

    Compiled ones print what stopped them and call it an error of their own.
    """
    if _is_reading_modules(frame):
        _thread.start_new_thread(_press_again, ())
    else:
        signal.default_int_handler(number, frame)


def hear_after_all(lost: UnraisableHookArgs) -> None:
    """Hook for errors Python drops because it is tidying up: Ctrl-C is none to be dropped."""
    if lost.exc_type is KeyboardInterrupt:
        _thread.start_new_thread(_press_again, ())
    else:
        sys.__unraisablehook__(lost)


def _press_again() -> None:
    time.sleep(SOON)
    if hasattr(signal, "pthread_kill") and (first := threading.main_thread().ident):
        signal.pthread_kill(first, signal.SIGINT)  # wakes it where it waits
    else:
        _thread.interrupt_main()


def _is_reading_modules(frame: FrameType | None) -> bool:
    while frame is not None:
        if frame.f_code.co_filename.startswith("<frozen importlib"):
            return True
        frame = frame.f_back
    return False
