"""The pieces of several equal makes, to be cut together."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.lay.problem import Shape

MOST_TIMES = 12
"""Makes cut together: in so many layers shears and rotary cutters still cut (from memory)."""


def times_over(shapes: tuple[Shape, ...], times: int) -> tuple[Shape, ...]:
    """What `times` makes of these shapes want.

    Every make wants the same hands of a piece: of three copies, one the other way round, two
    makes want six and two of them the other way round. So the odd copy is a shape of its own.
    """
    return tuple(one for shape in shapes for one in _over(shape, times)) if times > 1 else shapes


def _over(shape: Shape, times: int) -> Iterator[Shape]:
    odd = shape.copies % 2 if shape.mirrored and not shape.on_fold else 0
    if shape.copies > odd:
        yield replace(shape, copies=(shape.copies - odd) * times)
    if odd:
        yield replace(shape, copies=odd * times, mirrored=False)
