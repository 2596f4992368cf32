"""What a family of pieces is: a shape drafted from a few named measures."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.garment.draft.edges import Add, Edge
from stash.garment.pattern import Grain
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping


@dataclass(frozen=True, slots=True)
class Measure:
    """One length a family is drafted from.

    `default` None with `required` False means: left out, the draft follows the rule the
    help names.
    """

    key: str
    help: str
    default: Length | None = None
    required: bool = True
    may_be_zero: bool = False


@dataclass(frozen=True, slots=True)
class Family:
    """A shape with its measures, and how such a piece is usually cut."""

    key: str
    help: str
    measures: tuple[Measure, ...]
    outline: Callable[[Mapping[str, float]], tuple[Edge, ...]]
    """Seam-line edges in mm from measures in mm; x along the grain."""
    copies: int = 1
    on_fold: bool = False
    mirrored: bool = True
    grain: Grain = Grain.LENGTHWISE

    def allowances(self, mm: Mapping[str, float], on_fold: bool) -> dict[Add, float]:
        """Millimetres to add outside each sort of edge."""
        seam = mm["seam"]
        return {
            Add.SEAM: seam,
            Add.HEM: mm.get("hem", seam),
            Add.TOP: mm.get("casing", seam),
            Add.EDGE: mm.get("edge", seam),
            Add.CENTRE: 0.0 if on_fold else seam,
        }


def asked(key: str, text: str) -> Measure:
    """A measure that must be given."""
    return Measure(key, text)


def optional(key: str, text: str) -> Measure:
    """A measure that may be left out; its help names the rule used instead."""
    return Measure(key, text, required=False)


def usual(key: str, text: str, mm: float, *, may_be_zero: bool = True) -> Measure:
    """A measure with a usual value."""
    default = Length.from_mm(mm) if mm else ZERO
    return Measure(key, text, default, required=False, may_be_zero=may_be_zero)


def seam_of(mm: float = 15) -> Measure:
    """The seam allowance; 15 mm is usual on home patterns (convention, from memory)."""
    return usual("seam", "seam allowance to add; 0 if the measures include it", mm)


def hem_of(mm: float) -> Measure:
    """The hem allowance, usual for the garment."""
    return usual("hem", "hem allowance to add; 0 if the measures include it", mm)
