"""`stash move`."""

from __future__ import annotations

from pathlib import Path

import click

from stash.cli.common import opened
from stash.cli.given import Asking


@click.command(cls=Asking)
@click.option(
    "--to",
    "target",
    required=True,
    metavar="URL",
    help="postgresql://user@host/name, sqlite:///path, or a path.",
)
def move(target: str) -> None:
    """Copy the whole stash into an empty database, of either kind.

    Every row is compared after it was written; this stash stays as it is. Better than in the
    address, a password stands in PGPASSWORD or in the file pgpass: what is typed here may be
    seen by others. It is never shown or written anywhere.
    """
    from stash import paths

    url = target if "://" in target else paths.sqlite_url(Path(target))
    with opened() as stash:
        place, counts = stash.copy_to(url)
    told = ", ".join(f"{number} {name.replace('_', ' ')}" for name, number in counts.items())
    click.echo(f"Copied and compared, rows: {told}.", err=True)
    click.echo(f"They are in {place}. To use it from now on, name it in STASH_DB.", err=True)
