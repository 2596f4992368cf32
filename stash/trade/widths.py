"""Cloth widths, and the classic chart that turns an amount at one width into another's.

The chart is handed down by extension services; traditional credit: Rutgers Cooperative
Extension (from memory). Three printed copies agree on every column from 35-36 to 66 inches;
the 32 inch column is from memory, but for one cell printed elsewhere.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from stash.config import System
from stash.errors import BadInputError
from stash.units.format_length import EIGHTH_YARD
from stash.units.length import Length

ONE_WAY_EXTRA = EIGHTH_YARD.times(2)
"""The chart's own note: add 1/4 yard for a large difference in widths, for one-directional
cloth, or for sleeves cut in one with the body."""

LABEL_TOLERANCE = Length.from_mm(10)
"""Labels round: 58 in is sold as 147 cm and 45 in as 115 cm."""


@dataclass(frozen=True, slots=True)
class ChartColumn:
    """The widths one column of the chart speaks for, labels' rounding included, and its amounts."""

    low: Length
    high: Length
    eighths: tuple[int, ...]
    """Of a yard."""


def _column(low: float, high: float, *eighths: int) -> ChartColumn:
    """A column as it is printed: widths in inches."""
    return ChartColumn(
        Length.from_inches(low) - LABEL_TOLERANCE,
        Length.from_inches(high) + LABEL_TOLERANCE,
        eighths,
    )


CHART: tuple[ChartColumn, ...] = (
    _column(32, 32, 15, 18, 20, 22, 25, 27, 30, 32, 35, 37, 40, 42),
    _column(35, 36, 14, 16, 18, 20, 23, 25, 27, 30, 34, 36, 38, 40),
    _column(39, 39, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30, 32, 34),
    _column(41, 42, 12, 14, 16, 18, 20, 22, 23, 25, 27, 29, 31, 33),
    _column(44, 45, 11, 13, 14, 17, 18, 20, 22, 23, 25, 27, 29, 31),
    _column(50, 50, 10, 12, 13, 14, 16, 18, 19, 21, 22, 24, 26, 27),
    _column(52, 54, 9, 11, 12, 14, 15, 16, 18, 19, 21, 22, 23, 25),
    _column(58, 60, 8, 10, 11, 13, 14, 15, 16, 18, 19, 21, 22, 23),
    _column(65, 66, 7, 9, 10, 12, 13, 14, 15, 17, 18, 20, 21, 22),
)
"""One row across all columns is the same garment."""


COMMON_WIDTHS: dict[System, tuple[Length, ...]] = {
    System.METRIC: tuple(Length.from_mm(mm) for mm in (900, 1150, 1400, 1500)),
    System.IMPERIAL: tuple(Length.from_inches(inches) for inches in (36, 45, 54, 60)),
}
"""Widths shops sell, edge to edge: some silks and old stock; cottons and dress goods; suiting,
coating and furnishing cloth; most wovens and knits for clothes (common practice)."""


SHOP_WIDTHS: dict[System, tuple[Length, ...]] = {
    System.METRIC: tuple(
        Length.from_mm(mm) for mm in (900, 1060, 1150, 1400, 1500, 1600, 1800, 2800)
    ),
    System.IMPERIAL: tuple(Length.from_inches(inches) for inches in (36, 42, 45, 54, 60, 63, 72)),
}
"""Every width cloth is commonly sold in: `COMMON_WIDTHS`, old dress goods (from memory), jersey
and rib of 63-72 in, and sheeting of 280 cm (trade pages)."""


def convert_by_chart(amount: Length, from_width: Length, to_width: Length) -> Length:
    """How much of cloth `to_width` wide replaces `amount` of cloth `from_width` wide.

    Always rounded up: a width between two columns is read as the harder one, an amount
    between two rows as the larger row. Beyond the first and last row their ratio is kept (our
    own extension). Area decides this chart, so it must not be asked about trousers.

    Raises:
        BadInputError: a width the chart does not reach: from over 66 in, or to under 32 in.
    """
    known = _column_at_least(from_width)
    wanted = _column_at_most(to_width)
    same = amount.ceil_to(EIGHTH_YARD)
    if known is wanted:
        return same
    asked = Fraction(amount.nm, EIGHTH_YARD.nm)
    row = next((i for i, e in enumerate(known.eighths) if e >= asked), None)
    if row is None or asked < known.eighths[0]:
        row = 0 if row == 0 else len(known.eighths) - 1
        asked *= Fraction(wanted.eighths[row], known.eighths[row])
    else:
        asked = Fraction(wanted.eighths[row])
    there = EIGHTH_YARD.times(-(-asked.numerator // asked.denominator))
    # What is enough is enough on wider cloth too.
    return min(there, same) if to_width >= from_width else max(there, same)


def _column_at_least(width: Length) -> ChartColumn:
    """The narrowest column that is not narrower: its garments are at least as large."""
    for column in CHART:
        if width <= column.high:
            return column
    raise _beyond("wider than 66 in (168 cm)")


def _column_at_most(width: Length) -> ChartColumn:
    """The widest column that is not wider: its amounts are at least as long."""
    for column in reversed(CHART):
        if width >= column.low:
            return column
    raise _beyond("narrower than 32 in (81 cm)")


def _beyond(what: str) -> BadInputError:
    return BadInputError(
        f"The width chart says nothing of cloth {what}.",
        "Add the pattern's pieces, so that they can be laid out.",
    )
