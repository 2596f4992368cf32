"""Money: whole cents, one currency per stash."""

from __future__ import annotations

import re
from decimal import ROUND_HALF_UP, Decimal

from stash.errors import BadInputError
from stash.units.number import NUMBER, number_value, plain_text

_SIGNS = {"eur": "€", "usd": "$", "gbp": "£", "jpy": "¥"}
_MOST = 10_000_000
_PER = re.compile(
    r"(?P<amount>.*?)\s*(?:/|\b(?:per|a)\b)\s*(?P<unit>m|met(?:re|er)|yd|yard)", re.IGNORECASE
)
_METRES_IN_A_YARD = Decimal("0.9144")


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


def parse_price(text: str, currency: str) -> Decimal:
    """A price per metre: `12.50`, `12.50/m`, or per yard, `12.50/yd`, `10 per yard`.

    Raises:
        BadInputError: as `parse_money`.
    """
    found = _PER.fullmatch(text.strip())
    if found is None:
        return parse_money(text, currency)
    amount = parse_money(found["amount"], currency)
    return amount if found["unit"].lower().startswith("m") else per_metre(amount)


def per_metre(per_yard: Decimal) -> Decimal:
    """The price of a metre where this is that of a yard, to the nearest cent."""
    return (per_yard / _METRES_IN_A_YARD).quantize(Decimal("0.01"), ROUND_HALF_UP)


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
