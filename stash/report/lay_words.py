"""Lines about a lay that only some lays have: how deep it is folded, for how many makes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.lay.problem import LayKind
from stash.units.format_length import Measure, show_length
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.config import System
    from stash.lay.result import Lay
    from stash.report.records import Several

HAIR_MM = 1.0
"""How far from the middle a fold may lie and still be called the middle: rounding."""


def fold_words(lay: Lay, system: System) -> tuple[str, ...]:
    """How far one selvedge is folded in, where it does not reach the other one."""
    if lay.kind is not LayKind.FOLDED or not lay.folded_to:
        return ()
    [fold] = lay.folds
    single = lay.width - 2 * fold
    if single <= HAIR_MM:
        return ()
    shown = [show_length(Length.from_mm(mm), system, Measure.WIDTH) for mm in (fold, single)]
    words = f"one selvedge {shown[0]} deep over the next {shown[0]}"
    return (f"Fold       {words}; {shown[1]} stay single beside it",)


def several_words(several: Several | None, system: System) -> list[str]:
    """Both ways of cutting for several makes, the shorter one named."""
    if several is None:
        return []

    def shown(length: Length | None, otherwise: str) -> str:
        return otherwise if length is None else show_length(length, system, Measure.NEED)

    layers = shown(several.layers, several.why_no_layers or "cannot be laid")
    together = shown(several.together, "cannot be laid")
    won = f"one of {several.times} layers" if several.layers_win else "all together"
    ways = f"together {together}, in {several.times} layers cut at once {layers}"
    return [f"Makes      {several.times}: {ways}; drawn is {won}"]
