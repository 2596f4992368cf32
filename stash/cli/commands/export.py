"""`stash export`."""

from __future__ import annotations

from pathlib import Path

import click

from stash.cli.common import opened, sample_option


@click.command()
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path), metavar="FILE")
@click.option(
    "--what",
    type=click.Choice(["cloths", "makes", "chart", "diary"]),
    default="cloths",
    show_default=True,
    help="What to write.",
)
@sample_option
def export(file: Path, what: str, sample: bool) -> None:
    """Write a table for other programs: .csv or .xlsx.

    In your units; stash import reads it back the same.
    """
    from stash.services.exporting import export_sheet

    with opened(sample) as stash:
        rows = export_sheet(stash, file, what)
    click.echo(f"Written: {rows} row{'' if rows == 1 else 's'} to {file}.", err=True)
