"""`stash muslin`."""

from __future__ import annotations

import click

from stash.cli.bar import Bar
from stash.cli.common import (
    json_option,
    line_width,
    opened,
    print_json,
    reference,
    sample_option,
)
from stash.cli.given import Asking
from stash.cli.json_keys import MUSLIN, PAIRING, keys_help

PRICE = (
    "Taken for this it costs the rest of the season {:.2f}, where a make of priority 3 in a cloth "
    "that suits it fully counts 3."
)


@click.command(cls=Asking, epilog=keys_help(PAIRING, MUSLIN))
@reference
@sample_option
@json_option
def muslin(ref: str, sample: bool, as_json: bool) -> None:
    """Find the cloth to risk on a test of the fit.

    Candidates pass the hard asks of the pattern and are long enough, with something over
    for letting out; the best behave like the intended cloth, would hardly be missed and
    would be worn. The price of the best few is what the season plan is worth less without
    them: priority (1 to 5) times suit, over all makes.
    """
    from stash.report.columns import sides, wrapped
    from stash.report.plain import muslin_json
    from stash.report.plan_text import amounts
    from stash.services.cloths import shelf
    from stash.services.muslin import muslin_for

    with opened(sample) as stash:
        with Bar() as bar:
            found = muslin_for(stash, ref, progress=bar)
        cloths = {row.cloth.id: row.cloth for row in shelf(stash)}
        system = stash.settings.system
    if as_json:
        print_json({"candidates": [muslin_json(one, cloths) for one in found]})
        return
    width = line_width()
    for place, one in enumerate(found, start=1):
        name = cloths[one.pairing.cloth_id].name
        click.echo(sides(f"{place:>2}. {name}", f"score {one.score:.0%}", width))
        click.echo(wrapped(amounts(one.pairing, system), width, 4))
        if one.price:
            click.echo(wrapped(PRICE.format(one.price), width, 4))
        for sentence in one.why:
            click.echo(wrapped(sentence, width, 4))
    if not found:
        click.echo("No cloth on the shelf is long enough and passes the hard asks.", err=True)
