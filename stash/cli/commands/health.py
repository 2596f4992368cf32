"""`stash health`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from stash.cli.bar import Bar
from stash.cli.common import json_option, line_width, opened, print_json, sample_option
from stash.cli.json_keys import HEALTH, keys_help

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.config import Settings
    from stash.services.health import Health

MONTHS = 12
"""The latest ones are shown; `stash cloth months` shows all."""


@click.command(epilog=keys_help(HEALTH))
@sample_option
@json_option
def health(sample: bool, as_json: bool) -> None:
    """Say which cloths lie idle, and which nearly fit.

    Cloths no plan chooses, those a little short for the make they suit best, cloths whose
    colours belong together, and what came and was cut month by month.
    """
    from stash.services.health import stash_health

    with opened(sample) as stash:
        with Bar() as bar:
            found = stash_health(stash, progress=bar)
        if as_json:
            print_json(_plain(found))
        else:
            click.echo("\n".join(_lines(found, stash.settings)))


def _lines(found: Health, settings: Settings) -> Iterator[str]:
    from stash.cli.commands.cloth import months_table
    from stash.report.columns import table, wrapped
    from stash.units.format_length import Measure, show_length

    wide = line_width()
    yield f"In no plan ({len(found.idle)})"
    if found.idle:
        yield wrapped(", ".join(cloth.name for cloth in found.idle), wide, 2)
    if found.almost:
        lines = [
            (
                one.cloth.name,
                show_length(one.short, settings.system, Measure.NEED),
                f"{one.suit:.0%}",
                f"{one.make.name}, {one.role}",
            )
            for one in found.almost
        ]
        yield "\nShort by a little for the make they suit best\n"
        yield table(("Cloth", ">Short", ">Suit", "Make"), lines, wide, keep=0)
        if first := next((one for one in found.almost if one.laid), None):
            yield f'\nWays to make it fit: stash fit-in "{first.make.name}" "{first.cloth.name}"'
    if found.belong:
        pairs = [(one.one.name, one.other.name, one.words) for one in found.belong]
        yield "\nGo together by their colours\n"
        yield table(("Cloth", "With", "Because they are"), pairs, wide)
    if found.months:
        yield "\nCame and cut, the latest months\n"
        yield months_table(found.months[-MONTHS:], settings)


def _plain(found: Health) -> dict[str, Any]:
    from stash.report.plain import millimetres, plain

    return {
        "idle": [cloth.name for cloth in found.idle],
        "almost": [
            {
                "cloth": one.cloth.name,
                "make": one.make.name,
                "role": one.role.value,
                "suit": round(one.suit, 4),
                "short_mm": millimetres(one.short),
            }
            for one in found.almost
        ],
        "belong": [
            {"cloths": [one.one.name, one.other.name], "mark": one.mark, "words": one.words}
            for one in found.belong
        ],
        "months": [plain(month) for month in found.months],
    }
