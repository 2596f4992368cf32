"""`stash import`."""

from __future__ import annotations

import sys
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import click

from stash.cli.common import json_option, line_width, opened, print_json
from stash.cli.given import Asking, Place
from stash.cli.json_keys import TABLE, TABLE_ROW, TABLE_TAKEN, keys_help

if TYPE_CHECKING:
    from pathlib import Path

    from stash.services.import_choices import Choices
    from stash.services.importing import Preview, Taken

FILE = Place(folder=False)


@click.command("import", cls=Asking, epilog=keys_help(TABLE, TABLE_ROW, TABLE_TAKEN))
@click.argument("file", type=Place(), metavar="FILE")
@click.option(
    "--as",
    "kind",
    type=click.Choice(["cloths", "makes", "chart", "diary"]),
    help="What the table holds; default: what its headings say.",
)
@click.option("--sheet", metavar="NAME", help="Which sheet of a workbook; default the first.")
@click.option(
    "--map",
    "maps",
    multiple=True,
    metavar="HEADING=FIELD",
    help="What a column is: a field, notes, or leave. Repeat it.",
)
@click.option(
    "--others",
    type=click.Choice(["notes", "leave"]),
    help="What becomes of columns nobody knows.",
)
@click.option("--mapping", type=FILE, help="Read these choices from a file.")
@click.option("--save-mapping", type=FILE, help="Keep these choices in a file.")
@click.option(
    "--unit",
    "units",
    multiple=True,
    metavar="UNIT",
    help="Of bare numbers: metric, imperial, or for one field: width=cm.",
)
@click.option(
    "--set",
    "fixed",
    multiple=True,
    metavar="FIELD=TEXT",
    help="What empty cells stand for: structure=woven. Repeat it.",
)
@click.option(
    "--dates",
    type=click.Choice(["day-first", "month-first"]),
    help="How to read 3/4/2024 when the column does not say.",
)
@click.option(
    "--unread-to-notes",
    is_flag=True,
    help="Tell cells that are not understood in the notes, where the row can do without.",
)
@click.option(
    "--key",
    metavar="HEADING",
    help="Know rows again by this column; default: by name, width and length.",
)
@click.option("--rows", metavar="ROWS", help="Take only these: 1-10,14.")
@click.option("--accept", is_flag=True, help="Take the rows without asking.")
@click.option("--dry-run", is_flag=True, help="Only look, and ask nothing.")
@json_option
def import_(
    file: Path, rows: str | None, accept: bool, dry_run: bool, as_json: bool, **said: Any
) -> None:
    """Read a table people already keep: .csv, .xlsx, .ods.

    Shows what every row is read as, and what is not understood; nothing is written until you
    accept. Rows that are left go into FILE.left.csv with the reasons: mend them there and
    read that file. A row that is in the stash already is not taken again.

    A folder written by stash export --all is read whole, into an empty stash.

    stash import shelf.xlsx

    stash import shelf.csv --map "Bin=place" --unit width=cm --set structure=woven --accept
    """
    if file.is_dir():
        _import_all(file, as_json)
        return
    from stash.services.importing import preview, take
    from stash.services.row_numbers import parse_rows

    asks = _is_terminal() and not accept and not dry_run and not as_json
    chosen = parse_rows(rows) if rows else None
    choices = _choices(**said)
    with opened() as stash:
        seen = preview(stash, file, choices)
        if asks and seen.unknown:
            choices = _asked(seen, choices)
            seen = preview(stash, file, choices)
        if said["save_mapping"]:
            _keep_choices(said["save_mapping"], seen, choices)
        if not as_json:
            _show(seen)
        if asks and seen.ready:
            accept = click.confirm(f"Take {_counted(seen, chosen)}?", err=True)
        taken = take(stash, seen, chosen) if accept and not dry_run else None
    if as_json:
        from stash.cli.import_json import table_json

        print_json(table_json(seen, taken))
    elif taken is not None:
        _say_taken(taken, seen)
    else:
        click.echo(_nothing(seen), err=True)


def _is_terminal() -> bool:
    """Somebody is there to answer."""
    return sys.stdin.isatty()


def _choices(
    *,
    kind: str | None,
    sheet: str | None,
    maps: tuple[str, ...],
    others: str | None,
    mapping: Path | None,
    units: tuple[str, ...],
    fixed: tuple[str, ...],
    dates: str | None,
    unread_to_notes: bool,
    key: str | None,
    **_: Any,
) -> Choices:
    """The choices of a file, with what was typed on top of them."""
    from stash.services.import_choices import Choices, load_choices, read_pairs, read_units

    kept = load_choices(mapping) if mapping else Choices()
    return replace(
        kept,
        kind=kind or kept.kind,
        sheet=sheet or kept.sheet,
        headings=kept.headings | read_pairs(maps, '"Header=field"'),
        units=kept.units | read_units(units),
        fixed=kept.fixed | read_pairs(fixed, "field=text"),
        others=others or kept.others,
        unread="notes" if unread_to_notes else kept.unread,
        key=key or kept.key,
        dates=dates or kept.dates,
    )


def _asked(seen: Preview, choices: Choices) -> Choices:
    """Ask for every column nobody knows."""
    from stash.errors import StashError
    from stash.services.import_columns import field_key

    said = dict(choices.headings)
    click.echo(f"Fields: {', '.join(seen.kind.labels)}; also notes and leave.", err=True)
    for column in seen.unknown:
        sample = " ".join(seen.sample(column).split())[:40]
        while column.label not in said:
            typed = click.prompt(
                f"What is {column.label!r}, such as {sample!r}?", default="notes", err=True
            )
            try:
                said[column.label] = field_key(seen.kind, typed)
            except StashError as error:
                click.echo(str(error), err=True)
    return replace(choices, headings=said)


def _keep_choices(path: Path, seen: Preview, choices: Choices) -> None:
    """Keep what was said, and what was found, so that next month's table is read alike."""
    from stash.services.import_choices import save_choices

    save_choices(seen.settled(choices), path)
    click.echo(f"The choices are kept in {path}.", err=True)


def _show(seen: Preview) -> None:
    from stash.report.import_text import import_table, import_troubles

    for column in seen.columns:
        taken_for = _taken_for(column.field, seen)
        if taken_for.lower() != column.label.lower():
            click.echo(f"Column {column.label!r}: {taken_for}{_near(column.near)}")
    if seen.rows:
        click.echo(import_table(seen.rows, seen.kind.shown, seen.kind.labels, line_width()))
    for line in import_troubles(seen.rows, line_width()):
        click.echo(line)
    for number, what in seen.passed:
        click.echo(f"Row {number} is no row of its own: {what}.")
    if seen.other_sheets:
        click.echo(f"Not read: the sheets {', '.join(seen.other_sheets)}. Say --sheet NAME.")


def _taken_for(field: str, seen: Preview) -> str:
    return {"": "not known: say --map", "leave": "left out", "notes": "notes"}.get(
        field, seen.kind.labels.get(field, field)
    )


def _near(word: str) -> str:
    return f" (taken for {word!r})" if word else ""


def _counted(seen: Preview, chosen: frozenset[int] | None) -> str:
    ready = [row for row in seen.ready if chosen is None or row.number in chosen]
    return f"{len(ready)} of {len(seen.rows)} rows"


def _nothing(seen: Preview) -> str:
    ready = len(seen.ready)
    told = f"{ready} of {len(seen.rows)} rows can be taken. Nothing was written."
    return f"{told} To take them: --accept" if ready else told


def _say_taken(taken: Taken, seen: Preview) -> None:
    said = [f"Taken: {taken.taken} of {len(seen.rows)} rows."]
    if taken.there:
        said.append(f"In the stash already: {taken.there}.")
    if taken.left_in:
        said.append(f"Left: {taken.left}, with the reasons in {taken.left_in}.")
    click.echo(" ".join(said), err=True)


def _import_all(folder: Path, as_json: bool) -> None:
    from stash.services.whole_import import import_all

    with opened() as stash:
        found = import_all(stash, folder)
    if as_json:
        from stash.cli.import_json import folder_json

        print_json(folder_json(folder, found))
        return
    told = ", ".join(f"{number} {noun}{'' if number == 1 else 's'}" for number, noun in found)
    click.echo(f"Read: {told}, with everything that belongs to them.", err=True)
