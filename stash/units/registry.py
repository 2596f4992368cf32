"""Unit words beyond our own few, looked up in pint one word at a time."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

import pint

from stash.errors import BadInputError

_PREFIXES = ("", "micro", "milli", "centi", "deci", "deca", "hecto", "kilo")
_SMALLEST_NM = 1000


@cache
def _registry() -> pint.UnitRegistry[Fraction]:
    # Fractions keep conversions exact; quantities of two registries do not mix, so one only.
    return pint.UnitRegistry(non_int_type=Fraction)


@cache
def nm_per_unit(word: str) -> Fraction:
    """Nanometres in one `word`, a single unit word in lower case.

    Raises:
        BadInputError: no such unit, not a unit of length, or far too small for cloth.
    """
    try:
        names = _registry().parse_unit_name(word)
        # A prefix on anything but the metre ("pin": a pico-inch) is a slip, not a unit.
        known = [p + u for p, u, _ in names if p in _PREFIXES and (not p or u == "meter")]
        nm = Fraction(_registry().Quantity(Fraction(1), known[0]).to("nanometer").magnitude)
    except Exception:  # pint raises a dozen kinds; each means the word is not a length
        nm = Fraction(0)
    if nm < _SMALLEST_NM:
        raise BadInputError(
            f"{word!r} is not a unit of length.",
            "Use mm, cm, m, in, ft or yd, like 2.5 m or 2 1/2 yd.",
        )
    return nm
