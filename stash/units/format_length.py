"""Lengths as text, rounded the safe way for what they say."""

from __future__ import annotations

from enum import StrEnum
from fractions import Fraction

from stash.config import System
from stash.units.length import NM_PER_INCH, NM_PER_MM, NM_PER_YARD, Length

EIGHTH_YARD = Length(NM_PER_YARD // 8)
_EIGHTH_INCH = NM_PER_INCH // 8
CENTIMETRE = Length(10 * NM_PER_MM)
_SHOP_STEP = {System.METRIC: Length(100 * NM_PER_MM), System.IMPERIAL: EIGHTH_YARD}


class Measure(StrEnum):
    """What a length says, and so which way it may be rounded."""

    AMOUNT = "amount"
    """A length of cloth, to the nearest step."""
    BUY = "buy"
    """To ask for in the shop: up to what the shop cuts."""
    NEED = "need"
    """Required: up."""
    SPARE = "spare"
    """There is so much: down; what is short, below zero, looks no smaller than it is."""
    TAKEN = "taken"
    """Held or cut off a cloth: up."""
    LEAST = "least"
    """A sum of cloths, a bound: at least so much, to the usual step."""
    WIDTH = "width"
    USABLE = "usable"
    """Of a cloth, to lay pieces on: down."""
    EXTENT = "extent"
    """Of a piece: up."""
    SMALL = "small"
    """Seam allowances, repeats, flaws."""
    EXACT = "exact"
    """For a form: reads back as the very same length."""


_HAIR = 10_000
"""Nanometres no piece is drawn to."""
_ACROSS = (Measure.WIDTH, Measure.USABLE, Measure.EXTENT)
_UP = (Measure.BUY, Measure.NEED, Measure.TAKEN, Measure.EXTENT)
_DOWN = (Measure.SPARE, Measure.LEAST, Measure.USABLE)


def show_length(
    length: Length, system: System, kind: Measure = Measure.AMOUNT, step: Length | None = None
) -> str:
    """`length` as text in the units of `system`; `step` is the shop's, for `Measure.BUY`.

    Amounts print in eighths of a yard or in metres to the centimetre, widths in eighths of an
    inch or in centimetres, small lengths in sixteenths of an inch or in millimetres. An eighth
    of a yard is too coarse for the cloth that is there: it prints in eighths of an inch unless
    it is a whole number of eighths of a yard.
    """
    if kind is Measure.EXACT:
        return _exact(length, system)
    if kind is Measure.BUY:
        length = length.ceil_to(step or _SHOP_STEP[system])
    if kind is Measure.SMALL:
        if system is System.IMPERIAL:
            return _fraction(_rounded(length, NM_PER_INCH // 16, kind), 16, "in")
        return f"{_rounded(length, NM_PER_MM, kind)} mm"
    if kind in _ACROSS:
        if system is System.IMPERIAL:
            return _fraction(_rounded(length, _EIGHTH_INCH, kind), 8, "in")
        return f"{_rounded(length, CENTIMETRE.nm, kind)} cm"
    if system is System.IMPERIAL and kind in (Measure.SPARE, Measure.TAKEN):
        return _taped(_rounded(length, _EIGHTH_INCH, kind))
    if system is System.IMPERIAL:
        return _fraction(_rounded(length, EIGHTH_YARD.nm, kind), 8, "yd")
    return _decimal(Fraction(_rounded(length, CENTIMETRE.nm, kind), 100), 2) + " m"


def _rounded(length: Length, step: int, kind: Measure) -> int:
    """Whole steps in `length`, rounded as `kind` asks."""
    if kind is Measure.EXTENT:  # a drawing in inches gives 254.000001 mm
        length = Length(length.nm - _HAIR)
    if kind in _UP:
        return -(-length.nm // step)
    if kind in _DOWN:
        return length.nm // step
    return round(Fraction(length.nm, step))


def _taped(eighths: int) -> str:
    """Eighths of an inch as yards, if it is a usual cut, else as inches."""
    yards, rest = divmod(eighths, EIGHTH_YARD.nm // _EIGHTH_INCH)
    return _fraction(eighths, 8, "in") if rest else _fraction(yards, 8, "yd")


def _fraction(parts: int, under: int, unit: str) -> str:
    """`parts` of 1/`under` as a mixed number: 21 eighths are `2 5/8`."""
    sign = "-" if parts < 0 else ""
    whole, rest = divmod(abs(parts), under)
    fraction = Fraction(rest, under)
    words = [str(whole)] if whole or not rest else []
    if rest:
        words.append(f"{fraction.numerator}/{fraction.denominator}")
    return f"{sign}{' '.join(words)} {unit}"


def _decimal(value: Fraction, places: int) -> str:
    """`value` with exactly `places` decimals; it must have no more."""
    sign = "-" if value < 0 else ""
    digits = f"{abs(value.numerator) * 10**places // value.denominator:0{places + 1}d}"
    return f"{sign}{digits[:-places]}.{digits[-places:]}"


def _exact(length: Length, system: System) -> str:
    """The plainest text that loses nothing; millimetres when inches would."""
    if system is System.IMPERIAL:
        if length.nm % EIGHTH_YARD.nm == 0:
            return _fraction(length.nm // EIGHTH_YARD.nm, 8, "yd")
        if length.nm % (NM_PER_INCH // 64) == 0:
            return _fraction(length.nm // (NM_PER_INCH // 64), 64, "in")
    if system is System.METRIC and abs(length.nm) >= 2000 * NM_PER_MM:
        return _trimmed(Fraction(length.nm, 1000 * NM_PER_MM), 9) + " m"
    return _trimmed(Fraction(length.nm, 10 * NM_PER_MM), 7) + " cm"


def _trimmed(value: Fraction, places: int) -> str:
    return _decimal(value, places).rstrip("0").rstrip(".")
