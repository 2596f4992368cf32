"""What a pattern needs over all common widths, as text and for JSON."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stash.pairing.judgement import Sureness
from stash.report.columns import table, wrapped
from stash.report.plain import millimetres, need_json
from stash.units.format_length import Measure, show_length

if TYPE_CHECKING:
    from stash.config import System
    from stash.pairing.judgement import Need
    from stash.report.records import WidthNeed, WidthNeeds

HEAD = ("Role", ">Width", ">Without nap", ">With nap", "Lies", "How sure", ">Chart")
TAKEN = "Of washed cloth, selvedges cut off. The chart is read for cloth without nap."


def needs_text(needs: WidthNeeds, system: System, width: int = 80) -> str:
    """A title, a row for each role and width, and why where there is no need."""
    rows = [need_cells(row, system) for row in needs.rows]
    parts = [needs_title(needs), "", table(HEAD, rows, width, keep=1)]
    whys = dict.fromkeys(row.plain.why for row in needs.rows if row.plain.length is None)
    parts += [wrapped(why, width, hang=2) for why in whys]
    parts.append(wrapped(TAKEN, width))
    return "\n".join(parts)


def needs_title(needs: WidthNeeds) -> str:
    """`Deck shirt, view A, size M: need over all common widths`."""
    words = [needs.pattern.name]
    words += [f"view {needs.view}"] if needs.view else []
    words += [f"size {needs.size}"] if needs.size else []
    words += [f"{needs.kind} lay"] if needs.kind else []
    return f"{', '.join(words)}: need over all common widths"


def need_cells(row: WidthNeed, system: System) -> tuple[str, ...]:
    """One role at one width."""
    return (
        row.role.value,
        show_length(row.width, system, Measure.WIDTH),
        need_words(row.plain, system),
        need_words(row.napped, system),
        lies(row),
        sure(row),
        "" if row.charted is None else show_length(row.charted, system, Measure.NEED),
    )


def need_words(need: Need, system: System) -> str:
    """The length, the range of an estimate, or a dash where it cannot be cut or nobody knows."""
    if need.length is None:
        return "–"
    high = show_length(need.length, system, Measure.NEED)
    if need.likely is None or need.low is None:
        return high
    low = show_length(need.low, system, Measure.NEED)
    unit = high.rpartition(" ")[2]
    return high if low == high else f"{low.removesuffix(unit).strip()}–{high}"


def lies(row: WidthNeed) -> str:
    """How the cloth lies, without and with nap where that is not the same."""
    kinds = [need.lay.kind.value for need in (row.plain, row.napped) if need.lay is not None]
    return " / ".join(dict.fromkeys(kinds))


def sure(row: WidthNeed) -> str:
    """How sure the needs are; of two that differ the less sure one."""
    if row.plain.too_narrow:
        return "too narrow"
    order = list(Sureness)
    return max((row.plain.sureness, row.napped.sureness), key=order.index).value


def needs_json(needs: WidthNeeds) -> dict[str, Any]:
    """`stash pattern need --json`: lengths in millimetres, keys that stay."""
    return {
        "pattern": needs.pattern.name,
        "view": needs.view,
        "size": needs.size,
        "kind": needs.kind.value if needs.kind else None,
        "needs": [
            {
                "role": row.role.value,
                "label_width_mm": millimetres(row.width),
                "without_nap": _need(row.plain),
                "with_nap": _need(row.napped),
                "charted_mm": millimetres(row.charted),
            }
            for row in needs.rows
        ],
    }


def _need(need: Need) -> dict[str, Any]:
    return {**need_json(need), "kind": need.lay.kind.value if need.lay else None}
