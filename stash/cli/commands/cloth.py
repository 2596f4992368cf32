"""`stash cloth …`: the shelf."""

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
from stash.services.cloth_fields import CLOTH_FIELDS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.config import Settings
    from stash.services.cloths import ShelfRow
    from stash.services.flow import Month
    from stash.services.summary import Sum


@click.group()
def cloth() -> None:
    """Add, list, show, edit and remove cloths."""


@field_options(CLOTH_FIELDS, but=("name",))
@cloth.command()
@click.argument("name")
def add(name: str, **options: Any) -> None:
    """Put a cloth on the shelf.

    It must have a structure, a width and a length: stash cloth add "olive needlecord"
    --structure woven --width 140cm --length 2.4m

    Flaws and the corners of a remnant are measured along from the end that is cut first, and
    across from the left usable edge.
    """
    from stash.services.cloths import add_cloth

    with opened() as stash:
        kept = add_cloth(stash, {"name": name, **typed(options)})
        say_added(stash, "cloth", kept, "on the shelf")


@cloth.command("list")
@click.argument("query", nargs=-1)
@sample_option
@json_option
def list_(query: tuple[str, ...], sample: bool, as_json: bool) -> None:
    """List the shelf, or the cloths that match.

    Words match name, fibre, colour and place; also: width>=140cm weight<200 stretch>30
    length>2m is:knit is:nap state:free colour:#1f2948
    """
    from stash.services.cloths import shelf

    with opened(sample) as stash:
        rows = shelf(stash, " ".join(query))
        settings = stash.settings
    if as_json:
        print_json({"cloths": [_data(row) for row in rows]})
    elif rows:
        click.echo(_table(rows, settings))
    else:
        none = "No cloth matches." if query else "The shelf is empty: stash cloth add NAME …"
        click.echo(none, err=True)


def _table(rows: Sequence[ShelfRow], settings: Settings) -> str:
    from stash.report.columns import table
    from stash.units.format_length import Measure, show_length

    system = settings.system
    lines = [
        (
            str(row.cloth.id),
            row.cloth.name,
            row.cloth.structure.value,
            show_length(row.cloth.width, system, Measure.WIDTH),
            show_length(row.cloth.left, system, Measure.SPARE),
            show_length(row.free, system, Measure.SPARE),
            row.state.value,
        )
        for row in rows
    ]
    head = (">No", "Name", "Structure", ">Width", ">Left", ">Free", "State")
    return table(head, lines, line_width(), keep=1)


def _data(row: ShelfRow) -> dict[str, Any]:
    from stash.report.plain import millimetres, plain

    return {
        **plain(row.cloth),
        "promised_mm": millimetres(row.promised),
        "free_mm": millimetres(row.free),
        "state": row.state.value,
    }


@cloth.command()
@click.argument("query", nargs=-1)
@click.option(
    "--by",
    type=click.Choice(["structure", "fibre", "year", "age", "state"]),
    default="structure",
    show_default=True,
    help="What to sum it up by; a blend counts under the fibre it has most of.",
)
@sample_option
@json_option
def summary(query: tuple[str, ...], by: str, sample: bool, as_json: bool) -> None:
    """Sum the shelf up: cloths, length and value.

    The same words as in stash cloth list choose the cloths.
    """
    from stash.report.plain import plain
    from stash.services.summary import By, shelf_summary

    with opened(sample) as stash:
        sums = shelf_summary(stash, By(by), " ".join(query))
        settings = stash.settings
    if as_json:
        print_json({"by": by, "sums": [plain(one) for one in sums]})
    elif sums:
        click.echo(_sums(sums, by, settings))
    else:
        click.echo("No cloth matches.", err=True)


@cloth.command()
@sample_option
@json_option
def months(sample: bool, as_json: bool) -> None:
    """Set what came in against what was cut, month by month.

    Cloth came on the day it was got; the day of cutting is that of the diary.
    """
    from stash.report.plain import plain
    from stash.services.flow import months as by_month

    with opened(sample) as stash:
        found = by_month(stash)
        settings = stash.settings
    if as_json:
        print_json({"months": [plain(one) for one in found]})
    elif found:
        click.echo(months_table(found, settings))
    else:
        click.echo("The shelf is empty: stash cloth add NAME …", err=True)


def months_table(found: Sequence[Month], settings: Settings) -> str:
    """What came and was cut, a line for each month."""
    from stash.report.columns import table
    from stash.units.format_length import Measure, show_length
    from stash.units.money import show_money

    lines = [
        (
            one.month,
            str(one.cloths or ""),
            show_length(one.bought, settings.system, Measure.LEAST) if one.bought else "",
            show_money(one.spent, settings.currency) if one.spent else "",
            show_length(one.cut, settings.system, Measure.LEAST) if one.cut else "",
        )
        for one in found
    ]
    return table(("Month", ">Cloths", ">Bought", ">Spent", ">Cut"), lines, line_width(), keep=0)


def _sums(sums: Sequence[Sum], by: str, settings: Settings) -> str:
    from stash.report.columns import table
    from stash.units.format_length import Measure, show_length
    from stash.units.money import show_money

    lines = [
        (
            one.group,
            str(one.cloths),
            show_length(one.left, settings.system, Measure.LEAST),
            show_length(one.free, settings.system, Measure.LEAST),
            show_money(one.value, settings.currency),
            str(one.unpriced or ""),
        )
        for one in sums
    ]
    head = (by.capitalize(), ">Cloths", ">Left", ">Free", ">Value", ">Unpriced")
    return table(head, lines, line_width(), keep=0)


@cloth.command()
@reference
@sample_option
@json_option
def show(ref: str, sample: bool, as_json: bool) -> None:
    """Show all that is known of a cloth."""
    from stash.services.cloths import cloth_texts, shelf_row
    from stash.units.format_length import Measure, show_length

    with opened(sample) as stash:
        row = shelf_row(stash, ref)
        texts = cloth_texts(stash, row.cloth)
        system = stash.settings.system
    if as_json:
        print_json(_data(row))
        return
    print_fields(CLOTH_FIELDS, texts)
    click.echo(f"State: {row.state}, {show_length(row.free, system, Measure.SPARE)} free")


@field_options(CLOTH_FIELDS)
@cloth.command()
@reference
@seen_option
def edit(ref: str, seen: int | None, **options: Any) -> None:
    """Change what you name of a cloth, leave the rest."""
    from stash.services.cloths import edit_cloth

    said: list[str] = []
    with opened() as stash:
        kept = edit_cloth(stash, ref, typed(options), seen=seen, remark=said.append)
    say_kept(f"{kept.name} is changed.", said)


@cloth.command()
@reference
def remove(ref: str) -> None:
    """Take a cloth off the shelf for good."""
    from stash.services.cloths import remove_cloth

    said: list[str] = []
    with opened() as stash:
        gone = remove_cloth(stash, ref, remark=said.append)
    say_kept(f"{gone.name} is gone.", said)


@cloth.command()
@reference
@sample_option
@json_option
def become(ref: str, sample: bool, as_json: bool) -> None:
    """Say what a cloth could become, best first."""
    from stash.cli.bar import Bar
    from stash.report.columns import sides, wrapped
    from stash.report.plain import pairing_json
    from stash.report.plan_text import amounts
    from stash.services.cloths import get_cloth
    from stash.services.makes import queue
    from stash.services.pairing import become as could_become

    with opened(sample) as stash:
        with Bar() as bar:
            found = could_become(stash, ref, progress=bar)
        one = get_cloth(stash, ref)
        names = {row.make.id: row.make.name for row in queue(stash)}
        system = stash.settings.system
    if as_json:
        data = [{"make": names[p.make_id], **pairing_json(p, {one.id: one})} for p in found]
        print_json({"candidates": data})
        return
    for pairing in found:
        verdict = f"{pairing.verdict}, suit {pairing.suit:.0%}"
        click.echo(sides(f"{names[pairing.make_id]}, {pairing.role}", verdict, line_width()))
        click.echo(wrapped(amounts(pairing, system), line_width(), 4))
