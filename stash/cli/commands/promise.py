"""`stash promise`, `stash release` and `stash cut`."""

from __future__ import annotations

import click

from stash.cli.common import opened, role_option, say_kept
from stash.cli.given import Asking


@click.command(cls=Asking)
@click.argument("make")
@click.argument("cloth")
@role_option
@click.option("--length", metavar="LENGTH", help="How much to hold; default what it needs.")
def promise(make: str, cloth: str, role: str | None, length: str | None) -> None:
    """Hold some of a cloth for a make.

    The season plan leaves what is promised alone.
    """
    from stash.services.cloths import get_cloth
    from stash.services.promises import promise as hold
    from stash.units.format_length import Measure, show_length

    said: list[str] = []
    with opened() as stash:
        held = hold(stash, make, role, cloth, length, remark=said.append)
        amount = show_length(held.length, stash.settings.system, Measure.TAKEN)
        name = get_cloth(stash, str(held.cloth_id)).name
    say_kept(f"{amount} of {name} held for {held.role}.", said)


@click.command(cls=Asking)
@click.argument("make")
@role_option
def release(make: str, role: str | None) -> None:
    """Let go of the cloth a make holds."""
    from stash.services.promises import release as let_go

    with opened() as stash:
        held = let_go(stash, make, role)
    click.echo(f"Let go: {', '.join(one.role for one in held)}.", err=True)


@click.command(cls=Asking)
@click.argument("make")
@role_option
@click.option("--length", metavar="LENGTH", help="What was really cut; default what was promised.")
@click.option("--left", metavar="LENGTH", help="What is left of the cloth, if you measured it.")
def cut(make: str, role: str | None, length: str | None, left: str | None) -> None:
    """Say that a make has been cut.

    The cloths it holds get shorter by what was promised, or by what was really cut, and the
    diary says so. Where it holds several cloths, say whose length it was with --role.
    """
    from stash.services.promises import cut as cut_out
    from stash.services.promises import read_measured

    said: list[str] = []
    with opened() as stash:
        done = cut_out(stash, make, read_measured(role, length, left), remark=said.append)
    say_kept(f"{done.name} is cut.", said)
