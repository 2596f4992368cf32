"""Refusing what a pattern lacks or cannot have: a size or view, its pieces, a range upside down."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.services.fields import texts_of
from stash.services.pattern_fields import ASKS_FIELDS

if TYPE_CHECKING:
    from stash.garment.make import Make
    from stash.garment.pattern import Asks, Pattern
    from stash.services.fields import Context


def known_size(pattern: Pattern, typed: str) -> str:
    """`typed` if the pattern has that size or nothing was typed; else BadInputError."""
    return _known(pattern.name, "size", typed, tuple(size.label for size in pattern.sizes))


def known_view(pattern: Pattern, typed: str) -> str:
    """`typed` if the pattern has that view or nothing was typed; else BadInputError."""
    return _known(pattern.name, "view", typed, pattern.views)


def nothing_to_cut(pattern: Pattern, make: Make) -> BadInputError:
    """That the pattern has neither pieces nor a chart for the size and view of this make."""
    sizes = [*(piece.size for piece in pattern.pieces), *(row.size for row in pattern.charts)]
    if not sizes:
        return BadInputError(
            f"{pattern.name} has neither pieces nor a chart yet.",
            "Draft a piece, import a drawing, or add a row of its chart.",
        )
    asked = {key: said for key, said in (("view", make.view), ("size", make.size)) if said}
    where = ", ".join(f"{key} {said}" for key, said in asked.items())
    has = dict.fromkeys(size for size in sizes if pattern.roles(make.view, size))
    said = f"{pattern.name} has neither pieces nor a chart " + (
        f"for {where}" if where else "for a make without a size"
    )
    if has:
        said += f", only for size {', '.join(has)}"
    if not make.size:
        return BadInputError(f"{said}.", "Say the size that is made.")
    keys = " ".join(f'{key}="{said}"' for key, said in asked.items())
    row = f'stash pattern chart "{pattern.name}" {keys} width=140cm amount="2.4 m"'
    return BadInputError(
        f"{said}.", f"Add its pieces or its row of the chart ({row}), or choose another size."
    )


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
