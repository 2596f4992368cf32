"""One part of a pattern in a title and a line of words, in the person's units."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.garment.pattern import ChartRow, Grain, Notion, Piece, Role, Size
from stash.geometry.ring import bounds
from stash.report.ask_words import ask_words
from stash.report.pattern_text import how_cut
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
            return titled(part.name, part.size), _piece(part, system)
        case Size():
            said = (("body", part.body), ("finished", part.finished))
            told = [f"{what}: {r.show_measures(m, context)}" for what, m in said if m]
            return part.label, "; ".join(told).replace("_", " ") or "no measures"
        case ChartRow():
            return _chart(part, system)
        case Notion():
            return titled(part.name, part.size), _notion(part, system)
    return part.role.value, ask_words(part, system) or "anything"


def titled(name: str, size: str) -> str:
    """`front, size 42`."""
    return f"{name}, size {size}" if size else name


def replaced_words(before: Pattern, now: Pattern, system: System) -> str:
    """What of `before` gave way to what was just kept; empty: nothing did."""
    gone = [
        f"piece {titled(piece.name, piece.size)} ({_piece(piece, system)})"
        for piece in before.pieces
        if piece not in now.pieces
    ]
    rows = [_chart(row, system) for row in before.charts if row not in now.charts]
    gone += [f"chart row {title} ({words})" for title, words in rows]
    gone += [
        f"notion {titled(notion.name, notion.size)} ({_notion(notion, system)})"
        for notion in before.notions
        if notion not in now.notions
    ]
    gone += _lost_measures(before, now, system)
    if not gone:
        return ""
    more = f" and {len(gone) - NAMED} more" if len(gone) > NAMED else ""
    return f"This replaced {', '.join(gone[:NAMED])}{more}."


def _lost_measures(before: Pattern, now: Pattern, system: System) -> list[str]:
    """`size 40 (body hip girth = 100 cm)`: measures of a size that are gone or are others now."""
    after = {size.label: size for size in now.sizes}
    gone = []
    for size in before.sizes:
        kept = after.get(size.label, size)
        sides = (("body", size.body, kept.body), ("finished", size.finished, kept.finished))
        told = [
            f"{side} {name} = {show_length(length, system, Measure.WIDTH)}".replace("_", " ")
            for side, had, has in sides
            for name, length in had
            if (name, length) not in has
        ]
        if told:
            gone.append(f"size {size.label} ({', '.join(told)})")
    return gone


def size_words(piece: Piece, system: System) -> str:
    """`107 cm x 31 cm`: along the grain and across, opened out."""
    left, low, right, high = bounds(piece.outline)
    across = (high - low) * (2 if piece.on_fold else 1)
    along = show_length(Length.from_mm(right - left), system, Measure.EXTENT)
    wide = show_length(Length.from_mm(across), system, Measure.EXTENT)
    return f"{along} x {wide}{' opened out' if piece.on_fold else ''}"


def _piece(piece: Piece, system: System) -> str:
    more = [
        f"cut {piece.copies} {how_cut(piece)}".rstrip(),
        f"view{'s' * (len(piece.views) > 1)} {', '.join(piece.views)}" if piece.views else "",
        size_words(piece, system),
        "" if piece.role is Role.MAIN else piece.role.value,
        "" if piece.grain is Grain.LENGTHWISE else f"grain {piece.grain.value}",
        f"from {piece.family}" if piece.family else "drawn",
    ]
    return ", ".join(filter(None, more))


def _notion(notion: Notion, system: System) -> str:
    each = f"{show_length(notion.length, system, Measure.EXTENT)} each" if notion.length else ""
    return ", ".join(filter(None, (f"{notion.amount}", each, notion.view, notion.note)))


def _chart(row: ChartRow, system: System) -> tuple[str, str]:
    where = [row.size, row.view and f"view {row.view}", row.role.value]
    amount = show_length(row.amount, system, Measure.NEED)
    wide = show_length(row.width, system, Measure.WIDTH)
    nap = "with nap" if row.with_nap else "without nap"
    rounded = ", rounded in print" if row.rounded else ""
    return ", ".join(filter(None, where)), f"{amount} of {wide}, {nap}{rounded}"
