"""`stash diary`."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stash.cli.common import json_option, line_width, opened, print_json, sample_option
from stash.cli.given import Asking, calendar_day
from stash.garment.make import DiaryKind

if TYPE_CHECKING:
    from datetime import date

KINDS = tuple(kind.value for kind in DiaryKind)


@click.group()
def diary() -> None:
    """Read the diary, or write a line into it."""


@diary.command("list", cls=Asking)
@click.option("--cloth", default="", metavar="NAME", help="Only of this cloth.")
@click.option("--make", default="", metavar="NAME", help="Only of this make.")
@sample_option
@json_option
def list_(cloth: str, make: str, sample: bool, as_json: bool) -> None:
    """Read the diary, the latest line first."""
    from stash.report.columns import wrapped
    from stash.report.plain import plain
    from stash.services.diary import entries

    with opened(sample) as stash:
        found = entries(stash, cloth_ref=cloth, make_ref=make)
    if as_json:
        print_json({"entries": plain(found)})
        return
    for entry in found:
        click.echo(wrapped(f"{entry.day}  {entry.kind}: {entry.text}", line_width(), hang=12))
    if not found:
        nothing = "The diary is empty: stash diary add note TEXT"
        click.echo("The diary has no such line." if cloth or make else nothing, err=True)


@diary.command(cls=Asking)
@click.argument("kind", type=click.Choice(KINDS))
@click.argument("text")
@click.option("--cloth", default="", metavar="NAME", help="The cloth it is about.")
@click.option("--make", default="", metavar="NAME", help="The make it is about.")
@click.option(
    "--day",
    type=calendar_day,
    metavar="DAY",
    help="2026-10-31; default today.",
)
def add(kind: str, text: str, cloth: str, make: str, day: date | None) -> None:
    """Write a line: stash diary add fitting "2 cm too long in the crotch" --make trousers."""
    from stash.services.diary import add_entry

    with opened() as stash:
        entry = add_entry(
            stash,
            DiaryKind(kind),
            text,
            cloth_ref=cloth,
            make_ref=make,
            day=day,
        )
    click.echo(f"Written for {entry.day}.", err=True)
