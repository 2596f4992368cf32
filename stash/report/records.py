"""What reports are drawn from: answers together with the records they speak of."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping
    from decimal import Decimal

    from stash.cloth.record import Cloth
    from stash.config import Settings
    from stash.garment.make import Make
    from stash.garment.pattern import Pattern, Role
    from stash.lay.problem import LayKind, Problem
    from stash.lay.result import Lay
    from stash.pairing.judgement import Need, Pairing, SeasonPlan, Shortfall, Verdict
    from stash.pairing.moves import Move
    from stash.units.length import Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Several:
    """Two ways to cut the same pieces for several makes. Lengths of washed cloth."""

    times: int
    together: Length | None
    """All pieces of all makes beside each other; None: no such lay."""
    layers: Length | None
    """The lay of one make, so many layers of it over each other; None: not on this cloth."""
    why_no_layers: str = ""

    @property
    def layers_win(self) -> bool:
        """The layers are no longer, and are one cutting for all makes."""
        if self.layers is None:
            return False
        return self.together is None or self.layers.nm <= self.together.nm


@dataclass(frozen=True, slots=True)
class StandIn:
    """A block laid out in place of pieces nobody has: it shows an estimate, nothing to cut by."""

    problem: Problem
    lay: Lay


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidOut:
    """One role of a pattern or make laid on a cloth, or on a bare width."""

    title: str
    """What is laid on what, in words."""
    pattern: Pattern
    make: Make | None
    view: str
    size: str
    role: Role
    cloth: Cloth | None
    """None: a bare width was asked."""
    usable_width: Length
    """Between the selvedges, after the first wash."""
    nap: bool
    need: Need
    problem: Problem | None
    """None when the pattern has no pieces for this role: the need is then not laid out."""
    lay: Lay | None
    shrinkage: tuple[float, float]
    """Per cent still to come, along and across."""
    cut_from_shelf: Length | None
    """Length to cut off as the cloth lies now, before washing if it is not washed."""
    have: Length | None
    """Free length after washing; None without a cloth."""
    spare: Length | None
    verdict: Verdict | None
    keeps_selvedges: bool = False
    """Pieces may lie on the selvedges: the usable width is the whole width."""

    several: Several | None = None
    """Laid for several makes at once; the need is that of all of them."""

    folded: Length | None = None
    """What it needs folded, where any kind was asked and another is shorter; None: nothing to
    set beside it."""

    caution: str = ""
    """That another make holds a part of this cloth, and where matters."""

    stand_in: StandIn | None = None
    """What may be drawn where there is no lay but an estimate."""

    @property
    def layers(self) -> int:
        """Layers of the lay that are cut at once."""
        return self.several.times if self.several is not None and self.several.layers_win else 1

    @property
    def least_mm(self) -> float | None:
        """What it cannot be shorter than, all its layers together."""
        return None if self.lay is None else self.lay.bound.length * self.layers

    @property
    def width_words(self) -> str:
        """Which width the usable one is, in words."""
        return "full width, selvedges kept" if self.keeps_selvedges else "usable width"

    @property
    def nap_words(self) -> str:
        """How the nap was taken, in words."""
        return "with nap" if self.nap else "without nap"


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedOut:
    """One role cut from several cloths, big pieces from the first: one lay for each in use."""

    title: str
    parts: tuple[LaidOut, ...]
    pieces: tuple[tuple[str, ...], ...]
    """Names of the pieces of each part."""
    fits: bool
    """Every part fits its cloth; else the last one wants more than there is."""
    least: bool
    """No other choice moves less to the later cloths: all of them were tried."""
    moved: float
    """Share of the area of all pieces that later cloths take, 0-1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KindRow:
    """One kind of lay: its need, or why there is none."""

    kind: LayKind
    need: Length | None
    """Length of washed cloth; None: this kind cannot be laid."""
    longer: Length | None
    """By how much longer than the shortest kind; None where there is no need."""
    spare: Length | None
    """Free length less need, below nothing when short; None without a cloth or a need."""
    why: str
    """Why it cannot be laid; for one that can, what is to be known of it, or empty."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KindTable:
    """All kinds of lay of one role on one cloth or width, in the order of `LayKind`."""

    title: str
    usable_width: Length
    nap: bool
    have: Length | None
    """Free length after washing; None without a cloth."""
    best: LayKind
    """The shortest; of equally short ones one of two layers, which is half the cutting."""
    rows: tuple[KindRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WidthNeed:
    """What one role needs of washed cloth sold in one width."""

    role: Role
    width: Length
    """Edge to edge, as sold."""
    plain: Need
    """Without nap."""
    napped: Need
    charted: Length | None
    """What the envelope's chart promises at this width without nap; None: nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WidthNeeds:
    """What a pattern needs over all common widths, role by role, the narrowest first."""

    pattern: Pattern
    view: str
    size: str
    kind: LayKind | None
    """Kind of lay asked for; None: the shortest of each width."""
    rows: tuple[WidthNeed, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanBook:
    """A season plan and every record it names, by id."""

    plan: SeasonPlan
    makes: Mapping[int, Make]
    patterns: Mapping[int, Pattern]
    cloths: Mapping[int, Cloth]
    people: Mapping[int, str]
    buying: BuyingList
    settings: Settings
    moves: tuple[Move, ...] = ()
    """What moved against the promises of an earlier plan, or with `supposed` against the plan."""
    supposed: tuple[str, ...] = ()
    """What was supposed, in words; empty: the stash as it is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NotionLine:
    """Something small to buy for a make."""

    make_id: int
    make: str
    what: str
    amount: str
    """How much, in words: `2`, `75 cm`, `2 x 40 cm`, `180 m`."""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ClothLine:
    """A cloth to buy: the shortfall with the name of its make and its likely cost."""

    make: str
    shortfall: Shortfall
    best: int | None
    """Place in `shortfall.widths` of the width that takes the least cloth; None: none known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyingList:
    """All that has to be bought, by section of the shop."""

    cloths: tuple[ClothLine, ...]
    notions: tuple[NotionLine, ...]
    budget: Decimal | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Could:
    """One thing the cloth could become."""

    pairing: Pairing
    """Its make is imagined: no record has its id."""
    pattern: Pattern
    view: str
    size: str
    person: str
    """Whose size it is; empty: nobody's, it is the pattern's middle size or one of all."""
    waiting: tuple[str, ...]
    """Makes of the queue from this pattern."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Becoming:
    """The cloth, and what it could become, best first."""

    cloth: Cloth
    could: tuple[Could, ...]
