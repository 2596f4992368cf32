"""The kinds of lay beside each other, as text and for JSON."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stash.report.columns import table, wrapped
from stash.report.lay_words import longer_words
from stash.report.plain import millimetres
from stash.units.enough import show_enough
from stash.units.format_length import Measure, show_length

if TYPE_CHECKING:
    from stash.config import System
    from stash.report.records import KindRow, KindTable

HEAD = ("Kind", ">Need", "Beside the shortest", "On this cloth")


def kinds_text(kinds: KindTable, system: System, width: int = 80) -> str:
    """A row for each kind that can be laid, then a sentence for each that needs one."""
    on = show_length(kinds.usable_width, system, Measure.USABLE)
    nap = "with nap" if kinds.nap else "without nap"
    columns = len(HEAD) - (kinds.have is None)
    rows = [
        (row.kind.value, *(say(row, kinds, system) for say in (need_words, beside, spare_words)))
        for row in kinds.rows
    ]
    parts = [kinds.title, f"{on} usable width, {nap}", ""]
    parts.append(table(HEAD[:columns], [row[:columns] for row in rows], width, keep=0))
    parts += [wrapped(f"{row.kind}: {row.why}", width, hang=2) for row in kinds.rows if row.why]
    return "\n".join(parts)


def need_words(row: KindRow, kinds: KindTable, system: System) -> str:
    """Its need, as it agrees with the free length shown beside it; a dash where there is none."""
    if row.need is None:
        return "–"
    if kinds.have is None:
        return show_length(row.need, system, Measure.NEED)
    return show_enough(row.need, kinds.have, system).needs


def beside(row: KindRow, kinds: KindTable, system: System) -> str:
    """`shortest`, `as short`, `12 cm longer`, or `cannot be laid`."""
    best = next((one.need for one in kinds.rows if one.kind is kinds.best), None)
    if row.need is None or best is None:
        return "cannot be laid"
    if row.kind is kinds.best:
        return "shortest"
    return longer_words(row.need, best, system)


def spare_words(row: KindRow, kinds: KindTable, system: System) -> str:
    """`0.39 m to spare`, `0.07 m short`, or nothing."""
    if row.need is None or kinds.have is None:
        return ""
    return show_enough(row.need, kinds.have, system).words


def kinds_json(kinds: KindTable) -> dict[str, Any]:
    """`stash lay --kinds --json`: lengths in millimetres, keys that stay."""
    return {
        "title": kinds.title,
        "usable_width_mm": millimetres(kinds.usable_width),
        "nap": kinds.nap,
        "have_mm": millimetres(kinds.have),
        "best": kinds.best.value,
        "kinds": [
            {
                "kind": row.kind.value,
                "need_mm": millimetres(row.need),
                "longer_mm": millimetres(row.longer),
                "spare_mm": millimetres(row.spare),
                "why": row.why or None,
            }
            for row in kinds.rows
        ],
    }
