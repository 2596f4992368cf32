"""Hand: from measured stiffness and drape to the five steps of the fingers."""

from __future__ import annotations

import math
import re

from stash.errors import BadInputError
from stash.units.number import read_number

_BENDING_STEPS_MM = (14.0, 18.0, 23.0, 30.0)
_DRAPE_STEPS = (30.0, 45.0, 60.0, 75.0)
"""Where one step of hand ends and the next begins: a rule of our own, set between the usual
drape coefficients of chiffon 15-35, jersey 20-40, lawn 40-60, suiting 45-60, poplin 55-75 and
denim 75-95 % (from memory)."""

SUPPORT_DISC_CM2 = math.pi * 9**2
SPECIMEN_CM2 = math.pi * 15**2
"""Cusick's drape test, ISO 9073-9: support disc 18 cm, specimen 30 cm across."""


def hand_from_bending(bending_length: float) -> int:
    """Hand 1 (fluid) to 5 (crisp) from a bending length in mm (ASTM D1388 cantilever)."""
    return 1 + sum(bending_length >= step for step in _BENDING_STEPS_MM)


def hand_from_drape(coefficient: float) -> int:
    """Hand 1 (fluid) to 5 (crisp) from a drape coefficient in per cent."""
    return 1 + sum(coefficient >= step for step in _DRAPE_STEPS)


def drape_coefficient(shadow_cm2: float) -> float:
    """Per cent of the free ring that the draped specimen's shadow covers; higher is stiffer."""
    return (shadow_cm2 - SUPPORT_DISC_CM2) / (SPECIMEN_CM2 - SUPPORT_DISC_CM2) * 100


def parse_drape(text: str) -> float:
    """A drape coefficient in per cent: `45`, `45 %`, or the shadow it comes from, `452 cm2`.

    Raises:
        BadInputError: anything else; not from 0 to 100 %.
    """
    hint = "Type the coefficient, 45, or the area of the shadow, 452 cm2."
    found = re.fullmatch(r"(.*?)\s*(%|cm2|cm²)?", text.strip().lower())
    number = float(read_number(found[1] if found else text))
    shadow = found is not None and (found[2] or "%") != "%"
    percent = round(drape_coefficient(number), 2) if shadow else number
    if not 0 <= percent <= 100:
        raise BadInputError(f"{text.strip()!r} is no drape coefficient.", hint)
    return percent


def rigidity_mg_cm(gsm: float, bending_length: float) -> float:
    """Flexural rigidity in mg·cm: 0.1 W c³ with W in g/m² and c in cm (BS 3356, from memory).

    Args:
        gsm: Weight in g/m².
        bending_length: Millimetres.
    """
    return 0.1 * gsm * (bending_length / 10) ** 3
