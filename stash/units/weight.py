"""Weights of cloth, in grams per square metre."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING

from stash.config import System
from stash.errors import BadInputError
from stash.units.length import NM_PER_INCH, NM_PER_YARD
from stash.units.number import NUMBER, number_value, plain_text

if TYPE_CHECKING:
    from stash.units.length import Length

GRAMS_PER_OUNCE = Fraction("28.349523125")
"""International avoirdupois ounce, exact."""
SQUARE_METRES_PER_YARD = Fraction(NM_PER_YARD, 10**9) ** 2
GSM_PER_OUNCE = GRAMS_PER_OUNCE / SQUARE_METRES_PER_YARD
"""One ounce per square yard is 33.9057… g/m²."""
GSM_PER_MOMME = (16 * GRAMS_PER_OUNCE) / (45 * 100 * 36 * Fraction(NM_PER_INCH, 10**9) ** 2)
"""The momme of silk: pounds in a piece of 45 inches by 100 yards, 4.3399… g/m²."""

_PER_AREA = {
    "gsm": Fraction(1),
    "g/m2": Fraction(1),
    "g/sqm": Fraction(1),
    "gramspersquaremetre": Fraction(1),
    "gramspersquaremeter": Fraction(1),
    "oz": GSM_PER_OUNCE,
    "oz/yd2": GSM_PER_OUNCE,
    "oz/sqyd": GSM_PER_OUNCE,
    "ozpersquareyard": GSM_PER_OUNCE,
    "momme": GSM_PER_MOMME,
    "mommes": GSM_PER_MOMME,
}
_PER_LENGTH = {
    "g/m": Fraction(1),
    "g/lm": Fraction(1),
    "g/linearm": Fraction(1),
    "g/runningm": Fraction(1),
    "oz/linearyd": GRAMS_PER_OUNCE / Fraction(NM_PER_YARD, 10**9),
    "oz/runningyd": GRAMS_PER_OUNCE / Fraction(NM_PER_YARD, 10**9),
}
"""Grams per running metre in one of each."""
_HINT = "Type 240 gsm, 8 oz or 19 momme; with the width known also 450 g/m."
_HEAVIEST = 5000


def parse_weight(text: str, width: Length | None = None) -> float:
    """A weight in g/m²: `240 gsm`, `240 g/m²`, `8 oz`, `8 oz/yd²`, `19 momme`, `450 g/m`.

    Ounces alone are per square yard, as the trade speaks. Weights per running metre or yard
    are divided by `width`.

    Raises:
        BadInputError: anything else, or a running weight and no width.
    """
    plain = plain_text(text.replace("²", "2").replace("^2", "2"))
    found = re.fullmatch(rf"({NUMBER})\s*(\D.*)", plain)
    if found is None:
        raise BadInputError(f"{text.strip()!r} is not a weight of cloth.", _HINT)
    unit = re.sub(r"[\s.]", "", found[2])
    amount = number_value(found[1])
    if unit in _PER_AREA:
        weight = amount * _PER_AREA[unit]
    elif unit in _PER_LENGTH:
        weight = amount * _PER_LENGTH[unit] / _metres(width, text)
    else:
        raise _unknown(text, found[1], unit)
    if not 0 < weight <= _HEAVIEST:
        raise BadInputError(f"{text.strip()!r} is no weight a cloth can have.", _HINT)
    return float(weight)


def show_weight(gsm: float, system: System) -> str:
    """`240 g/m²`, or `7.1 oz/yd²`."""
    if system is System.IMPERIAL:
        return f"{gsm / float(GSM_PER_OUNCE):.1f} oz/yd²"
    return f"{gsm:.0f} g/m²"


def _metres(width: Length | None, text: str) -> Fraction:
    if width is None or width.nm <= 0:
        raise BadInputError(
            f"{text.strip()!r} is a weight per running length, and the width is not known.",
            "Give the width first, or type the weight as 240 gsm.",
        )
    return Fraction(width.nm, 10**9)


def _unknown(text: str, number: str, unit: str) -> BadInputError:
    said = text.strip()
    if unit in ("mm", "m/m"):
        return BadInputError(f"{said!r} may be momme or millimetres.", f"Type {number} momme.")
    if unit in ("g", "gr", "gram", "grams"):
        return BadInputError(
            f"{said!r} does not say per what.", f"Type {number} gsm, or {number} g/m per metre."
        )
    return BadInputError(f"{said!r} is not a weight of cloth.", _HINT)
