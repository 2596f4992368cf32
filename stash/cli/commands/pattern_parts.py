"""`stash pattern piece`, `chart` …: the pieces and tables of a pattern."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stash.cli.common import (
    hanging,
    json_option,
    opened,
    pairs,
    print_field_help,
    print_json,
    reference,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from stash.garment.pattern import Pattern
    from stash.services.fields import Field
    from stash.services.stash import Stash

words = click.argument("said", nargs=-1, metavar="KEY=TEXT...")


@click.command()
@click.argument("family", required=False)
@json_option
def families(family: str | None, as_json: bool) -> None:
    """List the shapes a piece can be drafted from.

    With a family it lists the measures of it; those with * must be given.
    """
    from stash.services.pieces import families as every
    from stash.services.pieces import family_form

    forms = every() if family is None else (family_form(family),)
    if as_json:
        found = {form.key: [field.key for field in form.fields] for form in forms}
        print_json({"families": found})
    elif family is not None:
        print_field_help(forms[0].fields)
    else:
        for form in forms:
            click.echo(hanging(f"{form.key.ljust(16)} {form.help}", 17))


@click.command()
@reference
@click.argument("family")
@words
def piece(ref: str, family: str, said: tuple[str, ...]) -> None:
    """Draft a piece from a few measures and add it.

    stash pattern piece "easy trousers" "trouser front" name=front hip=100cm crotch=28cm
    length=104cm ankle=40cm size=42. See stash pattern families FAMILY for the measures.
    """
    from stash.services.patterns import add_piece

    with opened() as stash:
        kept = add_piece(stash, ref, family, pairs(said))
    added = kept.pieces[-1]
    click.echo(f"{added.name} is added: cut {added.copies}.", err=True)


@click.command("remove-piece")
@reference
@click.argument("piece")
@click.option("--size", default="", metavar="SIZE", help="Only of this size.")
def remove_piece(ref: str, piece: str, size: str) -> None:
    """Take a piece out of a pattern."""
    from stash.services.patterns import remove_piece as take_out

    with opened() as stash:
        kept = take_out(stash, ref, piece, size)
    click.echo(f"{piece} is out of {kept.name}.", err=True)


def _told(
    ref: str | None,
    said: tuple[str, ...],
    fields: Sequence[Field],
    keep: Callable[[Stash, str, Mapping[str, str]], Pattern],
) -> Pattern | None:
    """The pattern with what was said kept; where nothing was said, the keys are listed."""
    if ref is None or not said:
        print_field_help(fields)
        return None
    with opened() as stash:
        return keep(stash, ref, pairs(said))


@click.command()
@click.argument("ref", metavar="NAME", required=False)
@words
def chart(ref: str | None, said: tuple[str, ...]) -> None:
    """Add a row of the envelope's table of amounts.

    stash pattern chart "easy trousers" size=42 width=140cm amount="2.4 m"; without anything
    it lists the keys.
    """
    from stash.services.pattern_fields import CHART_FIELDS
    from stash.services.patterns import add_chart_row

    if kept := _told(ref, said, CHART_FIELDS, add_chart_row):
        click.echo(f"{kept.name} has {len(kept.charts)} chart rows.", err=True)


@click.command()
@click.argument("ref", metavar="NAME", required=False)
@words
def asks(ref: str | None, said: tuple[str, ...]) -> None:
    """Say what a role asks of its cloth.

    stash pattern asks "easy trousers" structures=woven weight_low="150 gsm"; without anything
    it lists the keys. What is not typed stays; key= takes an ask away.
    """
    from stash.services.pattern_fields import ASKS_FIELDS
    from stash.services.patterns import set_asks

    if kept := _told(ref, said, ASKS_FIELDS, set_asks):
        click.echo(f"{kept.name} asks as you said.", err=True)


@click.command()
@click.argument("ref", metavar="NAME", required=False)
@words
def notion(ref: str | None, said: tuple[str, ...]) -> None:
    """Add something small to have ready.

    stash pattern notion "easy trousers" name="elastic 30 mm" length=75cm; without anything it
    lists the keys.
    """
    from stash.services.pattern_fields import NOTION_FIELDS
    from stash.services.patterns import add_notion

    if kept := _told(ref, said, NOTION_FIELDS, add_notion):
        click.echo(f"{kept.name} has {len(kept.notions)} notions of its own.", err=True)
