"""`stash load`."""

from __future__ import annotations

from pathlib import Path

import click

from stash.cli.common import opened


@click.command()
@click.argument(
    "folder", required=False, type=click.Path(file_okay=False, path_type=Path), metavar="[FOLDER]"
)
def load(folder: Path | None) -> None:
    """Read a folder of files into the stash.

    The folder holds cloths.csv and, if there are any, people.toml, makes.toml, diary.csv and
    patterns/*.toml, as the sample does; without one the sample itself is read. All of it is
    kept, or nothing.
    """
    from stash.services.sample import load_sample

    with opened() as stash:
        found = load_sample(stash, folder)
    told = ", ".join(f"{number} {noun}{'' if number == 1 else 's'}" for number, noun in found)
    click.echo(f"Read: {told}.", err=True)
