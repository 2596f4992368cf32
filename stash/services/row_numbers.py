"""Rows a person chooses by their numbers."""

from __future__ import annotations

import re

from stash.errors import BadInputError
from stash.intake.sheet import MOST_ROWS


def parse_rows(text: str, what: str = "rows") -> frozenset[int]:
    """Row numbers such as `1-10,14`.

    Raises:
        BadInputError: Anything else, or a number no table reaches.
    """
    found: set[int] = set()
    for part in text.split(","):
        said = re.fullmatch(r"\s*([0-9]{1,6})\s*(?:-\s*([0-9]{1,6})\s*)?", part)
        first = int(said[1]) if said else 0
        last = int(said[2] or said[1]) if said else 0
        if not 1 <= first <= last <= MOST_ROWS:
            raise BadInputError(f"{text!r} are no {what}.", "Type them like 1-10,14.")
        found.update(range(first, last + 1))
    return frozenset(found)
