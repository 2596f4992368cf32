"""The least wearing ease of a garment: room to move and breathe, beyond the body's own measure."""

from __future__ import annotations

from stash.units.length import Length

LEAST_EASE: dict[str, Length] = {
    "bust": Length.from_inches(3),
    "chest": Length.from_inches(3),
    "waist": Length.from_inches(0.5),
    "hip": Length.from_inches(2),
}
"""By the measure, for woven cloth. Bust 3 to 4 in: New Mexico State University Extension, Guide
C-228, *Pattern Alteration*, Table 1, the same taken for a chest; hips at least 2 to 4 in: Guide
C-209, *Measurements for Fitting Pants*; waist of skirts and trousers 1/2 to 3/4 in: Central
Washington University, costume text, chapter 16."""

NO_EASE = Length(0)
"""Patterns for knits have little or no wearing ease (the same chapter 16)."""
