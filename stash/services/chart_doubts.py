"""What to ask about rows of a chart that were just typed: they are kept all the same."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.garment.charts import one_width, without_roundings
from stash.units.format_length import Measure, show_length
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from stash.config import System
    from stash.garment.pattern import ChartRow, Pattern

NARROWEST, WIDEST = Length.from_mm(500), Length.from_mm(3200)
"""Cloth a garment is cut from (common practice)."""
LONGEST = Length.from_mm(15_000)
"""More than any one garment takes (common practice)."""


def chart_doubts(pattern: Pattern, typed: Iterable[ChartRow], system: System) -> tuple[str, ...]:
    """Questions about these rows of the pattern's chart; empty where they are like any other's."""
    said = (doubt for row in typed for doubt in _doubts(pattern, row, system))
    return tuple(dict.fromkeys(f"{doubt}: is that right?" for doubt in said))


def _doubts(pattern: Pattern, row: ChartRow, system: System) -> Iterator[str]:
    if not NARROWEST <= row.width <= WIDEST:
        yield f"A cloth {show_length(row.width, system, Measure.WIDTH)} wide"
    if row.amount > LONGEST:
        yield f"{show_length(row.amount, system, Measure.NEED)} for one garment"
    cell = (row.role, row.view, row.size, row.with_nap)
    others = [o for o in pattern.charts if (o.role, o.view, o.size, o.with_nap) == cell]
    nearest = sorted(others, key=lambda other: abs(other.width.nm - row.width.nm))
    for other in nearest:
        narrow, wide = sorted((row, other), key=lambda one: one.width)
        if not one_width(narrow.width, wide.width) and wide.amount > narrow.enough:
            far, near = (show_length(r.width, system, Measure.WIDTH) for r in (wide, narrow))
            yield f"Cloth of {far} needs more than cloth of {near}"
            break
    if row not in without_roundings(tuple(others)):
        more = max(o.amount for o in others)
        larger = show_length(more, system, Measure.NEED)
        yield f"For the same width there is {larger} too, and the larger counts"
