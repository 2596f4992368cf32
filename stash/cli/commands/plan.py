"""`stash plan`."""

from __future__ import annotations

import click

from stash.cli.bar import Bar
from stash.cli.common import json_option, line_width, opened, print_json, sample_option
from stash.cli.given import Asking
from stash.cli.json_keys import BUY, PAIRING, PLAN, ROLE, keys_help


@click.command(cls=Asking, epilog=keys_help(PLAN, ROLE, PAIRING, BUY))
@click.argument("makes", nargs=-1, metavar="[MAKE]...")
@click.option("--accept", is_flag=True, help="Promise what it chooses: of these makes, or of all.")
@click.option(
    "--what-if",
    "what_if",
    multiple=True,
    metavar="TEXT",
    help='Suppose "drop MAKE", "without CLOTH", "buy 2 m of CLOTH", "buy 2 m of 150 cm wool".',
)
@sample_option
@json_option
def plan(
    makes: tuple[str, ...], accept: bool, what_if: tuple[str, ...], sample: bool, as_json: bool
) -> None:
    """Plan the season: every make against the shelf.

    Gives every role of every make that still waits a cloth from the shelf, or a place on
    the buying list, in the order to sew. The first time it lays everything out, which takes
    a while; the lays are kept, so the next time is quick.

    With --accept its choices are promised; a later plan may still move them, and says so.
    What you promise yourself (stash promise) and what is cut never moves.
    """
    from stash.report.plain import plan_json
    from stash.report.plan_text import plan_text
    from stash.services.planning import plan_book

    if accept and what_if:
        raise click.UsageError("What is only supposed cannot be accepted.")
    if makes and not accept:
        raise click.UsageError("Makes are only named to accept their part: --accept MAKE…")
    with opened(sample) as stash:
        with Bar() as bar:
            book = plan_book(stash, what_if=what_if, progress=bar)
        if as_json:
            print_json(plan_json(book))
        elif not accept:
            click.echo(plan_text(book, line_width()))
        if accept:
            from stash.services.accepting import accept_plan

            done = accept_plan(stash, book, makes)
            for one in done.promised:
                cloth, make = book.cloths[one.cloth_id].name, book.makes[one.make_id].name
                click.echo(f"{cloth} is promised to {make}, {one.role}.", err=as_json)
