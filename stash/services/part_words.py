"""One part of a pattern in a title and a line of words, in the person's units."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.garment.pattern import ChartRow, Grain, Notion, Piece, Role, Size
from stash.geometry.ring import bounds
from stash.report.ask_words import ask_words
from stash.services import readers as r
from stash.units.format_length import Measure, show_length
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.config import System
    from stash.garment.pattern import Asks, Pattern
    from stash.services.fields import Context

NAMED = 3
"""So many that gave way are told in full."""


def part_words(part: Piece | Size | ChartRow | Asks | Notion, context: Context) -> tuple[str, str]:
    """What a part is called, and what it says."""
    system = context.settings.system
    match part:
        case Piece():
            return _titled(part.name, part.size), _piece(part, system)
        case Size():
            said = (("body", part.body), ("finished", part.finished))
            told = [f"{what}: {r.show_measures(m, context)}" for what, m in said if m]
            return part.label, "; ".join(told).replace("_", " ") or "no measures"
        case ChartRow():
            return _chart(part, system)
        case Notion():
            length = show_length(part.length, system, Measure.WIDTH) if part.length else ""
            words = [f"{part.amount}", f"{length} each" if length else "", part.view, part.note]
            return _titled(part.name, part.size), ", ".join(filter(None, words))
    return part.role.value, ask_words(part, system) or "anything"


def _titled(name: str, size: str) -> str:
    return f"{name}, size {size}" if size else name


def replaced_words(before: Pattern, now: Pattern, system: System) -> str:
    """Pieces and chart rows of `before` that gave way to those just kept; empty: none did."""
    gone = [
        f"piece {_titled(piece.name, piece.size)} ({_piece(piece, system)})"
        for piece in before.pieces
        if piece not in now.pieces
    ]
    rows = [_chart(row, system) for row in before.charts if row not in now.charts]
    gone += [f"chart row {title} ({words})" for title, words in rows]
    if not gone:
        return ""
    more = f" and {len(gone) - NAMED} more" if len(gone) > NAMED else ""
    return f"This replaced {', '.join(gone[:NAMED])}{more}."


def size_words(piece: Piece, system: System) -> str:
    """`107 cm x 31 cm`: along the grain and across, opened out."""
    left, low, right, high = bounds(piece.outline)
    across = (high - low) * (2 if piece.on_fold else 1)
    along = show_length(Length.from_mm(right - left), system, Measure.WIDTH)
    wide = show_length(Length.from_mm(across), system, Measure.WIDTH)
    return f"{along} x {wide}{' opened out' if piece.on_fold else ''}"


def _piece(piece: Piece, system: System) -> str:
    paired = piece.mirrored and piece.copies > 1
    how = " on the fold" if piece.on_fold else " in pairs" if paired else ""
    more = [
        f"cut {piece.copies}{how}",
        size_words(piece, system),
        "" if piece.role is Role.MAIN else piece.role.value,
        "" if piece.grain is Grain.LENGTHWISE else f"grain {piece.grain.value}",
        f"from {piece.family}" if piece.family else "drawn",
    ]
    return ", ".join(filter(None, more))


def _chart(row: ChartRow, system: System) -> tuple[str, str]:
    where = [row.size, row.view and f"view {row.view}", row.role.value]
    amount = show_length(row.amount, system, Measure.NEED)
    wide = show_length(row.width, system, Measure.WIDTH)
    nap = "with nap" if row.with_nap else "without nap"
    rounded = ", rounded in print" if row.rounded else ""
    return ", ".join(filter(None, where)), f"{amount} of {wide}, {nap}{rounded}"
