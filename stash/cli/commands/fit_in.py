"""`stash fit-in`."""

from __future__ import annotations

from contextlib import contextmanager
from functools import partial
from typing import TYPE_CHECKING

import click

from stash.cli.bar import Bar
from stash.cli.common import (
    json_option,
    line_width,
    opened,
    print_json,
    role_option,
    sample_option,
)
from stash.cli.curve import write_drawing
from stash.cli.given import Asking, Drawing, Seconds
from stash.cli.json_keys import FIT, FIT_GIVEN, FIT_RUNG, PAIRING, keys_help
from stash.cli.stopping import Stopping

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from stash.config import System
    from stash.report.fit_records import FitIn

NEXT = "the ways are sought from the best so far"
KINDS = (
    *("search", "alteration", "lay", "crosswise", "donor", "piecing", "seam", "margin"),
    *("centre", "length", "view", "size"),
)


@click.command(name="fit-in", cls=Asking, epilog=keys_help(FIT, FIT_RUNG, FIT_GIVEN, PAIRING))
@click.argument("make")
@click.argument("cloth")
@role_option
@click.option(
    "--not",
    "barred",
    multiple=True,
    type=click.Choice(KINDS),
    help="A kind of change you do not want; may be repeated.",
)
@click.option("--ignore-nap", is_flag=True, help="You can live with pieces turned against the nap.")
@click.option("--shorter", metavar="LENGTH", help="What you always take off its length: 3cm.")
@click.option("--seam", metavar="LENGTH", help="Seam allowance in the pieces: 15mm, 5/8 in.")
@click.option(
    "--kind",
    type=click.Choice(("best", "folded", "gate", "crossways")),
    default="best",
    show_default=True,
    help="How you meant to lay the cloth.",
)
@click.option(
    "--careful",
    type=Seconds(0, 600),
    default=4.0,
    show_default=True,
    metavar="SECONDS",
    help="Look so long for a shorter lay before any change, or until Ctrl-C; 0: not at all.",
)
@click.option(
    "--svg",
    type=Drawing(),
    metavar="FILE",
    help="Write the lay of the answer at true scale as well.",
)
@sample_option
@json_option
def fit_in(
    make: str,
    cloth: str,
    role: str | None,
    barred: tuple[str, ...],
    ignore_nap: bool,
    shorter: str | None,
    seam: str | None,
    kind: str,
    careful: float,
    svg: Path | None,
    sample: bool,
    as_json: bool,
) -> None:
    """Find ways to make it fit a cloth that is too short.

    Changes to the cut are laid out for real and put together at the least cost to the garment:
    another lay, pieces crosswise, a seam at the centre, facings from another cloth, a shorter
    length. The nap is never ignored unless you say so.
    """
    from stash.lay.problem import LayKind
    from stash.report.fit_text import fit_json, fit_text
    from stash.services.fit_in import fit_in as find
    from stash.services.fit_in import wishes_of

    wishes = wishes_of(barred=barred, ignore_nap=ignore_nap, shorter=shorter, seam=seam)
    start = None if kind == "best" else LayKind(kind)
    with opened(sample) as stash:
        with Bar() as bar:
            fit = find(
                *(stash, make, cloth, role),
                wishes=wishes,
                kind=start,
                careful=careful,
                progress=bar,
                ending=partial(_ending, bar),
            )
        system = stash.settings.system
    if svg is not None:
        _draw(fit, system, svg)
    if as_json:
        print_json(fit_json(fit))
    else:
        click.echo(fit_text(fit, system, line_width()))


@contextmanager
def _ending(bar: Bar) -> Iterator[Callable[[], bool]]:
    """Ctrl-C while it looks longer ends only that."""
    with Stopping(bar.say, NEXT) as stopping:
        yield stopping.is_wanted


def _draw(fit: FitIn, system: System, place: Path) -> None:
    from stash.errors import BadInputError
    from stash.report.lay_svg import lay_svg

    laid = fit.last.laid
    if laid is None or laid.lay is None:
        raise BadInputError("No lay was found, so there is nothing to draw.", "Leave --svg out.")
    write_drawing(lay_svg(laid, laid.lay, system), place)
    click.echo(f"Drawn at true scale in {place}", err=True)
