"""What every block is put together from: pieces of the drafting families, in millimetres."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.garment.draft.piece import draft_piece
from stash.garment.pattern import Role
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Mapping

    from stash.garment.blocks.body import Body
    from stash.garment.pattern import Piece

Pieces = tuple["Piece", ...]
"""What a block is."""

INCH = 25.4
FLAT_SHOULDER = 0.95
"""Of a shoulder seam, straight across: it slopes by about 18 degrees (common practice)."""
OVER_NAPE = 20.0
"""The shoulder at the neck lies this much above the nape, mm (common practice)."""


def cut(
    family: str,
    name: str,
    mm: Mapping[str, float],
    *,
    copies: int | None = None,
    role: Role = Role.MAIN,
    on_fold: bool | None = None,
) -> Piece:
    """A piece of a family from measures in mm, cut as usual unless it is said otherwise."""
    measures = {key: Length.from_mm(value) for key, value in mm.items()}
    return draft_piece(family, name, measures, copies=copies, role=role, on_fold=on_fold)


def neck_width(body: Body) -> float:
    """Centre to the neck end of the shoulder: a fifth of the neck (Aldrich, from memory)."""
    return body.neck / 5


def across_shoulder(body: Body) -> float:
    """Centre to shoulder tip, straight across."""
    return neck_width(body) + FLAT_SHOULDER * body.shoulder


def hip_and_bust(body: Body) -> float:
    """The larger of the two girths: what hangs past the hip must go round both."""
    return max(body.bust, body.hip)
