"""Which size of a pattern a person takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.garment.measures import by_name
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.garment.make import Person
    from stash.garment.pattern import Pattern, Size

LENGTHENED = frozenset({"stature", "back waist length", "arm length", "inside leg height"})
"""Measures a pattern is lengthened or shortened for; they choose no size (common practice)."""
STEP = Length.from_mm(60)
"""Between two sizes where a pattern has one only; adult women's sizes step by 4 to 6 cm
(EN 13402-3, from memory)."""

TAPE = Length.from_mm(5)
"""A body is measured no finer (common practice), so this much over a size still takes it."""


def size_labels(pattern: Pattern) -> tuple[str, ...]:
    """The sizes in order: of the size table, else of pieces and charts; `("",)` where none is."""
    named = [size.label for size in pattern.sizes]
    drawn = [piece.size for piece in pattern.pieces] + [row.size for row in pattern.charts]
    return tuple(dict.fromkeys(label for label in named or drawn if label)) or ("",)


def middle_size(pattern: Pattern) -> str:
    """The size to think of when nobody is named."""
    labels = size_labels(pattern)
    return labels[len(labels) // 2]


def size_of(pattern: Pattern, person: Person) -> str | None:
    """The smallest size that is nowhere smaller than the person; None where none can be told.

    Between two sizes the larger is cut and taken in (common practice). No size is told where no
    measure is known of both, where all are too small, or where even the smallest is more than a
    step too large all round.
    """
    body = {name: size for name, size in by_name(person.measures).items() if name not in LENGTHENED}
    sizes = [size for size in pattern.sizes if _shared(size, body)]
    for place, size in enumerate(sizes):
        shared = _shared(size, body)
        if all(body[name] <= shared[name] + TAPE for name in shared):
            if place == 0 and all(
                shared[name] - _step(sizes, name) > body[name] for name in shared
            ):
                return None
            return size.label
    return None


def _shared(size: Size, body: dict[str, Length]) -> dict[str, Length]:
    return {name: length for name, length in by_name(size.body).items() if name in body}


def _step(sizes: list[Size], name: str) -> Length:
    """From the smallest size to the next, in this measure."""
    if len(sizes) < 2:
        return STEP
    first, second = (by_name(size.body).get(name) for size in sizes[:2])
    return second - first if first is not None and second is not None and second > first else STEP
