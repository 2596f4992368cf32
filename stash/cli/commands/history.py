"""`stash history`, `stash undo` and `stash redo`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from stash.cli.common import json_option, line_width, opened, print_json, sample_option
from stash.cli.given import Whole
from stash.cli.json_keys import CHANGED_ROW, HISTORY, UNDO, keys_help

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.services.change_words import FieldChange, RowChange
    from stash.services.history import Entry
    from stash.services.undoing import TurnedBack

dry_run_option = click.option(
    "--dry-run", is_flag=True, help="Only say what would change; nothing is kept."
)


@click.command(epilog=keys_help(HISTORY, CHANGED_ROW))
@click.argument("refs", nargs=-1, metavar="[NAME]...")
@click.option("--changes", is_flag=True, help="With every field before and after.")
@click.option("--last", type=Whole(1), default=20, show_default=True, help="How many at most.")
@sample_option
@json_option
def history(refs: tuple[str, ...], changes: bool, last: int, sample: bool, as_json: bool) -> None:
    """Say what was changed, when and by whom, the latest first.

    With names only the changes of these cloths, patterns, makes and people, removed ones too.
    """
    from stash.services.history import history as read

    with opened(sample) as stash:
        found = read(stash, refs, count=last, changes=changes or as_json)
    if as_json:
        print_json({"entries": [_entry_json(entry) for entry in found]})
    elif not found:
        click.echo("Nothing was changed yet.", err=True)
    elif changes:
        for entry in found:
            click.echo(f"{_title(entry)}\n{_rows_text(entry.rows)}")
    else:
        click.echo(_table(found))


@click.command(epilog=keys_help(UNDO, CHANGED_ROW))
@click.argument("entry", type=Whole(1), required=False)
@dry_run_option
@json_option
def undo(entry: int | None, dry_run: bool, as_json: bool) -> None:
    """Undo your last change, or one entry of the history.

    An undo is a change of its own: it stands in the history and can be undone. It is refused
    while later changes depend on what it would take back.
    """
    from stash.services.undoing import undo as turn_back

    with opened() as stash:
        done = turn_back(stash, entry, dry_run=dry_run)
    _say(done, dry_run=dry_run, as_json=as_json)


@click.command(epilog=keys_help(UNDO, CHANGED_ROW))
@dry_run_option
@json_option
def redo(dry_run: bool, as_json: bool) -> None:
    """Do again what you undid last, unless you changed something since."""
    from stash.services.undoing import redo as again

    with opened() as stash:
        done = again(stash, dry_run=dry_run)
    _say(done, dry_run=dry_run, as_json=as_json)


def _say(done: TurnedBack, *, dry_run: bool, as_json: bool) -> None:
    if as_json:
        rows = [_row_json(row) for row in done.rows]
        print_json({"what": done.what, "again": done.again, "dry_run": dry_run, "rows": rows})
        return
    if dry_run:
        verb = "Would do again" if done.again else "Would undo"
        click.echo(f"{verb}: {done.what}.\n{_rows_text(done.rows)}")
    else:
        click.echo(done.sentence, err=True)


def _table(found: Sequence[Entry]) -> str:
    from stash.report.columns import table

    lines = [(str(one.id), one.when, one.who, one.what, _state(one)) for one in found]
    return table((">No", "When", "Who", "What", ""), lines, line_width(), keep=1)


def _state(entry: Entry) -> str:
    return f"undone by {entry.undone_by}" if entry.undone_by else ""


def _title(entry: Entry) -> str:
    state = _state(entry)
    return f"{entry.id}  {entry.when}  {entry.who}: {entry.what}{f' ({state})' if state else ''}"


def _rows_text(rows: Sequence[RowChange]) -> str:
    from stash.report.columns import wrapped

    lines = []
    for row in rows:
        lines.append(wrapped(f"{row.title} {row.how}", line_width(), indent=4))
        lines += [wrapped(_field_text(one, row.how), line_width(), 6, 4) for one in row.fields]
    return "\n".join(lines)


def _field_text(one: FieldChange, how: str) -> str:
    if how == "changed":
        return f"{one.label}: {one.before or 'nothing'} → {one.after or 'nothing'}"
    return f"{one.label}: {one.after or one.before}"


def _entry_json(entry: Entry) -> dict[str, Any]:
    return {
        "id": entry.id,
        "at": entry.at.isoformat(),
        "who": entry.who,
        "what": entry.what,
        "undoes": entry.undoes,
        "undone_by": entry.undone_by,
        "rows": [_row_json(row) for row in entry.rows],
    }


def _row_json(row: RowChange) -> dict[str, Any]:
    from stash.report.plain import plain

    return {
        "row": row.title,
        "how": row.how,
        "fields": [
            {
                "key": one.key,
                "label": one.label,
                "before": plain(one.values[0]),
                "after": plain(one.values[1]),
                "before_text": one.before,
                "after_text": one.after,
            }
            for one in row.fields
        ],
    }
