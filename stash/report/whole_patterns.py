"""A pattern as its file in the folder of a whole stash."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from stash.report.whole_makes import own_lines
from stash.report.written import amounts, number, pair, quoted, written

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.garment.pattern import Asks, ChartRow, Pattern

PARTS = ("sizes", "pieces", "charts", "asks", "notions")
NO_AMOUNT = "-"


def pattern_toml(pattern: Pattern, drawing: str = "") -> str:
    """The pattern's file. Its pieces stand in it, or in the `drawing` beside it."""
    lines = own_lines(pattern, but=PARTS)
    if drawing:
        lines.append(pair("drawings", (drawing,)))
    for size in pattern.sizes:
        lines += ["", "[[size]]", pair("label", size.label)]
        lines += [
            amounts(key, named)
            for key, named in (("body", size.body), ("finished", size.finished))
            if named
        ]
    for piece in () if drawing else pattern.pieces:
        lines += ["", "[[piece]]", *own_lines(piece, but=())]
    for rows in _charts(pattern.charts):
        lines += ["", "[[chart]]", *_chart(rows)]
    for asks in pattern.asks:
        lines += ["", "[[asks]]", *_asks(asks)]
    for notion in pattern.notions:
        lines += ["", "[[notion]]", *own_lines(notion, but=())]
    return "\n".join(lines) + "\n"


def _charts(rows: Sequence[ChartRow]) -> list[list[ChartRow]]:
    """Rows that make one table of widths and sizes in just this order; else each alone."""
    found: list[list[ChartRow]] = []
    for _, run in groupby(rows, key=lambda row: (row.role, row.view, row.with_nap, row.rounded)):
        together = list(run)
        found += [together] if _in_order(together) else [[row] for row in together]
    return found


def _in_order(rows: Sequence[ChartRow]) -> bool:
    """Size by size, each with its widths in the order of the heading, none twice."""
    widths = list(dict.fromkeys(row.width for row in rows))
    sizes = list(dict.fromkeys(row.size for row in rows))
    places = [(sizes.index(row.size), widths.index(row.width)) for row in rows]
    return places == sorted(set(places))


def _chart(rows: Sequence[ChartRow]) -> list[str]:
    first = rows[0]
    widths = list(dict.fromkeys(row.width for row in rows))
    lines = [pair("role", first.role)]
    if first.view:
        lines.append(pair("view", first.view))
    lines += [pair("rounded", True)] if first.rounded else []
    lines += [pair("with_nap", first.with_nap), pair("widths", tuple(map(written, widths)))]
    table = []
    for size in dict.fromkeys(row.size for row in rows):
        cells = {row.width: written(row.amount) for row in rows if row.size == size}
        texts = ", ".join(quoted(cells.get(width, NO_AMOUNT)) for width in widths)
        table.append(f"{quoted(size)} = [{texts}]")
    return [*lines, f"amounts = {{ {', '.join(table)} }}"]


def _asks(asks: Asks) -> list[str]:
    """Shares and weights carry their units here, and a flag is a word."""
    lines = [pair("role", asks.role)]
    if asks.structures:
        lines.append(pair("structures", tuple(one.value for one in asks.structures)))
    for name in ("stretch_across", "stretch_along", "recovery"):
        value = getattr(asks, name)
        lines += [] if value is None else [pair(name, f"{number(value)} %")]
    for name in ("weight_low", "weight_high"):
        value = getattr(asks, name)
        lines += [] if value is None else [pair(name, f"{number(value)} gsm")]
    for name in ("hand_low", "hand_high"):
        value = getattr(asks, name)
        lines += [] if value is None else [pair(name, value)]
    for name in ("fibres", "avoid"):
        value = getattr(asks, name)
        lines += [pair(name, value)] if value else []
    return [*lines, pair("nap_allowed", written(asks.nap_allowed))]
