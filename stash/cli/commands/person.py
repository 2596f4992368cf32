"""`stash person …`: the people sewn for."""

from __future__ import annotations

from typing import Any

import click

from stash.cli.common import (
    field_options,
    json_option,
    line_width,
    opened,
    print_fields,
    print_json,
    reference,
    sample_option,
    say_added,
    seen_option,
    typed,
)
from stash.services.make_fields import PERSON_FIELDS


@click.group()
def person() -> None:
    """Add, list, show, edit and remove people."""


@field_options(PERSON_FIELDS, but=("name",))
@person.command()
@click.argument("name")
def add(name: str, **options: Any) -> None:
    """Keep a person: stash person add Mara --measures "waist = 78 cm; hip = 102 cm"."""
    from stash.services.people import add_person

    with opened() as stash:
        kept = add_person(stash, {"name": name, **typed(options)})
        say_added(stash, "person", kept, "kept")


@person.command("list")
@sample_option
@json_option
def list_(sample: bool, as_json: bool) -> None:
    """List everybody."""
    from stash.report.columns import table
    from stash.report.plain import plain
    from stash.services.people import all_people

    with opened(sample) as stash:
        people = all_people(stash)
    if as_json:
        print_json({"people": plain(people)})
    elif people:
        lines = [(str(p.id), p.name, p.notes) for p in people]
        click.echo(table((">No", "Name", "Notes"), lines, line_width()))
    else:
        click.echo("Nobody is kept yet: stash person add NAME", err=True)


@person.command()
@reference
@sample_option
@json_option
def show(ref: str, sample: bool, as_json: bool) -> None:
    """Show all that is known of a person."""
    from stash.report.plain import plain
    from stash.services.people import get_person, person_texts

    with opened(sample) as stash:
        found = get_person(stash, ref)
        texts = person_texts(stash, found)
    if as_json:
        print_json(plain(found))
    else:
        print_fields(PERSON_FIELDS, texts)


@field_options(PERSON_FIELDS)
@person.command()
@reference
@seen_option
def edit(ref: str, seen: int | None, **options: Any) -> None:
    """Change what you name of a person, leave the rest."""
    from stash.services.people import edit_person

    with opened() as stash:
        kept = edit_person(stash, ref, typed(options), seen=seen)
    click.echo(f"{kept.name} is changed.", err=True)


@person.command()
@reference
def remove(ref: str) -> None:
    """Forget a person no make is for."""
    from stash.services.people import remove_person

    with opened() as stash:
        gone = remove_person(stash, ref)
    click.echo(f"{gone.name} is forgotten.", err=True)
