"""Flaws and an outline as typed for a cloth: they have to lie on it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.cloth.edges import begins
from stash.cloth.sums import ends_early, more_than, reach
from stash.errors import BadInputError
from stash.units.format_length import Measure, show_length

if TYPE_CHECKING:
    from stash.cloth.record import Cloth, Flaw
    from stash.config import System


def refuse_off_cloth(cloth: Cloth, system: System) -> None:
    """Say at once what a lay would say later, or never: a flaw beside the cloth hinders none.

    Raises:
        BadInputError: The outline or a flaw is none, or does not lie on this cloth.
    """
    if not (cloth.outline or cloth.flaws):
        return
    from stash.intake.cloth_shapes import refuse_shapeless  # the geometry library loads slowly

    for flaw in cloth.flaws:
        refuse_sizeless(flaw, flaw.what)
    refuse_shapeless(cloth)
    along, across = reach(cloth)
    for far, most, side in ((along, cloth.left, "long"), (across, cloth.width, "wide")):
        if more_than(far, most):
            kind = Measure.SPARE if side == "long" else Measure.WIDTH
            raise BadInputError(
                f"The outline ends at {show_length(far, system, kind)}, but {cloth.name} is only "
                f"{show_length(most, system, kind)} {side}.",
                "Write corners along first, then across: 0 0, 90 0, 90 60, 0 64 cm.",
            )
    if cloth.outline and ends_early(cloth):
        raise BadInputError(
            f"The outline ends at {show_length(along, system, Measure.SPARE)}, but "
            f"{show_length(cloth.left, system, Measure.SPARE)} of {cloth.name} is left.",
            "Correct the length left, or the corners: along first, then across.",
        )
    for flaw in cloth.flaws:
        _refuse_off(flaw, cloth, system)


def refuse_sizeless(flaw: Flaw, what: str) -> None:
    """Raise BadInputError if a round flaw has no size, or far too large a one."""
    from stash.lay.validate_cloth import LARGEST_FLAW_MM

    if not flaw.points and not 0 < flaw.radius <= LARGEST_FLAW_MM:
        size = "has no size" if flaw.radius == 0 else "is larger than any cloth"
        raise BadInputError(f"The {what} {size}.", "Type a radius above 0 and up to 10 m (10 yd).")


def _refuse_off(flaw: Flaw, cloth: Cloth, system: System) -> None:
    x, y = begins(flaw)
    usable = cloth.width - cloth.selvedge - cloth.selvedge
    if x >= cloth.left.mm or y >= usable.mm:
        left = show_length(cloth.left, system, Measure.SPARE)
        wide = show_length(usable, system, Measure.USABLE)
        raise BadInputError(
            f"The {flaw.what} does not lie on {cloth.name}: {left} is left of it, {wide} wide "
            "between the selvedges.",
            "Write how far it is along first, then across: 80 cm along, 40 cm across, 3 cm radius.",
        )
