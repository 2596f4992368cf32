"""`stash backup` and `stash restore`."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stash.cli.common import json_option, line_width, opened, print_json
from stash.cli.given import Place

if TYPE_CHECKING:
    from pathlib import Path


@click.command()
@click.argument("file", required=False, type=Place(), metavar="[FILE]")
@click.option("--list", "show", is_flag=True, help="List the copies there are, make none.")
@json_option
def backup(file: Path | None, show: bool, as_json: bool) -> None:
    """Keep a copy of the stash, or list the copies.

    A copy is made by itself on the first use of a day, if anything changed, and before the
    tables change: 14 daily and 12 monthly ones stay. One you ask for stays until you remove
    it. A stash on a server is copied as a folder of readable files, and only when you ask:
    its owner should keep copies of the server as well.

    \b
    Keys of --json:
      backups: file, made, by_itself, bytes
    """
    from stash.services.keeping import back_up

    if show:
        _show(as_json)
        return
    with opened() as stash:
        made = back_up(stash, file)
        on_server = stash.file is None
    if as_json:
        print_json({"file": str(made)})
        return
    if on_server:
        click.echo("The stash is on a server, so its copy is a folder of files.", err=True)
    click.echo(f"Kept: {made}", err=True)


def _show(as_json: bool) -> None:
    from stash.report.columns import table
    from stash.services.keeping import list_backups

    found = list_backups()
    if as_json:
        keys = [
            {
                "file": str(one.file),
                "made": one.made.isoformat(timespec="seconds"),
                "by_itself": one.by_itself,
                "bytes": one.size,
            }
            for one in found
        ]
        print_json({"backups": keys})
    elif found:
        lines = [
            (f"{one.made:%Y-%m-%d %H:%M}", f"{one.size / 1e6:.1f} MB", one.file.name)
            for one in found
        ]
        click.echo(table(("Made", ">Size", "Copy"), lines, line_width(), keep=2))
    else:
        click.echo("There is no copy yet: stash backup", err=True)


@click.command()
@click.argument("place", type=Place(), metavar="COPY")
def restore(place: Path) -> None:
    """Put a copy in the place of the stash; what it replaces is kept.

    COPY is a file of stash backup, or a folder of stash export --all; one in the backup
    folder may be named alone. It is checked first, and brought up to date if it is older.
    """
    from stash.services.keeping import restore as put_back

    aside = put_back(place)
    click.echo(f"The stash is now what {place.name} was.", err=True)
    if aside is not None:
        click.echo(f"What it was before is kept: {aside}", err=True)
