"""The pieces found in a drawing, as text: what they are, what was guessed, what is wrong."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from stash.config import System
from stash.geometry.ring import bounds, signed_area
from stash.report.columns import table, wrapped
from stash.units.format_length import Measure, show_length
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from stash.garment.pattern import Piece

MM2_PER_INCH2 = 645.16


class FoundOutline(Protocol):
    """What is shown of an outline that may be a piece."""

    @property
    def number(self) -> int:
        """From 1, in the order of the drawing."""

    @property
    def name(self) -> str:
        """What it is called."""

    @property
    def size(self) -> str:
        """The size it is drawn for."""

    @property
    def piece(self) -> Piece | None:
        """None: it cannot be used."""

    @property
    def guessed(self) -> Sequence[str]:
        """What nobody said."""

    @property
    def wrong(self) -> Sequence[str]:
        """Why it cannot be used."""

    @property
    def line(self) -> Sequence[tuple[float, float]]:
        """As it is drawn, where it cannot be used."""

    @property
    def closed(self) -> bool:
        """Whether that line is."""


def drawn_table(
    found: Sequence[FoundOutline], picked: Collection[int], system: System, width: int = 80
) -> str:
    """One line for each outline: whether it is taken, name, size, cut, grain, extent, area."""
    head = (">No", "", "Piece", "Size", "Cut", "Grain", "Along x across", ">Area")
    lines = [
        (
            str(one.number),
            "!" if one.piece is None else "take" if one.number in picked else "",
            one.name,
            one.size,
            *(piece_cells(one.piece, system) if one.piece else ("", "", "", "")),
        )
        for one in found
    ]
    return table(head, lines, width, keep=2)


def drawn_remarks(
    found: Sequence[FoundOutline], picked: Collection[int], width: int = 80
) -> list[str]:
    """What was guessed and what is wrong, a line for each piece that says something."""
    lines = []
    for one in found:
        if one.wrong:
            lines.append(_line(one, f"cannot be used: {'; '.join(one.wrong)}", width))
        elif one.guessed and one.number in picked:
            lines.append(_line(one, "; ".join(one.guessed), width))
        elif one.guessed:
            lines.append(_line(one, f"not taken: {one.guessed[-1]}", width))
    return lines


def _line(one: FoundOutline, text: str, width: int) -> str:
    return wrapped(f"{one.number} {one.name}: {text}", width, hang=4)


def piece_cells(piece: Piece, system: System) -> tuple[str, str, str, str]:
    """How it is cut, its grain, how long and wide it is, and its area."""
    left, low, right, high = bounds(piece.outline)
    along, across = (
        show_length(Length.from_mm(mm), system, Measure.EXTENT) for mm in (right - left, high - low)
    )
    fold = " on fold" if piece.on_fold else "" if piece.mirrored else " alike"
    return f"{piece.copies}{fold}", piece.grain.value, f"{along} x {across}", _area(piece, system)


def _area(piece: Piece, system: System) -> str:
    mm2 = abs(signed_area(piece.outline))
    if system is System.IMPERIAL:
        return f"{mm2 / MM2_PER_INCH2:.0f} in²"
    return f"{mm2 / 100:.0f} cm²"
