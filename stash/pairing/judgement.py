"""The records judging produces: need, reasons, pairing, plan, shortfall."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stash.garment.pattern import Role
    from stash.lay.result import Lay
    from stash.units.length import Length


class Sureness(StrEnum):
    """Where a need comes from; a verdict never hides it."""

    LAID_OUT = "laid out"
    CHARTED = "charted"
    ESTIMATED = "estimated"
    UNKNOWN = "unknown"


class Verdict(StrEnum):
    """What a person at the cutting table wants to hear first."""

    FITS = "fits"
    CLOSE = "close"
    SHORT = "short"
    TOO_NARROW = "too narrow"
    UNSUITED = "unsuited"
    UNKNOWN = "unknown"

    @property
    def can_be_cut(self) -> bool:
        """The cloth is enough and right."""
        return self in (Verdict.FITS, Verdict.CLOSE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """Length one role needs at one usable width, of washed cloth. `length` None: unknown."""

    length: Length | None
    sureness: Sureness
    why: str
    """One sentence: where the number comes from, or why there is none."""
    low: Length | None = None
    high: Length | None = None
    """Range when estimated; `length` is then its high end, which is the safe side."""
    likely: Length | None = None
    """Best guess within the range, where there is one."""
    lay: Lay | None = None
    too_narrow: str = ""
    """The piece that is wider than the cloth, if one is."""
    no_room: str = ""
    """The piece a remnant has no room left for, if there is one."""
    at_least: bool = False
    """Nothing was laid out: `length` is only what no lay can beat."""


@dataclass(frozen=True, slots=True)
class Reason:
    """One factor of the suit: 0 (fails) to 1 (ideal); None: not known, nothing deducted."""

    factor: str
    mark: float | None
    sentence: str
    gate: bool = False
    """A hard ask: a mark of 0 makes the cloth unsuited."""
    weight: float = 0.0
    """How much it counts in the suit; 0: it is passed or failed, or only told."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """A role set against one cloth, in numbers. Lengths are of the cloth after its first wash.

    The same for every make that asks the same.
    """

    role: Role
    cloth_id: int
    verdict: Verdict
    need: Need
    have: Length
    """Free length, after washing."""
    spare: Length | None
    """have - need: negative when short, None when the need is unknown."""
    cut_from_shelf: Length | None
    """Length to cut off as the cloth lies now, before washing if it is not washed."""
    suit: float
    """0-1."""
    reasons: tuple[Reason, ...]
    """In a pairing that on length comes first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pairing(Judged):
    """One make role set against one cloth, in words too."""

    make_id: int
    suit_known: float
    """Share of what counts that is known, 0-1: what nobody measured lowers this, not the suit."""
    cautions: tuple[str, ...] = ()
    muslin_first: MuslinFirst | None = None
    """The advice to test the fit first; None also where nobody looked."""


@dataclass(frozen=True, slots=True)
class MuslinFirst:
    """A cloth too loved for an untested pattern: why, and the cloths to risk, best first."""

    why: str
    cloth_ids: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MuslinCandidate:
    """A cloth that could be risked on a test of the fit; best `score` first."""

    pairing: Pairing
    score: float
    likeness: float | None
    """How like the intended cloth it behaves, 0-1; None: no intended cloth known."""
    missed: float
    """How much it would be missed, 0 (not at all) to 1."""
    why: tuple[str, ...]
    worn: float | None = None
    """How likely the result is worn, 0-1; None: nobody knows what she has."""
    price: float | None = None
    """What the season plan loses without this length of it; None: not worked out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyWidth:
    """What to buy at one common width: shop length, rounded up, before the first wash."""

    width: Length
    length: Length | None
    sureness: Sureness
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Shortfall:
    """A role nothing on the shelf is planned for: what has to be bought, by width."""

    make_id: int
    role: Role
    widths: tuple[BuyWidth, ...]
    why: str
    """Why the shelf has nothing: the nearest miss in words."""
    asks: str
    """What to look for in the shop, in words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedRole:
    """One role of one make in the season plan: a pairing, or None when it must be bought."""

    make_id: int
    role: Role
    pairing: Pairing | None
    runner_up: Pairing | None
    why: str
    pinned: bool = False
    waits: bool = False
    """Nothing on the shelf is planned for it, and the budget does not reach to buy it."""
    with_: tuple[int, Role] | None = None
    """Make and role it is laid together with, in one lay: its need is then that of both."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonPlan:
    """Every live make with its cloths, in the order to sew them, and what to buy."""

    roles: tuple[PlannedRole, ...]
    order: tuple[int, ...]
    """Make ids, muslins before their makes, then by due date and priority."""
    shortfalls: tuple[Shortfall, ...]
    proven: bool
    """The assignment is proven optimal."""
    gap: float
    """Relative gap to the bound when not proven."""
