"""Need against width: what is known at some widths, made into a curve that never rises.

A lay for a narrower width is legal on every wider one: the rest of the width is left over.
So the need at a width is the least found for it or for any narrower width, and between two
widths that were tried the curve stands at the narrower one's need, which is always enough.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from stash.cloth.record import USUAL_SELVEDGE
from stash.pairing.judgement import Sureness
from stash.units.format_length import CENTIMETRE
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from stash.cloth.record import Cloth
    from stash.garment.pattern import Role
    from stash.lay.problem import LayKind
    from stash.pairing.judgement import Need, Pairing

SELVEDGES = USUAL_SELVEDGE + USUAL_SELVEDGE
"""What is taken off a width as sold, where no cloth says better."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CurvePoint:
    """The need at one width. The usable width is the label's less the usual selvedges."""

    usable: Length
    """Between the selvedges, washed."""
    need: Length | None
    """None: some piece is wider than the cloth, or the chart does not reach so far."""
    sureness: Sureness
    why: str
    found_at: Length | None
    """The usable width the need was found for: this one or a narrower one."""

    @property
    def label(self) -> Length:
        """The width as sold."""
        return self.usable + SELVEDGES


@dataclass(frozen=True, slots=True, kw_only=True)
class CurveDot:
    """A suitable cloth of the shelf, set against the curve."""

    letter: str
    cloth: Cloth
    at: Length
    """Where it stands: usable width once washed; for a chart its width as sold, less the
    usual selvedges, because that is what charts speak of."""
    pairing: Pairing
    """Free length, need and verdict; the need is the curve's, unless `apart` says why not."""
    found_at: Length | None
    """The usable width its need was found for."""
    apart: str
    """What keeps the curve from speaking for it, such as nap; empty: on or above it, it fits."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WidthCurve:
    """How much one role of a make or pattern needs at every width."""

    title: str
    make: str | None
    """None: a bare pattern."""
    pattern: str
    view: str
    size: str
    role: Role
    kind: LayKind | None
    """None: the shortest kind at each width."""
    nap: bool
    """The curve is laid with nap."""
    by_chart: bool
    """There are no pieces: the envelope's chart was read."""
    laid: int
    """How many widths were tried."""
    points: tuple[CurvePoint, ...]
    """By width, from the narrowest; the need never rises."""
    dots: tuple[CurveDot, ...]
    """By width."""


def curve_points(
    tried: Mapping[Length, Need], widths: Iterable[Length] = ()
) -> tuple[CurvePoint, ...]:
    """The curve at the widths tried and at some more, by usable width.

    Args:
        tried: What each usable width needs by itself.
        widths: More usable widths, where nothing was tried.
    """
    points: list[CurvePoint] = []
    best: Need | None = None
    found_at: Length | None = None
    why = ""
    for usable in sorted({*tried, *widths}):
        own = tried.get(usable)
        if own is not None:
            why = own.why
            if _is_no_longer(own, best):
                best, found_at = own, usable
        if best is None:
            points.append(
                CurvePoint(
                    usable=usable, need=None, sureness=Sureness.UNKNOWN, why=why, found_at=None
                )
            )
        else:
            points.append(_point(usable, best, found_at))
    return tuple(points)


def need_at(points: Sequence[CurvePoint], usable: Length) -> CurvePoint | None:
    """The point that holds for this width: the widest that is no wider; None: all are wider."""
    place = bisect_right(points, usable, key=lambda point: point.usable)
    return points[place - 1] if place else None


def uncertain(points: Sequence[CurvePoint], most: int) -> list[Length]:
    """Up to `most` widths to try next: the middles of the stretches that hide the most.

    Where both ends need the same there is nothing to find between them. Elsewhere the
    stretch hides its width times the fall of the curve over it. Stretches of under two
    centimetres, and falls of under one, are left alone.
    """
    hidden = []
    for one, other in pairwise(points):
        if other.need is None:
            continue
        fall = (one.need or other.need + other.need) - other.need
        gap = other.usable - one.usable
        if fall > CENTIMETRE and gap >= CENTIMETRE + CENTIMETRE:
            hidden.append((-fall.mm * gap.mm, one.usable + Length(gap.nm // 2)))
    hidden.sort()
    return [Length(middle.nm // CENTIMETRE.nm * CENTIMETRE.nm) for _, middle in hidden[:most]]


def letters(count: int) -> list[str]:
    """`count` labels: a to z, then aa, ab and so on."""
    found = []
    for number in range(count):
        text, left = "", number + 1
        while left:
            left, place = divmod(left - 1, 26)
            text = chr(ord("a") + place) + text
        found.append(text)
    return found


def _is_no_longer(own: Need, best: Need | None) -> bool:
    if own.length is None:
        return False
    return best is None or best.length is None or own.length <= best.length


def _point(usable: Length, best: Need, found_at: Length | None) -> CurvePoint:
    sureness, why = best.sureness, best.why
    if usable != found_at:
        why += " Wider cloth never needs more."
        if sureness is Sureness.CHARTED:
            sureness = Sureness.ESTIMATED
    return CurvePoint(
        usable=usable, need=best.length, sureness=sureness, why=why, found_at=found_at
    )
