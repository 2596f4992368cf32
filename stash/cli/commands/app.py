"""`stash` and `stash demo`: the terminal app."""

from __future__ import annotations

import click

from stash.cli.common import opened


def open_app(sample: bool) -> None:
    """Open the app on the person's stash, or on a throw-away sample."""
    from stash.tui.app import run_app  # the other face; nothing else here needs it

    with opened(sample) as stash:
        run_app(stash)


@click.command()
def demo() -> None:
    """Open the app on a throw-away sample.

    Nothing is kept: what you change is gone when you leave.
    """
    open_app(sample=True)
