"""Colour: from sRGB to CIELAB, and how different two shades look."""

from __future__ import annotations

import re
from math import atan2, cos, degrees, exp, hypot, radians, sin, sqrt

from stash.errors import BadInputError

Lab = tuple[float, float, float]

_TO_XYZ = (
    (0.4124, 0.3576, 0.1805),
    (0.2126, 0.7152, 0.0722),
    (0.0193, 0.1192, 0.9505),
)
"""IEC 61966-2-1, linear sRGB to XYZ."""
_WHITE = (0.95047, 1.0, 1.08883)
"""D65, 2 degrees."""
NEAR = 5.0
"""CIEDE2000 from which two shades count as different colours, not as a poor match: usual in
shade matching (from memory)."""


def parse_colour(text: str) -> str:
    """A colour as `#rrggbb`; the sign may be left out.

    Raises:
        BadInputError: not six hexadecimal digits.
    """
    found = re.fullmatch(r"#?([0-9a-fA-F]{6})", text.strip())
    if found is None:
        raise BadInputError(
            f"{text.strip()[:20]!r} is not a colour.", "Type six hexadecimal digits: #1f2948."
        )
    return f"#{found[1].lower()}"


def lab_of(colour: str) -> Lab:
    """CIELAB (D65) of an sRGB colour `#rrggbb`."""
    digits = parse_colour(colour)
    linear = [_linear(int(digits[at : at + 2], 16) / 255) for at in (1, 3, 5)]
    x, y, z = (
        _root(sum(c * v for c, v in zip(row, linear, strict=True)) / white)
        for row, white in zip(_TO_XYZ, _WHITE, strict=True)
    )
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def shade_difference(first: Lab, second: Lab) -> float:
    """CIEDE2000 colour difference, all weights 1.

    After Sharma, Wu and Dalal, Color Research & Application 30(1), 2005, 21-30.
    """
    (l1, a1, b1), (l2, a2, b2) = first, second
    greyness = _greyness((hypot(a1, b1) + hypot(a2, b2)) / 2)
    a1, a2 = a1 * (1 + greyness / 2), a2 * (1 + greyness / 2)
    c1, c2 = hypot(a1, b1), hypot(a2, b2)
    h1, h2 = degrees(atan2(b1, a1)) % 360, degrees(atan2(b2, a2)) % 360
    turn, mean_hue = _hues(h1, h2, grey=c1 * c2 == 0)
    d_hue = 2 * sqrt(c1 * c2) * sin(radians(turn) / 2)
    mean_l, mean_c = (l1 + l2) / 2, (c1 + c2) / 2
    lightness = (l2 - l1) / (1 + 0.015 * (mean_l - 50) ** 2 / sqrt(20 + (mean_l - 50) ** 2))
    chroma = (c2 - c1) / (1 + 0.045 * mean_c)
    hue = d_hue / (1 + 0.015 * mean_c * _hue_weight(mean_hue))
    angle = radians(60 * exp(-(((mean_hue - 275) / 25) ** 2)))
    rotation = -sin(angle) * 2 * (1 - _greyness(mean_c))
    return sqrt(lightness**2 + chroma**2 + hue**2 + rotation * chroma * hue)


def _linear(value: float) -> float:
    return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4


def _root(t: float) -> float:
    edge = 6 / 29
    return float(t ** (1 / 3)) if t > edge**3 else t / (3 * edge**2) + 4 / 29


def _greyness(chroma: float) -> float:
    """1 - sqrt(c^7 / (c^7 + 25^7)): near 1 for greys, near 0 for vivid colours."""
    return 1 - sqrt(chroma**7 / (chroma**7 + 25**7))


def _hues(h1: float, h2: float, *, grey: bool) -> tuple[float, float]:
    """The turn from one hue to the other and their mean, in degrees; a grey has no hue."""
    if grey:
        return 0.0, h1 + h2
    turn = h2 - h1
    if abs(turn) <= 180:
        return turn, (h1 + h2) / 2
    return turn - 360 if turn > 0 else turn + 360, ((h1 + h2 + 360) / 2) % 360


def _hue_weight(hue: float) -> float:
    return (
        1
        - 0.17 * cos(radians(hue - 30))
        + 0.24 * cos(radians(2 * hue))
        + 0.32 * cos(radians(3 * hue + 6))
        - 0.20 * cos(radians(4 * hue - 63))
    )
