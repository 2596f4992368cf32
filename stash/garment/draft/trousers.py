"""Trouser legs, drafted from the body by rules in print.

Front fork hip/20 and back fork hip/10 follow tailoring drafts (from memory); together
they are the 15 per cent of the hip that other published blocks give too. Crotch-depth
ease is by New Mexico State University Extension Guide C-209.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.garment.draft.edges import Add, Edge, curve
from stash.garment.draft.family import Family, asked, hem_of, optional, seam_of, usual
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Mapping

BACK_WIDER = 10.0
"""The back takes this much of each side from the front, mm (common practice)."""


def crotch_depth_ease(hip: Length) -> Length:
    """Ease added to the seated crotch depth, by the hip (NMSU Guide C-209).

    1/2 in below 36 in, 3/4 in from 36 to 38 in, 1 in above 38 in.
    """
    if hip < Length.from_inches(36):
        return Length.from_inches(0.5)
    if hip <= Length.from_inches(38):
        return Length.from_inches(0.75)
    return Length.from_inches(1)


@dataclass(frozen=True, slots=True)
class _Cut:
    """What differs between front and back, mm."""

    wider: float
    fork: float
    tilt: float
    """Share of the waist shaping taken at the centre seam."""
    rise: float
    drop: float


def trouser_front(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """The front leg: hip/4 and ease/4 wide, less 1 cm given to the back."""
    return _leg(mm, _Cut(-BACK_WIDER, mm["hip"] / 20, 0.2, 0, 0))


def trouser_back(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """The back leg: a longer fork, the centre seam tilted and raised for sitting."""
    return _leg(mm, _Cut(BACK_WIDER, mm["hip"] / 10, 0.45, 30, 5))


def _leg(mm: Mapping[str, float], cut: _Cut) -> tuple[Edge, ...]:
    """Side seam near y = 0, crotch towards +y, waist at x = 0, hem at the far end."""
    around = mm["hip"] + mm["ease"]
    wide = around / 4 + cut.wider
    top = mm.get("top", mm["hip"] + mm["ease"] / 2) / 4 + cut.wider
    depth = mm["crotch"] + crotch_depth_ease(Length.from_mm(mm["hip"])).mm
    long = mm["length"]
    hip_line = 0.65 * depth
    fork = (depth + cut.drop, wide + cut.fork)
    crease = fork[1] / 2
    hem = (mm["ankle"] / 2 + cut.wider) / 2
    knee_x = depth + 0.45 * (long - depth)
    knee = hem + 0.25 * (crease - hem)
    inward = max(10.0, cut.tilt * (wide - top))
    centre_top = (-cut.rise, wide - inward)
    side_top = (0.0, wide - inward - top)
    leg = knee_x - depth
    side = (
        *curve(side_top, (0.3 * depth, side_top[1] / 3), (0.45 * depth, 0), (hip_line, 0))[:-1],
        *curve(
            (hip_line, 0),
            (depth, 0),
            (knee_x - 0.4 * leg, 0.9 * (crease - knee)),
            (knee_x, crease - knee),
        ),
        (long, crease - hem),
    )
    inside = (
        (long, crease + hem),
        *curve(
            (knee_x, crease + knee),
            (knee_x - 0.45 * leg, crease + knee + 0.06 * leg),
            (depth + 0.12 * leg, fork[1] - 0.35 * cut.fork),
            fork,
        ),
    )
    crotch = (
        *curve(fork, (depth, fork[1] - 0.55 * cut.fork), (0.93 * depth, wide), (hip_line, wide)),
        centre_top,
    )
    return (
        Edge(side),
        Edge((side[-1], inside[0]), Add.HEM),
        Edge(inside),
        Edge(crotch),
        Edge((centre_top, side_top), Add.TOP),
    )


_MEASURES = (
    asked("hip", "hip of the body, all round"),
    asked("crotch", "crotch depth of the body, seated: waist to seat at the side"),
    asked("length", "finished side length, waist to hem"),
    asked("ankle", "finished width round the hem of one leg"),
    usual("ease", "hip ease; at least 2 to 4 in (NMSU Guide C-209)", 50.8),
    optional("top", "width round the top edge; left out: hip and half the ease, to pull on over"),
    usual("casing", "added above the waist: elastic, 5 mm, and the turn under", 45),
    hem_of(40),
    seam_of(),
)

FAMILIES = (
    Family("trouser front", "Front leg of trousers or shorts.", _MEASURES, trouser_front, copies=2),
    Family("trouser back", "Back leg of trousers or shorts.", _MEASURES, trouser_back, copies=2),
)
