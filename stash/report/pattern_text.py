"""A pattern's pieces and tables as text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.garment.measures import by_name
from stash.garment.pattern import Grain, Role
from stash.garment.size_pieces import lacking_words
from stash.geometry.ring import across, bounds
from stash.pairing.case import asks_of
from stash.report.ask_words import ask_words
from stash.report.columns import table
from stash.units.format_length import Measure, show_length
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from stash.config import System
    from stash.garment.pattern import Pattern, Piece


def pattern_text(pattern: Pattern, system: System, width: int = 80) -> str:
    """Sizes, pieces, widest piece, chart, asks and notions, each if there are any."""
    parts = []
    for title, which in (("Body", "body"), ("Finished", "finished")):
        if any(getattr(size, which) for size in pattern.sizes):
            parts.append(_sizes(pattern, title, which, system, width))
    if pattern.pieces:
        parts.append(_pieces(pattern, system, width))
        parts.append("\n".join((_widest(pattern, system), *_lacking(pattern))))
    if pattern.charts:
        rows = [
            (
                row.role.value,
                row.view,
                row.size,
                show_length(row.width, system, Measure.WIDTH),
                show_length(row.amount, system, Measure.NEED),
                "yes" if row.with_nap else "no",
                "rounded" if row.rounded else "",
            )
            for row in pattern.charts
        ]
        head = ("Chart for", "View", "Size", ">Width", ">Amount", "With nap", "In print")
        parts.append(table(head, rows, width))
    parts.append(table(("Role", "Asks of its cloth"), _asks(pattern, system), width, keep=0))
    if pattern.notions:
        notions = [
            (
                n.name,
                n.view,
                n.size,
                str(n.amount),
                _length(n.length, system, Measure.EXTENT),
                n.note,
            )
            for n in pattern.notions
        ]
        small = ("Notion", "View", "Size", ">How many", ">Each", "Note")
        parts.append(table(small, notions, width))
    return "\n\n".join(("", *parts))


def how_cut(piece: Piece) -> str:
    """`on the fold`, `in pairs`, or nothing: a single piece is no pair."""
    if piece.on_fold:
        return "on the fold"
    return "in pairs" if piece.mirrored and piece.copies > 1 else ""


def _pieces(pattern: Pattern, system: System, width: int) -> str:
    """A row for each piece; their views only where one is not in every view."""
    head: tuple[str, ...] = ("Piece", "Size", ">Cut", "How", "Role", ">Along", ">Across")
    rows = [_piece(piece, system) for piece in pattern.pieces]
    if any(piece.views for piece in pattern.pieces):
        head = (*head, "Views")
        rows = [
            (*row, ", ".join(piece.views)) for row, piece in zip(rows, pattern.pieces, strict=True)
        ]
    return table(head, rows, width)


def _sizes(pattern: Pattern, title: str, which: str, system: System, width: int) -> str:
    """A row for each size, a column for each measure of the body or of the garment."""
    measures = [by_name(getattr(size, which)) for size in pattern.sizes]
    names = list(dict.fromkeys(name for each in measures for name in each))
    rows = [
        (size.label, *(_length(each.get(name, ZERO), system) for name in names))
        for size, each in zip(pattern.sizes, measures, strict=True)
    ]
    return table((title, *(f">{name}" for name in names)), rows, width, keep=0)


def _length(length: Length, system: System, kind: Measure = Measure.WIDTH) -> str:
    return show_length(length, system, kind) if length else ""


def _widest(pattern: Pattern, system: System) -> str:
    """Cloth narrower than this piece is too narrow, whatever its length."""
    wide = {piece: _across(piece) for piece in pattern.pieces if piece.grain is Grain.LENGTHWISE}
    if not wide:
        return "No piece is bound to the lengthwise grain."
    piece = max(wide, key=lambda one: wide[one])
    at = show_length(Length.from_mm(wide[piece]), system, Measure.EXTENT)
    size = f" in size {piece.size}" if piece.size else ""
    return f"Widest piece: {piece.name}{size}, {at} across the grain"


def _lacking(pattern: Pattern) -> list[str]:
    """The sizes that cannot be laid out because some of their pieces are drawn, but not all."""
    found = {
        f"It has no {lacking_words(pattern, view, size.label)}."
        for size in pattern.sizes
        for view in pattern.views or ("",)
        if pattern.drawn_for(view, size.label) and pattern.lacking(view, size.label)
    }
    return sorted(found)


def _across(piece: Piece) -> float:
    """Millimetres across the grain, opened out."""
    return across(piece.outline) * (2 if piece.on_fold else 1)


def _asks(pattern: Pattern, system: System) -> list[tuple[str, str]]:
    """Each role with what it asks, or what its kind usually does."""
    own = {asks.role for asks in pattern.asks}
    roles = {Role.MAIN, *own, *(p.role for p in pattern.pieces), *(c.role for c in pattern.charts)}
    return [
        (
            role.value,
            ("" if role in own else "usually ")
            + (ask_words(asks_of(pattern, role), system) or "anything"),
        )
        for role in Role
        if role in roles
    ]


def _piece(piece: Piece, system: System) -> tuple[str, ...]:
    left, _, right, _ = bounds(piece.outline)
    along, across = right - left, _across(piece)
    return (
        piece.name,
        piece.size,
        str(piece.copies),
        how_cut(piece),
        piece.role.value,
        show_length(Length.from_mm(along), system, Measure.EXTENT),
        show_length(Length.from_mm(across), system, Measure.EXTENT),
    )
