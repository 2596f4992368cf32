"""What `stash lay --careful` does: look longer, until the time is up or the person stops it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stash.cli.bar import Bar
from stash.cli.stopping import Stopping

if TYPE_CHECKING:
    from stash.report.records import LaidOut
    from stash.services.asked import How
    from stash.services.stash import Stash

STOPPED = "Stopped early: this is the shortest lay found until then."


def lay_longer(
    stash: Stash, ref: str, role: str, *, size: str, view: str, how: How, seconds: float
) -> LaidOut:
    """The lay, telling how far the search is; a word if it ended early or had nothing to do."""
    from stash.services.laying import lay_any
    from stash.units.format_length import Measure, show_length
    from stash.units.length import Length

    with Bar() as bar, Stopping(bar.say) as stopping:

        def told(share: float, best: float) -> bool:
            need = show_length(Length.from_mm(best), stash.settings.system, Measure.NEED)
            bar(round(share * seconds), round(seconds), f"seconds, so far {need}")
            return not stopping.is_wanted()

        how |= {"careful": seconds, "told": told, "weighed": bar}
        laid = lay_any(stash, ref, role, size=size, view=view, **how)
    if laid.lay is None:
        click.echo(_nothing_to_lay(laid), err=True)
    elif stopping.heeded:
        click.echo(STOPPED, err=True)
    return laid


def _nothing_to_lay(laid: LaidOut) -> str:
    return (
        f"{laid.pattern.name} has no pieces for {laid.role} to lay, so there is nothing to look "
        "longer for: leave --careful out."
    )
