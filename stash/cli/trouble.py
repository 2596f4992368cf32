"""Errors in words, on stderr."""

from __future__ import annotations

import traceback
from datetime import datetime
from typing import TYPE_CHECKING

import click

from stash import paths

if TYPE_CHECKING:
    from pathlib import Path

    from stash.errors import StashError


def say_error(error: StashError) -> None:
    """What is wrong, and what to type instead: a line for each problem."""
    for line in str(error).splitlines():
        click.echo(f"stash: {' '.join(line.split())}", err=True)


def say_fault() -> None:
    """One sentence for a fault of the program; the particulars go into a file."""
    kept = _log()
    where = f"; the particulars are in {kept}" if kept else ""
    click.echo(
        f"stash: Something went wrong that is the program's fault: please report it{where}.",
        err=True,
    )


def _log() -> Path | None:
    """Write the error being handled into the log; None if that cannot be done either."""
    try:
        place = paths.home() / "faults.log"
        paths.make_private(place.parent)
        with place.open("a", encoding="utf-8") as file:
            file.write(f"{datetime.now().astimezone().isoformat(timespec='seconds')}\n")
            file.write(traceback.format_exc())
    except OSError:
        return None
    return place
