"""Looking at the outline and the flaws of a cloth when it comes in, not when it is laid."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.lay.errors import LayError
from stash.lay.problem import Problem, Spot
from stash.lay.validate_cloth import check_cloth

if TYPE_CHECKING:
    from stash.cloth.record import Cloth

LEEWAY_MM = 10.0
"""An outline measured by hand may be so much longer or wider than the cloth."""


def refuse_shapeless(cloth: Cloth) -> None:
    """Say at once what every lay would say of this cloth later.

    Raises:
        BadInputError: Its outline or a flaw is none, or the outline is larger than the cloth; the
            message names the cloth.
    """
    if not (cloth.outline or cloth.flaws):
        return
    _refuse_larger_outline(cloth)
    question = Problem(
        shapes=(),
        width=cloth.width.mm,
        outline=cloth.outline,
        spots=tuple(Spot(f.x, f.y, f.radius) for f in cloth.flaws if not f.points),
        patches=tuple(f.points for f in cloth.flaws if f.points),
    )
    try:
        check_cloth(question)
    except LayError as error:
        what = f"{error.message[:1].lower()}{error.message[1:]}"
        raise BadInputError(f"{cloth.name} can never be laid: {what}", error.hint) from error


def _refuse_larger_outline(cloth: Cloth) -> None:
    """A remnant lies within the cloth it is of: else one of the two was measured in other units."""
    for way, place, most, there in (
        ("along", 0, cloth.bought.mm, "its length"),
        ("across", 1, cloth.width.mm, "its width"),
    ):
        reach = max((corner[place] for corner in cloth.outline), default=0.0)
        if reach > most + LEEWAY_MM:
            raise BadInputError(
                f"The outline of {cloth.name} reaches {reach:g} mm {way}, and {there} is"
                f" {most:g} mm.",
                "Give its corners in mm, 0 0 first, or correct the measures of the cloth.",
            )
