"""Numbers as people at a cutting table write them, read exactly."""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction

from stash.errors import BadInputError

LONGEST = 60
"""Characters; nobody writes a longer amount, and a longer text is not worth quoting."""

NUMBER = (
    r"(?:[0-9]+(?:\s+|\s*-\s*)[0-9]+\s*/\s*[0-9]+"  # mixed: 2 1/2, 2-1/2
    r"|[0-9]+\s*/\s*[0-9]+"  # fraction: 5/8
    r"|[0-9]+[.,][0-9]+"  # decimal with dot or comma
    r"|[.,][0-9]+"
    r"|[0-9]+)"
)
"""A number in text that has gone through `plain_text`; a regular expression without groups."""

_PARTS = re.compile(r"(?:([0-9]+)[\s-]+)?([0-9]+)\s*/\s*([0-9]+)")
_THOUSANDS = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")


def plain_text(text: str) -> str:
    """Lower case, with the one-character fractions and typographic quotes written out plainly.

    Raises:
        BadInputError: the text is empty or longer than any amount.
    """
    if len(text) > LONGEST:
        raise BadInputError(
            f"{text[:20]!r}… is too long for an amount.", "Type a number and a unit, like 2.5 m."
        )
    spelled = "".join(_spelled(character) for character in text)
    plain = " ".join(spelled.lower().split())
    if not plain:
        raise BadInputError("Nothing was typed.", "Type a number and a unit, like 2.5 m.")
    return plain


def read_number(text: str) -> Fraction:
    """A number that is not negative: `2`, `1.5`, `1,5`, `5/8`, `2 1/2`, `2½`.

    Raises:
        BadInputError: anything else; also `1,500`, which reads as 1.5 and as 1500.
    """
    plain = plain_text(text)
    if plain[0] in "-+":
        raise BadInputError(f"{text.strip()!r} has a sign.", "Type the number without a sign.")
    if not re.fullmatch(NUMBER, plain):
        raise BadInputError(f"{text.strip()!r} is not a number.", "Type 2, 2.5, 2,5 or 2 1/2.")
    return number_value(plain)


def number_value(plain: str) -> Fraction:
    """The value of text that matches `NUMBER`.

    Raises:
        BadInputError: a fraction over nothing, or a comma that may be a thousands mark.
    """
    if parts := _PARTS.fullmatch(plain):
        whole, over, under = (int(part or 0) for part in parts.groups())
        if under == 0:
            raise BadInputError(f"{plain!r} divides by zero.", "Type a fraction like 5/8.")
        return whole + Fraction(over, under)
    if _THOUSANDS.fullmatch(plain):
        dotted, bare = plain.replace(",", "."), plain.replace(",", "")
        raise BadInputError(
            f"{plain!r} may mean {dotted} or {bare}.", f"Type {dotted} or {bare}, without a comma."
        )
    return Fraction(plain.replace(",", "."))


_QUOTES = {"″": '"', "“": '"', "”": '"', "′": "'", "’": "'", "‘": "'", "⁄": "/"}


def _spelled(character: str) -> str:
    if character in _QUOTES:
        return _QUOTES[character]
    if unicodedata.decomposition(character).startswith("<fraction>"):
        return " " + unicodedata.normalize("NFKC", character).replace("⁄", "/")
    return character
