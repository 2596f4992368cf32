"""Refusing what a pattern cannot have: a size or view it does not know, a range upside down."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.services.fields import texts_of
from stash.services.pattern_fields import ASKS_FIELDS

if TYPE_CHECKING:
    from stash.garment.pattern import Asks, Pattern
    from stash.services.fields import Context


def known_size(pattern: Pattern, typed: str) -> str:
    """`typed` if the pattern has that size or nothing was typed; else BadInputError."""
    return _known(pattern.name, "size", typed, tuple(size.label for size in pattern.sizes))


def known_view(pattern: Pattern, typed: str) -> str:
    """`typed` if the pattern has that view or nothing was typed; else BadInputError."""
    return _known(pattern.name, "view", typed, pattern.views)


def _known(name: str, what: str, typed: str, known: tuple[str, ...]) -> str:
    if typed and typed not in known:
        raise BadInputError(
            f"{name} has no {what} {typed!r}.", f"Its {what}s: {', '.join(known) or 'none'}."
        )
    return typed


def known_ranges(asks: Asks, context: Context) -> Asks:
    """`asks` if each of its ranges begins below its end; else BadInputError."""
    shown = texts_of(ASKS_FIELDS, asks, context)
    for name in asks.reversed_ranges:
        low, high = f"{name}_low", f"{name}_high"
        raise BadInputError(
            f"No cloth has a {name} from {shown[low]} to {shown[high]}.",
            f"Type the lower one as {low}, the higher one as {high}; empty asks nothing.",
        )
    return asks
