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
from stash.cli.given import Asking
from stash.cli.json_keys import PAIRING, keys_help

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from stash.cloth.record import Cloth
    from stash.config import System
    from stash.pairing.judgement import Pairing


@click.command(cls=Asking, epilog=keys_help(PAIRING))
@reference
@role_option
@click.option("--all", "every", is_flag=True, help="Tell of the unsuited cloths too.")
@click.option("--why", is_flag=True, help="Tell every factor: mark, weight, sentence and source.")
@sample_option
@json_option
def pair(ref: str, role: str | None, every: bool, why: bool, sample: bool, as_json: bool) -> None:
    """Set a make against every cloth, best first.

    The suit is a weighted geometric mean of marks from 0 to 1; a hard ask that fails makes
    the cloth unsuited. What nobody measured lowers only how sure the suit is.
    """
    from stash.report.plain import pairing_json
    from stash.services.cloths import shelf
    from stash.services.muslin import pair_and_advise

    with opened(sample) as stash:
        with Bar() as bar:
            pairings = pair_and_advise(stash, ref, role, progress=bar)
        cloths = {row.cloth.id: row.cloth for row in shelf(stash)}
        system = stash.settings.system
    if as_json:
        print_json({"candidates": [pairing_json(pairing, cloths) for pairing in pairings]})
    else:
        _print(ref, pairings, cloths, system, every=every, why=why)


def _print(
    ref: str,
    pairings: Sequence[Pairing],
    cloths: Mapping[int, Cloth],
    system: System,
    *,
    every: bool,
    why: bool,
) -> None:
    from stash.pairing.judgement import Verdict
    from stash.report.columns import sides, wrapped
    from stash.report.plan_text import amounts
    from stash.report.suit_text import doubts, factor_lines, muslin_words, suit_words

    told = [p for p in pairings if every or p.verdict is not Verdict.UNSUITED]
    width = line_width()
    for pairing in told:
        name = cloths[pairing.cloth_id].name
        click.echo(sides(name, f"{pairing.verdict}, {suit_words(pairing)}", width))
        click.echo(wrapped(amounts(pairing, system), width, 4))
        for line in factor_lines(pairing, width) if why else doubts(pairing, width):
            click.echo(line)
        for caution in pairing.cautions:
            click.echo(wrapped(f"Caution: {caution}", width, 4))
        if pairing.muslin_first is not None:
            names = {number: one.name for number, one in cloths.items()}
            click.echo(wrapped(muslin_words(pairing.muslin_first, names), width, 4))
    short = next((p for p in told if p.verdict in (Verdict.SHORT, Verdict.TOO_NARROW)), None)
    if short is not None:
        name = cloths[short.cloth_id].name
        click.echo(f'Ways to make it fit: stash fit-in "{ref}" "{name}"', err=True)
    left_out = len(pairings) - len(told)
    if left_out:
        click.echo(f"{left_out} unsuited cloths are left out; --all tells why.", err=True)
    if not pairings:
        click.echo("There is no cloth on the shelf.", err=True)
