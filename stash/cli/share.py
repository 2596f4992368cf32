"""What `stash lay` does with several cloths: cut one role from all of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stash.cli.bar import Bar
from stash.cli.common import line_width, print_json
from stash.cli.curve import write_drawing

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

    from stash.services.asked import How
    from stash.services.stash import Stash


def print_shared(
    stash: Stash,
    ref: str,
    cloths: Sequence[str],
    role: str,
    *,
    size: str,
    view: str,
    how: How,
    svg: Path | None,
    as_json: bool,
    height: int,
) -> None:
    """Share the pieces out, with progress, and print one lay for each cloth."""
    from stash.report.lay_svg import lay_svg
    from stash.report.share_text import share_json, share_text
    from stash.services.sharing import lay_shared

    with Bar() as bar:
        shared = lay_shared(stash, ref, cloths, role, size=size, view=view, progress=bar, **how)
    system = stash.settings.system
    if svg is not None:
        for number, laid in enumerate(shared.parts, start=1):
            if laid.lay is not None:
                place = svg.with_name(f"{svg.stem}-{number}{svg.suffix}")
                write_drawing(lay_svg(laid, laid.lay, system), place)
                click.echo(f"Drawn at true scale in {place}", err=True)
    if as_json:
        print_json(share_json(shared))
    else:
        click.echo(share_text(shared, system, line_width(), height))


def refuse(doing: str, without: str, options: Mapping[str, bool]) -> None:
    """Refuse options that cannot be heeded with `without`; BadInputError names the first."""
    from stash.errors import BadInputError

    for option, given in options.items():
        if given:
            raise BadInputError(doing, f"Leave {option} out, or leave {without} out.")
