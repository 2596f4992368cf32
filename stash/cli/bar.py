"""Progress on stderr: a bar on a terminal, a line now and then elsewhere."""

from __future__ import annotations

import sys
import time

import click

BAR = 30
EVERY_SECONDS = 10.0
"""Between two lines where there is no terminal."""
OFTEN_SECONDS = 0.1


class Bar:
    """Give it to a service as its `progress`; use it in a `with` block to tidy up after it."""

    def __init__(self) -> None:
        self._drawn = False
        self._live = sys.stderr.isatty()
        self._last = 0.0 if self._live else time.monotonic()

    def __call__(self, done: int, total: int, what: str) -> None:
        """Tell that `done` of `total` is done."""
        now = time.monotonic()
        if now - self._last < (OFTEN_SECONDS if self._live else EVERY_SECONDS) and done < total:
            return
        if not self._live and done >= total and not self._drawn:
            return  # it was quick: nothing to tell
        self._last = now
        self._drawn = True
        if self._live:
            filled = round(BAR * done / max(total, 1))
            bar = "█" * filled + "·" * (BAR - filled)
            click.echo(f"\r\x1b[K{bar} {done}/{total} {what[:30]}", err=True, nl=False)
        else:
            click.echo(f"{done} of {total} {what}", err=True)

    def say(self, words: str) -> None:
        """A line of its own; the bar is drawn anew below it."""
        self._clear()
        click.echo(words, err=True)

    def __enter__(self) -> Bar:
        return self

    def __exit__(self, *_: object) -> None:
        self._clear()

    def _clear(self) -> None:
        if self._drawn and self._live:
            click.echo("\r\x1b[K", err=True, nl=False)
