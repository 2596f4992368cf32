"""Saying that a piece is wider than the cloth, in the units of the person."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.config import System
from stash.units.format_length import Measure, show_length
from stash.units.length import NM_PER_INCH, Length

if TYPE_CHECKING:
    from stash.lay.errors import TooNarrowError

EIGHTH_INCH = Length(NM_PER_INCH // 8)


def narrow_words(error: TooNarrowError, system: System) -> str:
    """The sentence: the piece rounded up, the cloth down, so that they never look alike."""
    if system is System.METRIC:
        return error.message
    wants = Length.from_mm(error.across).ceil_to(EIGHTH_INCH)
    has = -(-Length.from_mm(error.width)).ceil_to(EIGHTH_INCH)
    shown = [show_length(length, system, Measure.WIDTH) for length in (wants, has)]
    cloth = "one of the two layers" if error.doubled else "the cloth"
    return f"{error.piece} is {shown[0]} across and {cloth} only {shown[1]}."
