"""`stash pair`."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stash.cli.bar import Bar
from stash.cli.common import (
    json_option,
    line_width,
    opened,
    print_json,
    reference,
    role_option,
    sample_option,
)
from stash.cli.json_keys import PAIRING, keys_help

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from stash.cloth.record import Cloth
    from stash.config import System
    from stash.pairing.judgement import Pairing


@click.command(epilog=keys_help(PAIRING))
@reference
@role_option
@click.option("--all", "every", is_flag=True, help="Tell of the unsuited cloths too.")
@sample_option
@json_option
def pair(ref: str, role: str | None, every: bool, sample: bool, as_json: bool) -> None:
    """Set a make against every cloth, best first."""
    from stash.report.plain import pairing_json
    from stash.services.cloths import shelf
    from stash.services.pairing import pair_make

    with opened(sample) as stash:
        with Bar() as bar:
            pairings = pair_make(stash, ref, role, progress=bar)
        cloths = {row.cloth.id: row.cloth for row in shelf(stash)}
        system = stash.settings.system
    if as_json:
        print_json({"candidates": [pairing_json(pairing, cloths) for pairing in pairings]})
    else:
        _print(pairings, cloths, system, every)


def _print(
    pairings: Sequence[Pairing], cloths: Mapping[int, Cloth], system: System, every: bool
) -> None:
    from stash.pairing.judgement import Verdict
    from stash.report.columns import sides, wrapped
    from stash.report.plan_text import amounts

    told = [p for p in pairings if every or p.verdict is not Verdict.UNSUITED]
    width = line_width()
    for pairing in told:
        name = cloths[pairing.cloth_id].name
        click.echo(sides(name, f"{pairing.verdict}, suit {pairing.suit:.0%}", width))
        click.echo(wrapped(amounts(pairing, system), width, 4))
        for reason in pairing.reasons:
            if reason.factor != "length" and (reason.mark is None or reason.mark < 1):
                click.echo(wrapped(reason.sentence, width, 4))
        for caution in pairing.cautions:
            click.echo(wrapped(f"Caution: {caution}", width, 4))
    left_out = len(pairings) - len(told)
    if left_out:
        click.echo(f"{left_out} unsuited cloths are left out; --all tells why.", err=True)
    if not pairings:
        click.echo("There is no cloth on the shelf.", err=True)
