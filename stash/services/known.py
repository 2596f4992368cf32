"""Refusing what a pattern lacks or cannot have: a size or view, its pieces, a range upside down."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.garment.size_pieces import lacking_words
from stash.services.fields import texts_of
from stash.services.pattern_fields import ASKS_FIELDS

if TYPE_CHECKING:
    from stash.garment.make import Make
    from stash.garment.pattern import Asks, Pattern, Role
    from stash.pairing.needs import Question
    from stash.services.fields import Context

DRAW_THEM = "Add pieces to the pattern first: draw some from measurements, or read an SVG file."


def known_size(pattern: Pattern, typed: str) -> str:
    """`typed` if the pattern has that size or nothing was typed; else BadInputError."""
    return _known(pattern.name, "size", typed, tuple(size.label for size in pattern.sizes))


def known_view(pattern: Pattern, typed: str) -> str:
    """`typed` if the pattern has that view or nothing was typed; else BadInputError."""
    return _known(pattern.name, "view", typed, pattern.views)


def nothing_to_cut(pattern: Pattern, make: Make, role: Role | None = None) -> BadInputError:
    """That the pattern has neither pieces nor a chart for the size and view of this make.

    With a role: that it has not all of its pieces.
    """
    sizes = [*(piece.size for piece in pattern.pieces), *(row.size for row in pattern.charts)]
    if not sizes:
        return BadInputError(
            f"{pattern.name} has neither pieces nor a chart yet.",
            "Draft a piece, import a drawing, or add a row of its chart.",
        )
    asked = {key: said for key, said in (("view", make.view), ("size", make.size)) if said}
    where = ", ".join(f"{key} {said}" for key, said in asked.items())
    lacked = lacking_words(pattern, make.view, make.size, role)
    apart = ""
    if lacked and pattern.drawn_for(make.view, make.size):
        apart = " If this size is cut without it, give the piece a view of its own."
        said = f"{pattern.name} has no {lacked}, and no chart for it"
    else:
        said = f"{pattern.name} has neither pieces nor a chart " + (
            f"for {where}" if where else "for a make without a size"
        )
        has = dict.fromkeys(size for size in sizes if can_be_cut(pattern, make.view, size))
        said += f", only for size {', '.join(has)}" if has else ""
    if not make.size:
        return BadInputError(f"{said}.", "Say the size that is made.")
    keys = " ".join(f'{key}="{said}"' for key, said in asked.items())
    row = f'stash pattern chart "{pattern.name}" {keys} width=140cm amount="2.4 m"'
    return BadInputError(
        f"{said}.",
        f"Add its pieces or its row of the chart ({row}), or choose another size.{apart}",
    )


def can_be_cut(pattern: Pattern, view: str, size: str) -> bool:
    """Some role of this view and size has all its pieces, or a chart."""
    return any(pattern.can_cut(view, size, role) for role in pattern.roles(view, size))


def refuse_without_pieces(question: Question, so: str, hint: str = DRAW_THEM) -> None:
    """Refuse what only pieces can answer; `so` goes on after what is missing.

    Raises:
        BadInputError: `Quay has no pieces for main`, or which of them this size lacks.
    """
    if question.has_pieces:
        return
    make, role = question.make, question.role
    lacked = lacking_words(question.pattern, make.view, make.size, role)
    raise BadInputError(f"{make.name} has no {lacked or f'pieces for {role}'}, {so}.", hint)


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
