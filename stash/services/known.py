"""Refusing a size or view that a pattern does not have."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.errors import BadInputError

if TYPE_CHECKING:
    from stash.garment.pattern import Pattern


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
