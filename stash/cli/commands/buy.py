"""`stash buy`."""

from __future__ import annotations

import click

from stash.cli.bar import Bar
from stash.cli.common import json_option, line_width, opened, print_json, sample_option
from stash.cli.json_keys import BUY, keys_help


@click.command(epilog=keys_help(BUY))
@sample_option
@json_option
def buy(sample: bool, as_json: bool) -> None:
    """List what has to be bought.

    For every role nothing on the shelf will do for: how much at each common width, rounded
    up to what the shop cuts, first wash included; then the notions of every make.
    """
    from stash.report.buy_text import buy_text
    from stash.report.plain import buy_json
    from stash.services.buying import buying_list

    with opened(sample) as stash:
        with Bar() as bar:
            buying = buying_list(stash, progress=bar)
        if as_json:
            print_json(buy_json(buying))
        else:
            click.echo(buy_text(buying, stash.settings, line_width()))
