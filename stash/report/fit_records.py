"""Ways to make a role fit a cloth, as reports draw them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stash.cloth.record import Cloth
    from stash.garment.make import Make
    from stash.garment.pattern import Role
    from stash.pairing.judgement import BuyWidth, Pairing
    from stash.pairing.ways.cut import Way
    from stash.pairing.ways.donors import Distance
    from stash.pairing.ways.offer import LeftOut
    from stash.report.records import LaidOut
    from stash.units.length import Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """Pieces cut from another cloth, with that cloth's own verdict."""

    cloth: Cloth
    pieces: tuple[str, ...]
    pairing: Pairing
    apart: Distance
    laid: LaidOut | None
    """Its own lay; None where there is none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rung:
    """One way on top of those before it; the first of a ladder is the pattern as it is."""

    way: Way | None
    """None: nothing is changed."""
    need: Length | None
    """Of the cloth itself, washed, with everything up to here; None: no such lay."""
    wins: Length | None
    """How much shorter than the rung before; None where one of the two has no lay."""
    short: Length | None
    """Need less what is free; below nothing: so much is left."""
    margin: Length
    """What is left should be this much, or nothing where less margin is accepted."""
    given: tuple[Given, ...] = ()
    laid: LaidOut | None = None
    """Its lay, checked; None where there is none."""

    @property
    def fits(self) -> bool:
        """Enough is free, with the margin, and every other cloth is enough for its part."""
        return (
            self.short is not None
            and self.short.nm <= -self.margin.nm
            and all(one.pairing.verdict.can_be_cut for one in self.given)
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class FitIn:
    """What there is to do about one role of a make and one cloth."""

    make: Make
    cloth: Cloth
    role: Role
    pairing: Pairing
    """As it stands, nothing changed."""
    have: Length
    """Free of the cloth, washed."""
    search_won: Length | None
    """What looking longer won; None: nobody looked longer."""
    seconds: float
    """How long was looked for a shorter lay."""
    ladder: tuple[Rung, ...]
    """The combination that fits at the least cost, way by way; else the nearest."""
    alone: tuple[Rung, ...]
    """Every way by itself, the cheapest first."""
    fits: bool
    """The last rung of the ladder fits."""
    least: bool
    """Nothing cheaper fits (or nothing at all): everything was laid or ruled out."""
    cost: float
    """Of the ladder, on the scale of `trade.ways`."""
    laid: int
    """Combinations laid out on the way, single ways included."""
    left_out: tuple[LeftOut, ...]
    buy: tuple[BuyWidth, ...] = ()
    """Where nothing fits: what to buy new, at common widths."""

    @property
    def last(self) -> Rung:
        """The end of the ladder."""
        return self.ladder[-1]

    @property
    def as_it_is(self) -> bool:
        """It fits with nothing changed."""
        return self.fits and all(rung.way is None for rung in self.ladder)
