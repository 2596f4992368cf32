"""`stash settings`."""

from __future__ import annotations

import click

from stash.cli.common import hanging, json_option, opened, print_json


@click.command()
@click.argument("key", required=False)
@click.argument("value", required=False)
@json_option
def settings(key: str | None, value: str | None, as_json: bool) -> None:
    """Show the settings, or change one.

    The first word of each line is the key to name; the rest says what it does:
    stash settings units imperial; an empty value ("") goes back to the usual one.
    """
    from stash.report.plain import plain
    from stash.services.preferences import (
        SETTING_FIELDS,
        change_settings,
        setting_field,
        setting_texts,
    )

    fields = SETTING_FIELDS if key is None else (setting_field(key),)
    with opened(mend="" if value is None else fields[0].attribute) as stash:
        if value is not None:
            change_settings(stash, {fields[0].key: value})
        texts = setting_texts(stash)
        found = stash.settings
        place = stash.place
    if as_json:
        print_json({**plain(found), "kept_in": place})
    else:
        wide = max(len(f.key) for f in fields)
        for f in fields:
            line = f"{f.key.ljust(wide)}  {texts[f.key] or '-'}"
            click.echo(hanging(f"{line}  ({f.hint})", wide + 2))
        if key is None:
            click.echo(hanging(f"The stash is kept in {place}", 2))
