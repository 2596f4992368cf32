"""What washing does to a cloth: nothing more once it is washed."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from stash.trade.shrinkage import after_wash, before_wash, default_shrinkage
from stash.units.length import ZERO

if TYPE_CHECKING:
    from stash.cloth.record import Cloth, FibreShare, Structure
    from stash.units.length import Length


def first_wash(cloth: Cloth) -> tuple[float, float]:
    """Per cent of (length, width) the first wash takes or took: as tested, else as usual."""
    if cloth.shrink_length is not None and cloth.shrink_width is not None:
        return cloth.shrink_length, cloth.shrink_width
    usual = _usual(cloth.structure, cloth.fibres)
    return (
        usual[0] if cloth.shrink_length is None else cloth.shrink_length,
        usual[1] if cloth.shrink_width is None else cloth.shrink_width,
    )


@lru_cache(maxsize=1024)  # every make asks it of every cloth
def _usual(structure: Structure, fibres: tuple[FibreShare, ...]) -> tuple[float, float]:
    return default_shrinkage(structure, ((share.fibre, share.percent) for share in fibres))


def shrinkage(cloth: Cloth) -> tuple[float, float]:
    """Per cent of (length, width) still to come."""
    return (0.0, 0.0) if cloth.washed else first_wash(cloth)


def washed_usable_width(cloth: Cloth) -> Length:
    """Width between the selvedges after the first wash, rounded down; 0 if nothing is left."""
    between = cloth.width - cloth.selvedge - cloth.selvedge
    return after_wash(between, shrinkage(cloth)[1]) if between > ZERO else ZERO


def washed_length(length: Length, cloth: Cloth) -> Length:
    """What `length` of the cloth as it lies on the shelf measures once washed, rounded down."""
    return after_wash(length, shrinkage(cloth)[0])


def shelf_length(washed: Length, cloth: Cloth) -> Length:
    """What to cut from the shelf so that `washed` is left after washing, rounded up."""
    return before_wash(washed, shrinkage(cloth)[0])
