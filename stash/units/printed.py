"""Amounts as envelopes print them: in yards and in metres beside one another."""

from __future__ import annotations

import re

from stash.errors import BadInputError
from stash.units.length import Length
from stash.units.parse_length import parse_length

AGREE = Length.from_mm(60)
"""Metres are rounded to the nearest 0.1 m, so the two lie up to 5 cm apart."""

_BESIDE = re.compile(r"(.*?[^\W\d_'\"″”.][.]?|.*?['\"″”])\s*(?:/|\||=|,\s|\()\s*(.*?)\s*\)?")


def parse_printed(text: str) -> Length:
    """An amount such as `2 1/4 yd`, `2.1 m` or both: `2 1/4 yd (2.1 m)`, `2 1/4 yd / 2.1 m`.

    Of two the longer counts: the other is its rounding.

    Raises:
        BadInputError: no amount, or two that are not the same amount.
    """
    found = _BESIDE.fullmatch(text.strip())
    if found is None:
        return parse_length(text)
    one, other = parse_length(found[1]), parse_length(found[2])
    if abs(one.nm - other.nm) > AGREE.nm:
        raise BadInputError(
            f"{found[1]!r} and {found[2]!r} are not the same amount.", "Type the one you trust."
        )
    return max(one, other)
