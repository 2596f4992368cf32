"""`stash pattern need`: what a pattern would need, whatever width is found."""

from __future__ import annotations

import click

from stash.cli.bar import Bar
from stash.cli.common import (
    json_option,
    kind_option,
    line_width,
    opened,
    print_json,
    reference,
    sample_option,
)
from stash.cli.given import Asking
from stash.cli.json_keys import NEED_AT, NEEDS, WIDTH_NEED, keys_help


@click.command(cls=Asking, epilog=keys_help(NEEDS, WIDTH_NEED, NEED_AT))
@reference
@click.option("--size", default="", metavar="SIZE", help="Default: the middle one.")
@click.option("--view", default="", metavar="VIEW", help="Default: the first one.")
@kind_option
@sample_option
@json_option
def need(ref: str, size: str, view: str, kind: str, sample: bool, as_json: bool) -> None:
    """Say what it would need over all common widths.

    With and without nap, by its pieces where it has some, else by its chart.
    """
    from stash.lay.problem import LayKind
    from stash.report.needs_text import needs_json, needs_text
    from stash.services.width_needs import width_needs

    lies = None if kind == "best" else LayKind(kind)
    with opened(sample) as stash:
        with Bar() as bar:
            found = width_needs(stash, ref, size=size, view=view, kind=lies, progress=bar)
        system = stash.settings.system
    if as_json:
        print_json(needs_json(found))
    else:
        click.echo(needs_text(found, system, line_width()))
