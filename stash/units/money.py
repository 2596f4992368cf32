"""Money: whole cents, one currency per stash."""

from __future__ import annotations

import re
from decimal import Decimal

from stash.errors import BadInputError
from stash.units.number import NUMBER, number_value, plain_text

_SIGNS = {"eur": "€", "usd": "$", "gbp": "£", "jpy": "¥"}
_MOST = 10_000_000


def parse_money(text: str, currency: str) -> Decimal:
    """An amount of `currency`, which may be left out: `12.50`, `12,50`, `€ 12.50`, `12 EUR`.

    Raises:
        BadInputError: anything else; another currency; parts of a cent.
    """
    plain = plain_text(text)
    found = re.fullmatch(rf"(?P<before>\D*?)\s*(?P<number>{NUMBER})\s*(?P<after>\D*)", plain)
    if found is None or (found["before"] and found["after"]) or "-" in found["before"]:
        raise BadInputError(f"{text.strip()!r} is not a price.", f"Type 12.50 {currency}.")
    named = found["before"] or found["after"]
    if named and named not in _names(currency):
        raise BadInputError(
            f"{text.strip()!r} is not in {currency}, the currency of this stash.",
            f"Type the amount in {currency}, or change the currency in the settings.",
        )
    cents = number_value(found["number"]) * 100
    if cents > _MOST * 100:
        raise BadInputError(
            f"{text.strip()!r} is more than {_MOST} {currency}.", f"Type 12.50 {currency}."
        )
    if cents.denominator != 1:
        raise BadInputError(
            f"{text.strip()!r} is not a price in whole cents.", f"Type 12.50 {currency}."
        )
    return Decimal(cents.numerator).scaleb(-2)


def show_money(amount: Decimal, currency: str) -> str:
    """`12.50 EUR`; a currency written as a sign stands before: `€12.50`."""
    if currency.isalpha():
        return f"{amount:.2f} {currency}"
    return f"{currency}{amount:.2f}"


def _names(currency: str) -> set[str]:
    """The ways to write `currency`, in lower case."""
    name = currency.lower()
    signs = {sign for word, sign in _SIGNS.items() if word == name}
    words = {word for word, sign in _SIGNS.items() if sign == name}
    return {name} | signs | words
