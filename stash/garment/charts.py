"""The envelope's table of amounts, read for a cloth of any width."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.config import System
from stash.errors import BadInputError
from stash.garment.pattern import HALF_TENTH, Kind
from stash.trade.widths import CHART, LABEL_TOLERANCE, ONE_WAY_EXTRA, convert_by_chart
from stash.units.format_length import EIGHTH_YARD, Measure, show_length
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.garment.pattern import ChartRow, Pattern, Role

NO_SCALING = (
    *(Kind.TROUSERS_ELASTIC, Kind.TROUSERS_TAILORED, Kind.SHORTS, Kind.LEGGINGS),
    Kind.PYJAMAS,
)
"""Their need is a step function of width: legs lie side by side or they do not."""

TENTH_METRE = HALF_TENTH.times(2)

LARGE_DIFFERENCE = Length.from_mm(500)
"""Between widths, for the width chart's extra quarter yard; the chart gives no number, this
one is ours."""


@dataclass(frozen=True, slots=True)
class _Reading:
    amount: Length
    exact: bool
    why: str


def charted_amount(
    pattern: Pattern,
    view: str,
    size: str,
    role: Role,
    width: Length,
    nap: bool,
    system: System = System.METRIC,
) -> tuple[Length, bool, str] | None:
    """The amount a chart promises for cloth sold as `width`, or None if it promises none.

    Exact at a charted width; on wider cloth the amount for the next narrower width, which is
    always enough; on narrower cloth the published width chart, rounded up, but never for
    anything with legs. Returns the amount, whether it is the chart's own, and why, in
    the units of `system`.
    """
    rows = without_roundings(pattern.charts_for(view, size, role))
    if nap:
        rows = tuple(row for row in rows if row.with_nap or not _said_with_nap(row, rows))
    enough = [_read(row, width, nap, system) for row in rows if serves(row.width, width)]
    if enough:
        best = min(enough, key=lambda reading: (reading.amount, not reading.exact))
        return best.amount, best.exact, best.why
    if not rows or pattern.kind in NO_SCALING:
        return None
    return _from_wider(min(rows, key=lambda row: (row.width, row.enough)), width, nap, system)


def without_roundings(rows: tuple[ChartRow, ...]) -> tuple[ChartRow, ...]:
    """Without amounts that another one, printed for the same cloth, shows to be too small.

    Envelopes print yards and metres, the metres rounded to the nearest 0.1 m; the smaller of the
    two would be up to 5 cm too little. Where two amounts lie farther apart than any rounding,
    one of them was misread, and the larger is the safe one.
    """
    return tuple(
        row for row in rows if not any(other is not row and _outdone(row, other) for other in rows)
    )


def _said_with_nap(row: ChartRow, rows: tuple[ChartRow, ...]) -> bool:
    """The chart itself says what cloth of this width takes with nap: nothing need be added."""
    return any(other.with_nap and one_width(row.width, other.width) for other in rows)


def _outdone(row: ChartRow, other: ChartRow) -> bool:
    same = (row.role, row.view, row.size, row.with_nap)
    if same != (other.role, other.view, other.size, other.with_nap):
        return False
    if not one_width(row.width, other.width) or other.amount <= row.amount:
        return False
    metric = row.amount.nm % TENTH_METRE.nm == 0 and other.amount.nm % EIGHTH_YARD.nm == 0
    return metric or other.amount > row.amount + HALF_TENTH


def one_width(one: Length, other: Length) -> bool:
    """Shops and envelopes mean the same cloth by these two widths."""
    return abs(one.nm - other.nm) <= LABEL_TOLERANCE.nm or _one_column(one, other)


def serves(charted: Length, width: Length) -> bool:
    """Cloth sold as `width` is at least as wide as a chart means by `charted`."""
    return width >= charted - LABEL_TOLERANCE or _one_column(charted, width)


def _one_column(charted: Length, width: Length) -> bool:
    """Shops sell both widths under one name, such as 58-60 in."""
    narrow, wide = min(charted, width), max(charted, width)
    return any(column.low <= narrow and wide <= column.high for column in CHART)


def _read(row: ChartRow, width: Length, nap: bool, system: System) -> _Reading:
    amount, extra = _with_nap(row, nap)
    at = show_length(row.width, system, Measure.WIDTH)
    near = -LABEL_TOLERANCE.nm <= width.nm - row.width.nm <= LABEL_TOLERANCE.nm
    if near:
        why = f"The chart's own amount at {at}"
    elif _one_column(row.width, width):
        why = f"The chart's amount at {at}, which shops sell as the same width"
    else:
        why = f"The chart's amount at {at}; wider cloth never needs more"
    return _Reading(amount, near and not extra, f"{why}{extra}.")


def _from_wider(
    row: ChartRow, width: Length, nap: bool, system: System
) -> tuple[Length, bool, str] | None:
    try:
        amount = convert_by_chart(row.enough, row.width, width)
    except BadInputError:
        return None
    at = show_length(row.width, system, Measure.WIDTH)
    why = f"From {at} by the published width chart, rounded up"
    if row.width - width > LARGE_DIFFERENCE:
        amount += ONE_WAY_EXTRA
        why += ", and 1/4 yd for the large difference"
    if nap and not row.with_nap:
        amount += ONE_WAY_EXTRA
        why += ", and 1/4 yd for the nap"
    return amount, False, f"{why}; check that the widest piece fits."


def _with_nap(row: ChartRow, nap: bool) -> tuple[Length, str]:
    """What the row surely is enough for, and what was added to it in words."""
    amount, added = row.enough, ", and 5 cm for its rounding" if row.rounded else ""
    if nap and not row.with_nap:
        return amount + ONE_WAY_EXTRA, f"{added}, and 1/4 yd for the nap"
    return amount, added
