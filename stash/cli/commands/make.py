"""`stash make …`: the queue."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

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
    say_kept,
    seen_option,
    typed,
)
from stash.services.make_fields import MAKE_FIELDS

if TYPE_CHECKING:
    from stash.services.makes import MakeRow


@click.group()
def make() -> None:
    """Add, list, show, edit and remove makes."""


@field_options(MAKE_FIELDS, but=("name",))
@make.command()
@click.argument("name")
def add(name: str, **options: Any) -> None:
    """Put a make into the queue.

    It must have a pattern: stash make add "rain trousers" --pattern "easy trousers" --size 42
    """
    from stash.services.makes import add_make

    with opened() as stash:
        kept = add_make(stash, {"name": name, **typed(options)})
        say_added(stash, "make", kept, "in the queue")


@make.command("list")
@click.argument("query", nargs=-1)
@sample_option
@json_option
def list_(query: tuple[str, ...], sample: bool, as_json: bool) -> None:
    """List the queue, or the makes whose name, pattern, person or state matches."""
    from stash.report.columns import table
    from stash.services.makes import queue

    with opened(sample) as stash:
        rows = queue(stash, " ".join(query))
    if as_json:
        print_json({"makes": [_data(row) for row in rows]})
        return
    if not rows:
        none = "No make matches." if query else "The queue is empty: stash make add NAME …"
        click.echo(none, err=True)
        return
    lines = [
        (
            str(row.make.id),
            row.make.name,
            row.pattern,
            row.make.size,
            row.person,
            row.make.state.value,
            ", ".join(held.cloth for held in row.held),
        )
        for row in rows
    ]
    head = (">No", "Name", "Pattern", "Size", "For", "State", "Holds")
    click.echo(table(head, lines, line_width(), keep=1))


def _data(row: MakeRow) -> dict[str, Any]:
    from stash.report.plain import millimetres, plain

    return {
        **plain(row.make),
        "pattern": row.pattern,
        "person": row.person or None,
        "muslin_for": row.tests or None,
        "roles": [role.value for role in row.roles],
        "holds": [
            {
                "role": held.promise.role.value,
                "cloth": held.cloth,
                "length_mm": millimetres(held.promise.length),
                "cut": held.promise.cut,
            }
            for held in row.held
        ],
    }


@make.command()
@reference
@sample_option
@json_option
def show(ref: str, sample: bool, as_json: bool) -> None:
    """Show all that is known of a make."""
    from stash.services.makes import make_row, make_texts
    from stash.units.format_length import Measure, show_length

    with opened(sample) as stash:
        row = make_row(stash, ref)
        texts = make_texts(stash, row.make)
        system = stash.settings.system
    if as_json:
        print_json(_data(row))
        return
    print_fields(MAKE_FIELDS, texts)
    click.echo(f"Cut from: {', '.join(row.roles) or 'nothing yet; its pattern has nothing for it'}")
    for held in row.held:
        amount = show_length(held.promise.length, system, Measure.TAKEN)
        done = "cut from" if held.promise.cut else "held of"
        click.echo(f"{held.promise.role.capitalize()}: {amount} {done} {held.cloth}")


@field_options(MAKE_FIELDS)
@make.command()
@reference
@seen_option
def edit(ref: str, seen: int | None, **options: Any) -> None:
    """Change what you name of a make, leave the rest."""
    from stash.services.makes import edit_make

    with opened() as stash:
        kept = edit_make(stash, ref, typed(options), seen=seen)
    click.echo(f"{kept.name} is changed.", err=True)


@make.command()
@reference
def remove(ref: str) -> None:
    """Forget a make that holds no cloth, or whose cloth is cut."""
    from stash.services.makes import remove_make

    said: list[str] = []
    with opened() as stash:
        gone = remove_make(stash, ref, remark=said.append)
    say_kept(f"{gone.name} is forgotten.", said)
