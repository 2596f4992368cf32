"""Stretch, growth and recovery, and the classes the trade sorts knits into."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class StretchClass:
    """Cloth that stretches at least `low` per cent across, up to the next class."""

    low: float
    name: str
    garments: str


STRETCH_CLASSES: tuple[StretchClass, ...] = (
    StretchClass(0, "stable", "jackets, structured dresses, sweatshirts"),
    StretchClass(25, "moderate", "T-shirts, pull-on trousers"),
    StretchClass(50, "stretchy", "fitted tops, turtlenecks, dresses"),
    StretchClass(75, "very stretchy", "leggings and active wear"),
    StretchClass(100, "super stretchy", "swimwear, dance wear, rib bands"),
)
"""The trade's classes; names after Armstrong, Patternmaking for Fashion Design (from memory)."""


def stretch_percent(relaxed: float, stretched: float) -> float:
    """(stretched - relaxed) / relaxed in per cent; any one unit, `relaxed` > 0."""
    return (stretched - relaxed) / relaxed * 100


def growth_percent(relaxed: float, rested: float) -> float:
    """How much longer it stays after it was stretched and let go, in per cent (ASTM D3107)."""
    return (rested - relaxed) / relaxed * 100


def recovery_percent(relaxed: float, stretched: float, rested: float) -> float:
    """The share of the stretch that goes back, in per cent; `stretched` > `relaxed`."""
    return (stretched - rested) / (stretched - relaxed) * 100


def stretch_class(percent: float) -> StretchClass:
    """The class of a cloth that stretches `percent` (0 or more) across."""
    return [c for c in STRETCH_CLASSES if percent >= c.low][-1]
