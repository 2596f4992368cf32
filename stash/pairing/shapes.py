"""Pattern pieces as the shapes a lay is made of."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.garment.pattern import Grain
from stash.lay.problem import Shape

if TYPE_CHECKING:
    from collections.abc import Iterable

    from stash.garment.pattern import Piece

TURNS: dict[Grain, tuple[int, ...]] = {
    Grain.LENGTHWISE: (0, 180),
    Grain.CROSSWISE: (90, 270),
    Grain.EITHER: (0, 90, 180, 270),
    Grain.BIAS: (45, 135, 225, 315),
}
"""Angles between a piece's grain line and the cloth's; nap leaves those below 180."""


def shapes_of(pieces: Iterable[Piece], *, meets_print: bool) -> tuple[Shape, ...]:
    """The pieces as shapes, with their match points where there is a print to meet."""
    return tuple(
        Shape(
            *(p.name, p.outline, p.copies, p.on_fold, p.mirrored, TURNS[p.grain]),
            tolerance=p.tolerance,
            match=p.match if meets_print else None,
        )
        for p in pieces
    )
