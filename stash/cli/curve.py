"""What `stash lay --curve` does: draw the need against the width."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

import click

from stash.cli.bar import Bar
from stash.cli.common import line_width, print_json

if TYPE_CHECKING:
    from pathlib import Path

    from stash.lay.problem import LayKind
    from stash.services.stash import Stash

TALLEST = 24
"""Rows of the plot, where the terminal has as many."""


def print_curve(
    stash: Stash,
    ref: str,
    role: str,
    *,
    size: str,
    view: str,
    kind: LayKind | None,
    nap: bool | None,
    svg: Path | None,
    as_json: bool,
) -> None:
    """Work the curve out, with progress, and print it; into `svg` too if it is named."""
    from stash.report.curve_plain import curve_json
    from stash.report.curve_svg import curve_svg
    from stash.report.curve_text import curve_text
    from stash.services.curve import width_curve

    with Bar() as bar:
        curve = width_curve(
            stash, ref, role, size=size, view=view, kind=kind, nap=nap, progress=bar
        )
    system = stash.settings.system
    if svg is not None:
        write_drawing(curve_svg(curve, system), svg)
        click.echo(f"Drawn in {svg}", err=True)
    if as_json:
        print_json(curve_json(curve))
    else:
        height = min(TALLEST, shutil.get_terminal_size((80, TALLEST)).lines - 1)
        click.echo(curve_text(curve, system, line_width(), height))


def refuse_with_curve(
    cloth: str | None, width: str | None, careful: float | None, gap: str | None
) -> None:
    """Refuse the options a curve cannot heed; BadInputError names the one to leave out."""
    from stash.errors import BadInputError

    if careful is not None:
        raise BadInputError(
            "The curve is drawn from quick lays; a careful one is of one width.",
            "Leave --careful out, or leave --curve out.",
        )
    if gap is not None:
        raise BadInputError(
            "The curve is drawn with pieces that may touch.",
            "Leave --gap out, or leave --curve out.",
        )
    if cloth or width:
        raise BadInputError(
            "The curve is drawn for every width and every cloth of the shelf.",
            "Leave --cloth and --width out, or leave --curve out.",
        )


def write_drawing(drawing: str, place: Path) -> None:
    """Write a file; BadInputError if the place cannot be written."""
    from stash.errors import BadInputError

    try:
        place.write_text(drawing, encoding="utf-8")
    except OSError as error:
        raise BadInputError(
            f"{place} cannot be written: {error.strerror}.", "Name another file."
        ) from error
