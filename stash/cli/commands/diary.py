"""`stash diary`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from stash.cli.common import json_option, line_width, opened, print_json, sample_option, say_kept
from stash.cli.given import Asking, calendar_day
from stash.cli.json_keys import DIARY, keys_help
from stash.garment.make import DiaryKind

if TYPE_CHECKING:
    from datetime import date

    from stash.services.diary import Line

KINDS = tuple(kind.value for kind in DiaryKind)


@click.group()
def diary() -> None:
    """Read the diary, or write a line into it."""


@diary.command("list", cls=Asking, epilog=keys_help(DIARY))
@click.option("--cloth", default="", metavar="NAME", help="Only of this cloth.")
@click.option("--make", default="", metavar="NAME", help="Only of this make.")
@sample_option
@json_option
def list_(cloth: str, make: str, sample: bool, as_json: bool) -> None:
    """Read the diary, the latest line first."""
    from stash.report.columns import wrapped
    from stash.services.diary import lines

    with opened(sample) as stash:
        found = lines(stash, cloth_ref=cloth, make_ref=make)
    if as_json:
        print_json({"entries": [_data(line) for line in found]})
        return
    for line in found:
        about = f" ({line.about})" if line.about else ""
        said = f"{line.entry.day}  {line.entry.kind}{about}: {line.entry.text}"
        click.echo(wrapped(said, line_width(), hang=12))
    if not found:
        nothing = "The diary is empty: stash diary add note TEXT"
        click.echo("The diary has no such line." if cloth or make else nothing, err=True)


def _data(line: Line) -> dict[str, Any]:
    from stash.report.plain import plain

    return {**plain(line.entry), "cloth": line.cloth or None, "make": line.make or None}


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

    said: list[str] = []
    with opened() as stash:
        entry = add_entry(
            stash,
            DiaryKind(kind),
            text,
            cloth_ref=cloth,
            make_ref=make,
            day=day,
            remark=said.append,
        )
    say_kept(f"Written for {entry.day}.", said)
