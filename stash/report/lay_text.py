"""A lay as text: the figures, and the drawing in characters."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.report.columns import wrapped
from stash.report.lay_cells import draw_lay
from stash.report.lay_notches import notch_ticks
from stash.report.lay_words import (
    bound_words,
    fold_words,
    folded_words,
    several_words,
    size_words,
    wash_words,
)
from stash.report.plan_text import how_sure
from stash.units.enough import show_enough
from stash.units.format_length import Measure, show_length
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.config import System
    from stash.lay.problem import Problem
    from stash.lay.result import Lay
    from stash.report.lay_marks import Stretch
    from stash.report.records import LaidOut

STANDS_IN = "the likely block, not the pattern's own pieces: nothing to cut by"
"""What is said of the drawing of an estimate."""


def lay_text(laid: LaidOut, system: System, width: int = 80, height: int = 30) -> str:
    """The drawing, if there is one, and the figures under it."""
    parts = [laid.title]
    if laid.lay is not None:
        notches = notch_ticks(laid, laid.lay)
        parts.append(drawing_text(laid.lay, laid.problem, system, width, height, notches))
    elif (block := laid.stand_in) is not None:
        parts.append(drawing_text(block.lay, block.problem, system, width, height))
    parts += [wrapped(figure, width, hang=2) for figure in figures(laid, system)]
    return "\n".join(parts)


def drawing_text(
    lay: Lay,
    problem: Problem | None,
    system: System,
    width: int,
    height: int,
    notches: Sequence[Stretch] = (),
) -> str:
    """The drawing in characters, its colours left out."""
    drawing = draw_lay(lay, width, height, system, problem=problem, notches=notches)
    rows = ["".join(cell.char for cell in row).rstrip() for row in drawing.rows]
    return "\n".join((*rows, *drawing.legend))


def figures(laid: LaidOut, system: System) -> tuple[str, ...]:
    """What a person at the table wants to know, a line for each."""
    need = laid.need
    lines = [f"Pattern    {words}"] if (words := size_words(laid)) else []
    if need.length is not None:
        width = show_length(laid.usable_width, system, Measure.USABLE)
        wants = _wants(laid, need.length, system)
        lines.append(f"Need       {wants} of {width} {laid.width_words}, {laid.nap_words}")
    lines += wash_words(laid, system)
    lines += several_words(laid.several, system)
    lines += _spare(laid, system)
    lines += [f"Caution    {laid.caution}"] if laid.caution else []
    lines.append(f"Sureness   {how_sure(need, system)}: {need.why}")
    if laid.lay is not None:
        lines += _lay_figures(laid, laid.lay, system)
    elif laid.stand_in is not None:
        lines.append(f"Drawing    {STANDS_IN}.")
    return tuple(lines)


def _spare(laid: LaidOut, system: System) -> list[str]:
    if laid.need.length is None or laid.have is None or laid.verdict is None:
        return []
    shown = show_enough(laid.need.length, laid.have, system)
    return [f"Verdict    {laid.verdict}: {shown.words} of {shown.holds} free"]


def _wants(laid: LaidOut, length: Length, system: System) -> str:
    """The need, as it agrees with what there is on the line of the verdict."""
    if laid.have is None:
        return show_length(length, system, Measure.NEED)
    return show_enough(length, laid.have, system).needs


def _lay_figures(laid: LaidOut, lay: Lay, system: System) -> list[str]:
    bound = show_length(Length.from_mm(laid.least_mm or 0.0), system, Measure.LEAST)
    checked = "checked" if lay.checked else "not checked"
    folded = folded_words(laid, system)
    kind = f"{lay.kind} ({folded})" if folded else str(lay.kind)
    return [
        f"Kind       {kind}, {lay.utilisation:.0%} of the cloth used{_apart(laid, system)}",
        *fold_words(lay, system),
        f"Bound      cannot be shorter than {bound}: {bound_words(laid, lay)}",
        f"Solver     {lay.solver}, seed {lay.seed}, {lay.seconds:.2f} s, {checked}",
    ]


def _apart(laid: LaidOut, system: System) -> str:
    if laid.problem is None or not laid.problem.gap:
        return ""
    return (
        f", {show_length(Length.from_mm(laid.problem.gap), system, Measure.SMALL)} between pieces"
    )
