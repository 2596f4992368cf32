"""What `stash lay --kinds` does: every kind of lay beside the others."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stash.cli.bar import Bar
from stash.cli.common import line_width, print_json

if TYPE_CHECKING:
    from pathlib import Path

    from stash.lay.problem import LayKind
    from stash.services.asked import How
    from stash.services.stash import Stash


def print_kinds(
    stash: Stash, ref: str, role: str, *, size: str, view: str, how: How, as_json: bool
) -> None:
    """Lay every kind out, with progress, and print them side by side."""
    from stash.report.kinds_text import kinds_json, kinds_text
    from stash.services.lay_kinds import lay_kinds

    with Bar() as bar:
        kinds = lay_kinds(stash, ref, role, size=size, view=view, progress=bar, **how)
    if as_json:
        print_json(kinds_json(kinds))
    else:
        click.echo(kinds_text(kinds, stash.settings.system, line_width()))


def refuse_with_kinds(
    kind: LayKind | None, curve: bool, careful: float | None, svg: Path | None
) -> None:
    """Refuse the options the kinds cannot heed; BadInputError names the one to leave out."""
    from stash.errors import BadInputError

    wrong = {
        "--kind": kind is not None,
        "--curve": curve,
        "--careful": careful is not None,
        "--svg": svg is not None,
    }
    for option, given in wrong.items():
        if given:
            raise BadInputError(
                "The kinds are laid quickly, all of them, and set side by side.",
                f"Leave {option} out, or leave --kinds out.",
            )
