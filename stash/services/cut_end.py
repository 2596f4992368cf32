"""The cloth after a cut, and what became of its flaws and its outline, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.cloth.cut_off import cut_off
from stash.cloth.sums import reach
from stash.errors import RefusedError
from stash.units.format_length import Measure, show_length
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.cloth.cut_off import CutOff
    from stash.cloth.record import Cloth, Flaw
    from stash.config import System

SHOWN = 4
"""Flaws told one by one."""


def after_cut(cloth: Cloth, used: Length, left: Length, system: System) -> tuple[Cloth, str]:
    """The cloth with `left` on the shelf, and what there is to say of it; nothing if it is plain.

    Raises:
        RefusedError: Something is said to be left, but the outline ends before the cut.
    """
    after = cut_off(cloth, used, left)
    if left != after.cloth.left:
        raise RefusedError(
            f"The outline of {cloth.name} ends at "
            f"{show_length(reach(cloth)[0], system, Measure.SPARE)}, so "
            f"{show_length(used, system, Measure.TAKEN)} cut from it leaves nothing.",
            "Measure what was cut again (--length), or say that nothing is left: --left 0m",
        )
    return after.cloth, " ".join(_words(cloth, after, system))


def _words(before: Cloth, after: CutOff, system: System) -> Iterator[str]:
    cloth = after.cloth
    if not cloth.left:
        return
    yield from _of_flaws(cloth, after.gone, system)
    if cloth.outline:
        along = show_length(reach(cloth)[0], system, Measure.SPARE)
        yield f"The outline of {cloth.name} ends {along} from the new end now."
    if after.parts > 1:
        yield (
            f"It fell into {after.parts} parts: only the largest counts, so look whether the "
            f"length of {before.name} is right."
        )


def _of_flaws(cloth: Cloth, gone: tuple[Flaw, ...], system: System) -> Iterator[str]:
    for flaw in cloth.flaws[:SHOWN]:
        place = show_length(Length.from_mm(flaw.x), system, Measure.WIDTH)
        yield f"The {flaw.what} of {cloth.name} is {place} from the new end now."
    if len(cloth.flaws) > SHOWN:
        yield f"All its {len(cloth.flaws)} flaws moved as far."
    if gone:
        yield f"Cut away: {', '.join(flaw.what for flaw in gone[:SHOWN])}."
