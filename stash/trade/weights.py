"""Weight classes. No single standard exists and published sets disagree, so these are data."""

from __future__ import annotations

MEDIUM_FROM = 136.0
HEAVY_FROM = 203.0
"""g/m²: 4 and 6 oz/yd² for basic wovens, after Kadolph, Textiles (from memory)."""


def weight_class(gsm: float) -> str:
    """`light`, `medium` or `heavy`."""
    if gsm < MEDIUM_FROM:
        return "light"
    return "medium" if gsm <= HEAVY_FROM else "heavy"
