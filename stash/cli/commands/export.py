"""`stash export`."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stash.cli.common import opened, sample_option
from stash.cli.given import Place

if TYPE_CHECKING:
    from pathlib import Path


@click.command()
@click.argument("file", type=Place(), metavar="FILE")
@click.option(
    "--what",
    type=click.Choice(["cloths", "makes", "chart", "diary"]),
    default="cloths",
    show_default=True,
    help="What to write.",
)
@click.option(
    "--all", "everything", is_flag=True, help="Write the whole stash, as a folder of files."
)
@sample_option
def export(file: Path, what: str, everything: bool, sample: bool) -> None:
    """Write a table for other programs: .csv or .xlsx.

    In your units; stash import reads it back the same. With --all the whole stash is written
    into the new folder FILE, from which stash import makes it again, to the last field.
    """
    if everything:
        _export_all(file, sample)
        return
    from stash.services.exporting import export_sheet

    with opened(sample) as stash:
        rows = export_sheet(stash, file, what)
    click.echo(f"Written: {rows} row{'' if rows == 1 else 's'} to {file}.", err=True)


def _export_all(folder: Path, sample: bool) -> None:
    from stash.errors import Exit
    from stash.services.whole_export import export_all

    with opened(sample) as stash:
        done = export_all(stash, folder)
    counts = (("cloth", done.cloths), ("pattern", done.patterns), ("make", done.makes))
    told = ", ".join(f"{number} {noun}{'' if number == 1 else 's'}" for noun, number in counts)
    click.echo(f"Written to {folder}: {told}.", err=True)
    if done.doubts:
        click.echo("Not all of it can be read back as it is: see stash check.", err=True)
        for doubt in done.doubts:
            click.echo(f"  {doubt}", err=True)
        click.get_current_context().exit(Exit.REFUSED)
