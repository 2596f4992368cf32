"""`stash become`."""

from __future__ import annotations

import click

from stash.cli.bar import Bar
from stash.cli.common import (
    json_option,
    line_width,
    opened,
    print_json,
    sample_option,
)
from stash.cli.json_keys import BECOME, PAIRING, keys_help


@click.command(epilog=keys_help(BECOME, PAIRING))
@click.argument("ref", metavar="CLOTH")
@click.option("--all", "every", is_flag=True, help="Tell what it cannot become too, and why.")
@click.option("--all-sizes", "every_size", is_flag=True, help="Every size, whoever it may fit.")
@sample_option
@json_option
def become(ref: str, every: bool, every_size: bool, sample: bool, as_json: bool) -> None:
    """Say what a cloth could become, best first.

    Sets the cloth against every pattern, view and role, in the sizes of the people you sew
    for; where nobody's measures are in the size table, in the middle size.
    """
    from stash.report.become_text import become_json, become_text
    from stash.services.becoming import could_become

    with opened(sample) as stash:
        with Bar() as bar:
            found = could_become(stash, ref, every_size=every_size, progress=bar)
        if as_json:
            print_json(become_json(found))
            return
        told = [one for one in found.could if every or one.pairing.verdict.can_be_cut]
        for line in become_text(told, stash.settings.system, line_width()):
            click.echo(line)
        left_out = len(found.could) - len(told)
    if not found.could:
        click.echo("There is no pattern yet: stash pattern add NAME --kind KIND", err=True)
    elif left_out:
        words = "nothing it can be cut for is known; " if not told else ""
        click.echo(f"{words}{left_out} more cannot be cut from it; --all tells why.", err=True)
