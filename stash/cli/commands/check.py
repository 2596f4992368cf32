"""`stash check`."""

from __future__ import annotations

import click

from stash.cli.common import hanging, json_option, opened, print_json, sample_option
from stash.errors import Exit


@click.command()
@click.option(
    "--repair", is_flag=True, help="Drop kept lays that are no use; nothing you typed is changed."
)
@sample_option
@json_option
def check(repair: bool, sample: bool, as_json: bool) -> None:
    """Look the whole stash over and say what is wrong.

    The file, the references between records, lengths and promises, states, and every kept
    lay, which is checked again by rules of its own. Ends with exit code 6 if anything is
    wrong that was not repaired.

    \b
    Keys of --json:
      sound: nothing is wrong, or all of it was repaired
      findings: record, wrong, todo (what you can do about it), repaired
      lays: sound, illegal, unreadable, outdated, unasked, dropped
    """
    from stash.report.plain import plain
    from stash.services.checking import check_stash

    with opened(sample) as stash:
        found = check_stash(stash, repair=repair)
    if as_json:
        print_json({"sound": found.sound, **plain(found)})
    else:
        for one in found.findings:
            click.echo(hanging(f"{one.record}: {one.wrong}", 2))
            click.echo(hanging("  Dropped." if one.repaired else f"  {one.todo}", 4))
        lays = found.lays
        click.echo(
            f"Kept lays: {lays.sound} legal, {lays.illegal} illegal, "
            f"{lays.unreadable} unreadable, {lays.outdated} outdated, "
            f"{lays.unasked} nobody asks for now; {lays.dropped} dropped."
        )
        click.echo("All is well." if found.sound else "Something is wrong: see above.")
    if not found.sound:
        click.get_current_context().exit(Exit.STORE)
