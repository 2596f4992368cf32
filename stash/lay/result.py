"""What a lay answers: where every copy lies, how long it is, and how short it could be."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stash.lay.problem import LayKind, Ring


@dataclass(frozen=True, slots=True)
class Placement:
    """One copy on the opened-out cloth.

    `polygon` is the exact outline in mm on the opened-out cloth (0 <= y <= usable width); a
    piece on the fold is opened out, both halves. `shape` is its place in the problem.
    """

    shape: int
    name: str
    copy: int
    polygon: Ring
    turn: int
    mirrored: bool
    on_fold: bool = False
    single: bool = False
    """In a lay of two layers: cut from one layer, in the opened-out stretch at the end."""
    waste: bool = False
    """In a lay of two layers: the twin nobody needs, cut because both layers lie there."""


@dataclass(frozen=True, slots=True)
class Bound:
    """A length no legal lay can beat, in mm, and the reason in words."""

    length: float
    why: str


@dataclass(frozen=True, slots=True)
class Lay:
    """A legal arrangement: made only by a solver whose result the checker has passed."""

    kind: LayKind
    width: float
    nap: bool
    need: float
    """Length used, mm, along the grain, of cloth already washed."""
    placements: tuple[Placement, ...]
    folds: tuple[float, ...]
    """y of each lengthwise fold on the opened-out cloth: one folded, two in a gate lay."""
    cross_fold: float | None
    """x of the fold across the cloth in a crossways lay, else None."""
    folded_to: float
    """x where the folded stretch ends and the single layer begins; 0 in an open lay."""
    utilisation: float
    """Area of the pieces over width x need, 0-1."""
    bound: Bound
    solver: str
    seed: int
    seconds: float
    checked: bool
    repeat_at: float | None = None
    """x in mm of a line of the print's lattice, 0 <= x < the repeat along; None: nothing
    matches. Its middle column lies at half the usable width, see `problem.Repeat`."""
