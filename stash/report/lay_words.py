"""Words about a lay that only some lays have: where it is folded, how much longer another
kind would be, for how many makes, in which size, what the first wash takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.config import System
from stash.lay.problem import LayKind
from stash.units.format_length import CENTIMETRE, Measure, show_length
from stash.units.length import NM_PER_INCH, Length

if TYPE_CHECKING:
    from stash.lay.result import Lay
    from stash.report.records import LaidOut, Several

HAIR_MM = 1.0
"""How far from the middle a fold may lie and still be called the middle: rounding."""

STEPS = {System.METRIC: CENTIMETRE, System.IMPERIAL: Length(NM_PER_INCH // 8)}
"""How fine kinds are told apart."""


def longer_words(need: Length, least: Length, system: System) -> str:
    """How much longer than the shortest lay one of another kind is: `12 cm longer`, `as short`."""
    if need == least:
        return "as short"
    step = STEPS[system]
    longer = need.ceil_to(step) - least.ceil_to(step)
    if longer.nm < 2 * step.nm:
        return f"{show_length(need - least, system, Measure.SMALL)} longer"
    return f"{show_length(longer, system, Measure.WIDTH)} longer"


def folded_words(laid: LaidOut, system: System) -> str:
    """`folded 12 cm longer`; empty where there is nothing to set beside the lay."""
    if laid.folded is None or laid.need.length is None:
        return ""
    return f"folded {longer_words(laid.folded, laid.need.length, system)}"


def bound_words(laid: LaidOut, lay: Lay) -> str:
    """Why it cannot be shorter."""
    each = f", in each of {laid.layers} layers" if laid.layers > 1 else ""
    return f"{lay.bound.why}{each}"


def size_words(laid: LaidOut) -> str:
    """`size M, view A`; empty where the pattern has neither."""
    named = (("size", laid.size), ("view", laid.view))
    return ", ".join(f"{what} {name}" for what, name in named if name)


def wash_words(laid: LaidOut, system: System) -> tuple[str, ...]:
    """What to cut off a cloth that is still to be washed, and what the wash takes."""
    if laid.cut_from_shelf is None or not any(laid.shrinkage):
        return ()
    cut = show_length(laid.cut_from_shelf, system, Measure.TAKEN)
    lost = f"{laid.shrinkage[0]:g} % in length, {laid.shrinkage[1]:g} % in width"
    return (f"Before     the first wash {cut} is to be cut off; it takes {lost}",)


def fold_words(lay: Lay, system: System) -> tuple[str, ...]:
    """Where to fold, if not simply in half along the whole of the lay."""

    def shown(mm: float) -> str:
        # A fold is measured off: half a centimetre lost by rounding would cost the edge.
        rough = abs(mm - 10 * round(mm / 10)) > HAIR_MM
        return show_length(Length.from_mm(mm), system, Measure.SMALL if rough else Measure.WIDTH)

    if not lay.folded_to:
        return ()
    said = ""
    if lay.cross_fold is not None:
        said = f"across the cloth, {shown(lay.cross_fold)} from its cut end"
    elif lay.kind is LayKind.GATE:
        first, last = min(lay.folds), lay.width - max(lay.folds)
        said = f"one selvedge {shown(first)} deep, the other {shown(last)}, until they meet"
    elif (single := abs(lay.width - 2 * lay.folds[0])) > HAIR_MM:
        deep = shown((lay.width - single) / 2)
        said = (
            f"one selvedge {deep} deep over the next {deep}; {shown(single)} stay single beside it"
        )
    if lay.folded_to < lay.need - HAIR_MM:
        said = said or "in half"
        said += f"; folded for the first {shown(lay.folded_to)}, a single layer after that"
    return (f"Fold       {said}",) if said else ()


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
