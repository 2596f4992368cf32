"""A pattern's pieces and tables as text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.report.columns import table
from stash.units.format_length import Measure, show_length
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.config import System
    from stash.garment.pattern import Pattern, Piece


def pattern_text(pattern: Pattern, system: System, width: int = 80) -> str:
    """Pieces, chart and notions, each as a table if there are any."""
    parts = []
    if pattern.pieces:
        pieces = [_piece(piece, system) for piece in pattern.pieces]
        named = ("Piece", "Size", ">Cut", "How", "Role", ">Along", ">Across")
        parts.append(table(named, pieces, width))
    if pattern.charts:
        rows = [
            (
                row.role.value,
                row.view,
                row.size,
                show_length(row.width, system, Measure.WIDTH),
                show_length(row.amount, system, Measure.NEED),
                "yes" if row.with_nap else "no",
            )
            for row in pattern.charts
        ]
        head = ("Chart for", "View", "Size", ">Width", ">Amount", "With nap")
        parts.append(table(head, rows, width))
    if pattern.notions:
        notions = [(n.name, str(n.amount), n.note) for n in pattern.notions]
        parts.append(table(("Notion", ">How many", "Note"), notions, width))
    return "\n\n".join(("", *parts)) if parts else ""


def _piece(piece: Piece, system: System) -> tuple[str, ...]:
    xs, ys = [x for x, _ in piece.outline], [y for _, y in piece.outline]
    along, across = max(xs) - min(xs), max(ys) - min(ys)
    how = "on the fold" if piece.on_fold else "in pairs" if piece.mirrored else ""
    return (
        piece.name,
        piece.size,
        str(piece.copies),
        how,
        piece.role.value,
        show_length(Length.from_mm(along), system, Measure.WIDTH),
        show_length(Length.from_mm(across * (2 if piece.on_fold else 1)), system, Measure.WIDTH),
    )
