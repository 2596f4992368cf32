"""The classes the trade sorts knits into by their stretch."""

from __future__ import annotations

STRETCH_CLASSES: tuple[tuple[float, str], ...] = (
    (0, "stable"),
    (25, "moderate"),
    (50, "stretchy"),
    (75, "very stretchy"),
    (100, "super stretchy"),
)
"""Least per cent of stretch across, up to the next class; names after Armstrong, Patternmaking
for Fashion Design (from memory)."""


def growth(stretch: float, recovery: float) -> float:
    """Per cent a cloth stays longer once a stretch is let go (definitions of ASTM D3107).

    Args:
        stretch: Per cent it was stretched by.
        recovery: Per cent of that stretch that springs back.
    """
    return stretch * (100 - recovery) / 100


def stretch_class(percent: float) -> str:
    """The class of a cloth that stretches `percent` (0 or more) across."""
    return next(name for low, name in reversed(STRETCH_CLASSES) if percent >= low)
