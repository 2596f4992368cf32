"""Words and rulers of a lay's SVG drawing; one unit is one millimetre."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

from stash.config import System

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.lay.result import Lay

RULERS = {System.METRIC: (100.0, 10, 10.0, "cm"), System.IMPERIAL: (114.3, 9, 25.4, "in")}
"""Millimetres between numbers, parts between them, millimetres in the unit written, its sign.
Numbers stand at eighths of a yard, which is what shops cut: 4 1/2 in, in parts of 1/2 in."""
INK = "#333333"


def ruler_along(lay: Lay, edge: float, system: System) -> Iterator[str]:
    """Under the cloth, from its cut end to where the lay ends."""
    step, parts, unit, sign = RULERS[system]
    base = lay.width + edge + 14
    yield _stroke("ruler", 0, base, lay.need, base)
    for count in range(int(lay.need / step * parts) + 1):
        x = count * step / parts
        if count % parts:
            yield _stroke("part", x, base, x, base + 4)
            continue
        yield _stroke("tick", x, base, x, base + 8)
        label = f"{x / unit:g}" + ("" if count else f" {sign}")
        yield text(x, base + 24, label, 14, INK, "middle")


def ruler_across(lay: Lay, system: System) -> Iterator[str]:
    """Beside the cloth, over the usable width from the upper selvedge."""
    step, parts, unit, _ = RULERS[system]
    yield _stroke("ruler-across", -14, 0, -14, lay.width)
    for count in range(int(lay.width / step * parts) + 1):
        y = count * step / parts
        if count % parts:
            yield _stroke("part-across", -18, y, -14, y)
            continue
        yield _stroke("tick-across", -22, y, -14, y)
        yield text(-26, y + 5, f"{y / unit:g}", 14, INK, "end")


def text(x: float, y: float, words: str, size: float, ink: str, anchor: str, more: str = "") -> str:
    """A line of words, its baseline at y; `more` are further attributes."""
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size:.1f}" fill="{ink}" '
        f'text-anchor="{anchor}"{more and " " + more}>{escape(words)}</text>'
    )


def _stroke(name: str, x1: float, y1: float, x2: float, y2: float) -> str:
    return (
        f'<line class="{name}" x1="{x1:.1f}" y1="{y1:.1f}" x2="{x2:.1f}" y2="{y2:.1f}" '
        f'stroke="{INK}" stroke-width="1"/>'
    )
