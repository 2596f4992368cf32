"""The width curve as text: the plot in characters, what it says, and a legend of the cloths."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.pairing.judgement import Verdict
from stash.report.columns import table, wrapped
from stash.report.curve_cells import draw_curve, frame_of, mark
from stash.units.enough import show_enough
from stash.units.format_length import Measure, show_length

if TYPE_CHECKING:
    from stash.config import System
    from stash.pairing.width_curve import CurveDot, WidthCurve

NEVER_RISES = (
    "A lay for a narrower width is legal on a wider one, so the need at a width is the least "
    "found for it or for any narrower width."
)
HEAD = ("", "Cloth", ">Width", ">Free", ">Need", "Verdict")


def curve_text(curve: WidthCurve, system: System, width: int = 80, height: int = 24) -> str:
    """The plot, at most `width` x `height` characters, with words and legend under it."""
    rows = draw_curve(curve, width, height, system)
    parts = [curve.title]
    parts += ["".join(cell.char for cell in row).rstrip() for row in rows]
    parts += [wrapped(words, width) for words in (how_found(curve), *reading(curve, system))]
    if curve.dots:
        legend = [_row(dot, system) for dot in curve.dots]
        parts += ["", table(HEAD, legend, width, keep=5)]
        parts.append(wrapped(exceptions(curve), width, hang=2))
    return "\n".join(parts).rstrip()


def how_found(curve: WidthCurve) -> str:
    """Where the curve comes from and under which rules."""
    nap = "with nap" if curve.nap else "without nap"
    size = f", size {curve.size}" if curve.size else ""
    if curve.by_chart:
        return (
            f"Read from the chart of {curve.pattern}{size}, {nap}; widths are as sold, less the "
            "usual selvedges. A diamond is the chart's own amount, a broken line is estimated."
        )
    kind = f"{curve.kind}" if curve.kind else "the shortest kind of lay"
    return f"{curve.laid} widths laid out{size}, {nap}, {kind}; widths are usable and washed."


def reading(curve: WidthCurve, system: System) -> tuple[str, ...]:
    """How to read the plot, a sentence or two for each thing in it."""
    words = [NEVER_RISES]
    first = next(point for point in curve.points if point.need is not None)
    if first is not curve.points[0]:
        least = show_length(first.usable, system, Measure.WIDTH)
        words.append(f"Nothing is known under {least}: {curve.points[0].why}")
    if curve.dots:
        words.append(
            "Cloths on or above the line fit: a capital, or a full circle, where there is enough."
        )
    top = frame_of(curve).top
    if any(dot.pairing.have.mm > top for dot in curve.dots):
        words.append("Cloths on the top row are longer than the plot is high.")
    return tuple(words)


def exceptions(curve: WidthCurve) -> str:
    """The cloths the curve does not speak for, by what keeps it; empty: it speaks for all."""
    found: dict[str, list[str]] = {}
    for dot in curve.dots:
        if dot.apart:
            found.setdefault(dot.apart, []).append(dot.letter)
    if not found:
        return ""
    groups = "; ".join(f"{', '.join(letters)} ({why})" for why, letters in found.items())
    return f"* Judged by a need of their own, not by the line: {groups}."


def verdict_words(dot: CurveDot, system: System) -> str:
    """`fits, 0.33 m to spare`, `short by 0.12 m`, or the verdict alone."""
    need, verdict = dot.pairing.need.length, dot.pairing.verdict
    if need is None:
        return verdict.value
    shown = show_enough(need, dot.pairing.have, system)
    if verdict is Verdict.SHORT:
        return f"short by {shown.gap}"
    return f"{verdict}, {shown.words}"


def name_of(dot: CurveDot) -> str:
    """Its letter as it stands in the plot; past z with the circle that stands there."""
    return mark(dot) if len(dot.letter) == 1 else f"{dot.letter}{mark(dot)}"


def _row(dot: CurveDot, system: System) -> tuple[str, ...]:
    need = dot.pairing.need.length
    if need is None:
        needs, holds = "–", show_length(dot.pairing.have, system, Measure.SPARE)
    else:
        shown = show_enough(need, dot.pairing.have, system)
        needs, holds = shown.needs, shown.holds
    return (
        name_of(dot) + ("*" if dot.apart else ""),
        dot.cloth.name,
        show_length(dot.at, system, Measure.WIDTH),
        holds,
        needs,
        verdict_words(dot, system),
    )
