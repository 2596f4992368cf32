"""Looking at the outline and the flaws of a cloth when it comes in, not when it is laid."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.lay.errors import LayError
from stash.lay.problem import Problem, Spot
from stash.lay.validate_cloth import check_cloth

if TYPE_CHECKING:
    from stash.cloth.record import Cloth


def refuse_shapeless(cloth: Cloth) -> None:
    """Say at once what every lay would say of this cloth later.

    Raises:
        BadInputError: Its outline or a flaw is none; the message names the cloth.
    """
    if not (cloth.outline or cloth.flaws):
        return
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
