"""A need, what there is, and the gap between them, so that the three agree as shown."""

from __future__ import annotations

from dataclasses import dataclass

from stash.config import System
from stash.units.format_length import CENTIMETRE, EIGHTH_YARD, Measure, show_length
from stash.units.length import NM_PER_INCH, NM_PER_MM, Length

_USUAL = {System.METRIC: CENTIMETRE.nm, System.IMPERIAL: EIGHTH_YARD.nm}
_FINE = {System.METRIC: NM_PER_MM, System.IMPERIAL: NM_PER_INCH // 8}
_FINE_MEASURE = {System.METRIC: Measure.SMALL, System.IMPERIAL: Measure.WIDTH}


@dataclass(frozen=True, slots=True)
class Enough:
    """Three texts: what is needed, what there is, and the gap without its sign."""

    needs: str
    holds: str
    gap: str
    short: bool

    @property
    def words(self) -> str:
        """`0.39 m to spare` or `0.07 m short`."""
        return f"{self.gap} {'short' if self.short else 'to spare'}"

    @property
    def signed(self) -> str:
        """The gap for a column of figures: below zero when short."""
        return f"-{self.gap}" if self.short else self.gap


def show_enough(need: Length, have: Length, system: System) -> Enough:
    """`need` rounded up, `have` rounded down, and the difference of the two as they are shown.

    So a spare is never shown larger than it is, nor what is short smaller. A gap under two
    of the usual steps would vanish in the rounding; it is told in millimetres or eighths of
    an inch.
    """
    fine = abs(have.nm - need.nm) < 2 * _USUAL[system]
    step = _FINE[system] if fine else _USUAL[system]
    needed, held = -(-need.nm // step), have.nm // step
    short = have < need
    if not short:
        held = max(held, needed)  # Both lie within one fine step.
    measure = _FINE_MEASURE[system] if fine else Measure.AMOUNT
    needs, holds, gap = (
        show_length(Length(steps * step), system, measure)
        for steps in (needed, held, abs(held - needed))
    )
    return Enough(needs, holds, gap, short)
