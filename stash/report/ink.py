"""Colours for drawings: tints that keep a cloth's colour and stay readable."""

from __future__ import annotations

BLACK, WHITE = "#000000", "#ffffff"

Rgb = tuple[float, float, float]


def tint(colour: str, share: float) -> str:
    """`colour` mixed with white; `share` of it is white, 0-1."""
    red, green, blue = (part + (1 - part) * share for part in _rgb(colour))
    return "#" + "".join(f"{round(part * 255):02x}" for part in (red, green, blue))


def ink_on(ground: str) -> str:
    """Black or white, whichever reads better on `ground`."""
    return max((BLACK, WHITE), key=lambda ink: contrast(ink, ground))


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two sRGB colours, 1-21, as WCAG 2.1 defines it."""
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    """Relative luminance of WCAG 2.1."""
    red, green, blue = (
        part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4
        for part in _rgb(colour)
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _rgb(colour: str) -> Rgb:
    plain = colour.lstrip("#")
    red, green, blue = (int(plain[place : place + 2], 16) / 255 for place in (0, 2, 4))
    return red, green, blue
