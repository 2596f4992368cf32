"""Lengths as people write them, read exactly: a sum of numbers with units."""

from __future__ import annotations

import re
from fractions import Fraction

from stash.errors import BadInputError
from stash.units.length import NM_PER_INCH, NM_PER_MM, NM_PER_YARD, Length
from stash.units.number import NUMBER, number_value, plain_text

LONGEST_CLOTH = Length(10**13)
"""10 km; more is a slip of the fingers."""

_WORDS: dict[int, tuple[str, ...]] = {
    NM_PER_MM: ("mm", "millimetre", "millimetres", "millimeter", "millimeters"),
    10 * NM_PER_MM: ("cm", "cms", "centimetre", "centimetres", "centimeter", "centimeters"),
    1000 * NM_PER_MM: ("m", "metre", "metres", "meter", "meters", "mtr", "mtrs"),
    NM_PER_INCH: ("in", "ins", "inch", "inches", '"', "''"),
    12 * NM_PER_INCH: ("ft", "foot", "feet", "'"),
    NM_PER_YARD: ("yd", "yds", "yard", "yards"),
}
_NM = {word: nm for nm, words in _WORDS.items() for word in words}

UNIT = r"(?:[^\W\d_]+\.?|''|['\"])"
"""A unit word or quote mark in plain text; a regular expression without groups."""

_TERM = re.compile(rf"\s*({NUMBER})\s*({UNIT})")
_RANGE = re.compile(rf"({NUMBER})\s*({UNIT}?)\s*([/–—-]|\bto\b)\s*({NUMBER})\s*({UNIT})?")
_HINT = "Type a number and a unit, like 2.5 m, 140 cm, 2 1/2 yd or 60 in."


def parse_length(text: str, default_unit: str | None = None) -> Length:
    """A length such as `2 1/2 yd`, `2½ yd`, `2 yd 12 in`, `5'3"`, `60"`, `1,5 m` or `140cm`.

    A number alone is read in `default_unit`. Words this parser does not know are looked up
    in the unit registry, so `1 furlong` is understood too. Rounded to the nearest nanometre.

    Raises:
        BadInputError: anything else; a negative length; more than 10 km.
    """
    plain = plain_text(text)
    if plain[0] in "-−":
        raise BadInputError(f"{text.strip()!r} is negative.", _HINT)
    if default_unit is not None and re.fullmatch(NUMBER, plain):
        plain = f"{plain} {default_unit}"
    total = Fraction(0)
    at = 0
    while at < len(plain):
        term = _TERM.match(plain, at)
        if term is None:
            raise _misread(text, plain[at:].strip())
        total += number_value(term[1]) * _nm_per(term[2])
        at = term.end()
    length = Length(round(total))
    if length > LONGEST_CLOTH:
        raise BadInputError(f"{text.strip()!r} is longer than any cloth.", _HINT)
    return length


def parse_width(text: str, default_unit: str | None = None) -> Length:
    """A width: any length, or a range such as `58/60"` or `147-152 cm`, read as its narrower end.

    With a slash, whole numbers below 20 are a fraction, not a range: `7/8 yd`.

    Raises:
        BadInputError: as `parse_length`; also a width of 0.
    """
    plain = plain_text(text)
    width = _narrower_end(plain, default_unit) or parse_length(plain, default_unit)
    if not width:
        raise BadInputError(f"{text.strip()!r} is no width at all.", "Type a width like 140 cm.")
    return width


def _narrower_end(plain: str, default_unit: str | None) -> Length | None:
    """The narrower end if `plain` is a range of widths."""
    found = _RANGE.fullmatch(plain)
    unit = (found[5] or default_unit) if found else None
    if found is None or unit is None:
        return None
    if found[3] == "/" and not found[2] and _is_small_whole(found[1]):
        return None
    ends = [
        parse_length(f"{found[1]} {found[2] or unit}"),
        parse_length(f"{found[4]} {unit}"),
    ]
    # Ends this far apart are no range: the hyphen of 35-1/2 in belongs to a mixed number.
    return min(ends) if max(ends) <= min(ends).times(2) else None


def _is_small_whole(plain: str) -> bool:
    return plain.isdigit() and int(plain) < 20


def _nm_per(word: str) -> Fraction:
    """Nanometres in one `word`, exactly."""
    word = word.removesuffix(".")
    if word in _NM:
        return Fraction(_NM[word])
    # Loading the registry takes a fifth of a second, so only unusual words do.
    from stash.units.registry import nm_per_unit

    return nm_per_unit(word)


def _misread(text: str, rest: str) -> BadInputError:
    bare = re.match(NUMBER, rest)
    if bare and bare.end() == len(rest):
        whole = text.strip()
        return BadInputError(f"In {whole!r} the number {rest} has no unit.", _HINT)
    return BadInputError(f"{text.strip()!r} is not a length.", _HINT)
