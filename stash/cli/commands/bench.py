"""`stash bench`."""

from __future__ import annotations

import click

from stash.cli.bar import Bar
from stash.cli.common import json_option, line_width, opened, print_json, sample_option


@click.command()
@sample_option
@json_option
def bench(sample: bool, as_json: bool) -> None:
    """Say what can be sewn next, and what stops it."""
    from stash.report.columns import sides, wrapped
    from stash.services.bench import bench as rows_of

    with opened(sample) as stash, Bar() as bar:
        rows = rows_of(stash, progress=bar)
    if as_json:
        found = [
            {
                "make": row.make.name,
                "pattern": row.pattern,
                "person": row.person,
                "state": row.make.state.value,
                "cloths": list(row.cloths),
                "ready": row.ready,
                "stops": list(row.stops),
            }
            for row in rows
        ]
        print_json({"makes": found})
        return
    width = line_width()
    for row in rows:
        ready = "ready" if row.ready else "not yet"
        click.echo(sides(row.make.name, f"{row.make.state}, {ready}", width))
        for text in (*row.cloths, *row.stops):
            click.echo(wrapped(text, width, 4))
    if not rows:
        click.echo("Nothing is waiting. Add a make: stash make add NAME --pattern PATTERN")
