"""Why something cannot be cut: the length is none, or it was cut already."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.errors import RefusedError
from stash.garment.make import DiaryKind
from stash.store import cloths, diary, promises
from stash.units.format_length import Measure, show_length
from stash.units.length import ZERO

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from stash.cloth.record import Cloth
    from stash.config import System
    from stash.garment.make import Make
    from stash.garment.pattern import Role
    from stash.units.length import Length


def refuse_odd_length(cloth: Cloth, used: Length, system: System) -> None:
    """Raise RefusedError if the length typed for a cut is none, or longer than the cloth."""
    if ZERO < used <= cloth.left:
        return
    typed = show_length(used, system, Measure.TAKEN)
    if used <= ZERO:
        raise RefusedError(f"{typed} is no length to be cut.", "Type what was cut, such as 1.4 m.")
    raise RefusedError(
        f"{typed} cannot be cut from {cloth.name}, which is "
        f"{show_length(cloth.left, system, Measure.SPARE)} long.",
        "Measure again, or correct its length first: stash cloth edit.",
    )


def refuse_if_cut(session: Session, make: Make, role: Role | None) -> None:
    """Raise RefusedError if the make, or this role of it, was cut: when, and from what."""
    done = [
        one
        for one in promises.promises_of_make(session, make.id)
        if one.cut and role in (None, one.role)
    ]
    if not done:
        return
    names = ", ".join(cloths.get_cloth(session, one.cloth_id).name for one in done)
    lines = diary.entries(session, make_id=make.id, cloth_id=done[-1].cloth_id)
    day = next((f" on {line.day}" for line in lines if line.kind is DiaryKind.CUT), "")
    raise RefusedError(
        f"{make.name} was cut from {names}{day} already.",
        "If it was not, take the cut back: stash history, then stash undo NUMBER.",
    )
