"""Amounts in cells: `approx 2m`, `2m + scraps`, `1.5` under `Length (m)`, `£12.50/yd`."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.intake import cell_words as words
from stash.units.letters import bare_letters
from stash.units.money import per_metre
from stash.units.number import LONGEST as LONGEST_AMOUNT
from stash.units.number import NUMBER, number_value, plain_text

if TYPE_CHECKING:
    from collections.abc import Iterable

LONGEST = 200
"""Characters; a cell of an amount that tells a longer story is for the person to read."""
_REST = re.compile(
    r"\s*(?:[;+(\[/]|,\s|\s-\s|\bplus\b|\band\b|\bwith\b|\bbut\b|\bund\b|\bet\b)\s*\D"
)
_LENGTH_INSIDE = re.compile(
    r"\d\s*(?:m|cm|mm|yds?|yards?|in|ins|inch|inches|metres?|meters?|\")(?!\w)"
)
_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
_TIMES = re.compile(r"\d\s*[a-z\"']{0,6}\s*(?:x|×|\*|@)\s*\.?\d|(?:^|\s)(?:two|three|2|3|4) pieces")
_PER = r"(?:\s*(?:/|per|pro|je|a|par|al|por|the|p\.?)\s*(?P<per>[^\W\d_]+)\.?)?"
_PRICE = re.compile(
    rf"(?P<before>[£€$¥]|[a-z]{{3}})?\s*(?P<number>{NUMBER}|\d+(?:[.,]-+|[.,]–))\s*"
    rf"(?P<after>[£€$¥]|eur|gbp|usd|chf|euros?|pounds?)?{_PER}"
)
_METRES = ("m", "metre", "meter", "metres", "meters", "mtr", "metro", "lfm", "lm")
_YARDS = ("yd", "yds", "yard", "yards", "y")


def read_amount(text: str, unit: str) -> tuple[str, str]:
    """A length for the length parser, and the cell's own words if they say more.

    Args:
        text: What stands in the cell.
        unit: Of bare numbers; empty: they are refused.

    Raises:
        BadInputError: It says that there may be less, names several pieces, or has no unit.
    """
    if len(text) > LONGEST:
        raise BadInputError(f"{text[:40]!r}… is too long for a length.", "Type 2.4 m.")
    if _DATE.match(text):
        raise BadInputError(
            f"{text[:10]!r} is a date: a sheet may have made it of a fraction such as 5/8.",
            "Type the length, like 2 5/8 yd.",
        )
    plain = bare_letters(text)
    if any(_starts(plain, word) or _ends(plain, word) for word in words.LESS):
        raise BadInputError(
            f"{text!r} may be less than it says.", "Measure it, and type what is there: 1.9 m."
        )
    if _TIMES.search(plain):
        raise BadInputError(
            f"{text!r} is more than one piece, or a size.",
            "Give every piece a row of its own, with its width and its length.",
        )
    amount, rest = _split(text)
    if _LENGTH_INSIDE.search(rest.lower()):
        raise BadInputError(
            f"{text!r} names more than one length.",
            "Type the one that is meant; give other pieces rows of their own.",
        )
    bare, vague = _without(amount, (*words.ABOUT, *words.AT_LEAST))
    bare, _ = _without(bare, words.LEFTOVERS)
    return _with_unit(_units(bare), text, unit), text if vague or rest.strip(" +,;") else ""


def read_weight_cell(text: str, unit: str) -> tuple[str, str]:
    """A weight for the weight parser, and the cell's own words if they say more."""
    amount, vague = _without(text[:LONGEST], words.ABOUT)
    plain = amount.lower().replace("qm", "m2").replace("gr/", "g/").replace("grs/", "g/")
    if re.fullmatch(NUMBER, plain.strip()) and unit:
        plain = f"{plain} {unit}"
    return plain, text if vague else ""


def read_money(text: str, unit: str) -> tuple[str, str]:
    """A price per metre, and the cell's own words where it was per yard.

    Args:
        text: What stands in the cell.
        unit: What the heading says the price is for; `yd` turns it into metres.

    Raises:
        BadInputError: It is no price, or the price of something else.
    """
    found = _PRICE.fullmatch(_price_text(text))
    if found is None or (found["before"] and found["after"]):
        raise BadInputError(f"{text[:40]!r} is not a price per metre.", "Type 12.50.")
    per = found["per"] or (unit if unit in ("m", "yd") else "m")
    number = re.sub(r"[.,][-–]+$", "", found["number"])
    sign = (found["before"] or found["after"] or "").upper()
    sign = {"EURO": "€", "EUROS": "€", "POUND": "£", "POUNDS": "£"}.get(sign, sign)
    if per in _METRES:
        return f"{number} {sign}".strip(), ""
    if per not in _YARDS:
        raise BadInputError(
            f"{text[:40]!r} is not a price per metre or yard.",
            "Type the price of one metre: 12.50.",
        )
    value = number_value(number)
    cents = per_metre(Decimal(value.numerator) / Decimal(value.denominator))
    return f"{cents} {sign}".strip(), text


def _price_text(text: str) -> str:
    return plain_text(text) if len(text) < LONGEST else ""


def _split(text: str) -> tuple[str, str]:
    """The amount a cell begins with, and what follows it."""
    found = next(
        (m for m in _REST.finditer(text) if re.search(r"[\d½¼¾⅛⅜⅝⅞⅓⅔]", text[: m.start()])), None
    )
    return (text[: found.start()], text[found.start() :]) if found else (text, "")


def _without(text: str, known: Iterable[str]) -> tuple[str, bool]:
    """A text without such words at its ends, and whether there were any."""
    short = text.strip() and len(text) <= LONGEST_AMOUNT
    plain, found = plain_text(text) if short else text.lower().strip(), False
    for word in sorted(known, key=len, reverse=True):
        if _starts(plain, word):
            plain, found = plain[len(word) :].strip(), True
        if _ends(plain, word):
            plain, found = plain[: -len(word)].strip(" ,"), True
    if plain.endswith("ish"):
        plain, found = plain.removesuffix("ish").rstrip("- "), True
    return plain, found


def _starts(plain: str, word: str) -> bool:
    rest = plain[len(word) :]
    return (
        plain.startswith(word) and (not word[-1].isalpha() or not rest[:1].isalpha()) and bool(rest)
    )


def _ends(plain: str, word: str) -> bool:
    before = plain[: -len(word)]
    return word[0].isalpha() and plain.endswith(word) and not before[-1:].isalpha() and bool(before)


def _units(plain: str) -> str:
    """Unit words of other languages in ours."""
    return re.sub(r"[^\W\d_]+", lambda m: words.UNITS.get(m[0], m[0]), plain)


def _with_unit(plain: str, text: str, unit: str) -> str:
    """The amount with the column's unit where it has none of its own."""
    if re.search(r"[^\W\d_]|['\"]", plain) or not re.search(r"\d", plain):
        return plain
    if re.fullmatch(r"0+(?:[.,]0+)?", plain):
        return "0"
    if not unit:
        raise BadInputError(
            f"{text!r} has no unit.",
            "Write the unit over the column, like Length (m), or say it with --unit.",
        )
    return f"{plain} {unit}"
