"""`stash plan`."""

from __future__ import annotations

import click

from stash.cli.bar import Bar
from stash.cli.common import json_option, line_width, opened, print_json, sample_option
from stash.cli.json_keys import BUY, PAIRING, PLAN, ROLE, keys_help


@click.command(epilog=keys_help(PLAN, ROLE, PAIRING, BUY))
@sample_option
@json_option
def plan(sample: bool, as_json: bool) -> None:
    """Plan the season: every make against the shelf.

    Gives every role of every make that still waits a cloth from the shelf, or a place on
    the buying list, in the order to sew. The first time it lays everything out, which takes
    a while; the lays are kept, so the next time is quick.
    """
    from stash.report.plain import plan_json
    from stash.report.plan_text import plan_text
    from stash.services.planning import plan_book

    with opened(sample) as stash:
        with Bar() as bar:
            book = plan_book(stash, progress=bar)
        if as_json:
            print_json(plan_json(book))
        else:
            click.echo(plan_text(book, line_width()))
