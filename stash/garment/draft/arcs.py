"""Round pieces: sectors of a ring, as flared skirts, circle skirts and flounces are cut."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.garment.draft.edges import Add, Edge
from stash.garment.draft.family import Family, asked, hem_of, seam_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from stash.garment.draft.edges import Point

WIDEST = math.radians(330)
"""A sector opens no further: its allowances would meet at the slit."""
HALF_WIDEST = math.pi
"""Of the half beside a fold: opened out it is a whole ring."""
SAGITTA = 0.2
"""Millimetres between an arc and the straight lines that stand for it."""


def circle_sector(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """A sector between an `inner` and an `outer` arc, `length` apart; its first side is at y = 0.

    The radius of the inner arc follows from the three (geometry of a ring: both arcs have the
    same angle, outer - inner = angle x length).

    Raises:
        BadInputError: The arcs do not differ, or the sector would close on itself.
    """
    return _sector(mm["inner"], mm["outer"], mm["length"], WIDEST)


def flared_skirt(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """Half a front or back: a quarter of the waist above, a quarter of the hem below."""
    return _sector(mm["waist"] / 4, mm["sweep"] / 4, mm["length"], HALF_WIDEST)


def _sector(inner: float, outer: float, long: float, widest: float) -> tuple[Edge, ...]:
    angle = (outer - inner) / long
    if angle <= 0:
        raise BadInputError(
            "The outer edge is no longer than the inner one, so nothing is round.",
            "Draft a rectangle or a trapezoid.",
        )
    if angle > widest:
        raise BadInputError(
            f"These lengths make a sector of {math.degrees(angle):.0f} degrees, which closes on "
            "itself.",
            "Cut it as two pieces: give half of both edges.",
        )
    near = inner / angle
    far = near + long
    lower, upper = _arc(far, angle), _arc(near, angle)[::-1]
    return (
        Edge(((near, 0.0), (far, 0.0)), Add.CENTRE),
        Edge(lower, Add.HEM),
        Edge((lower[-1], upper[0])),
        Edge(upper, Add.TOP),
    )


def _arc(radius: float, angle: float) -> tuple[Point, ...]:
    """Points of an arc round the origin from the x axis, mm."""
    step = 2 * math.acos(max(0.0, 1 - SAGITTA / radius)) if radius > SAGITTA else angle
    count = max(2, math.ceil(angle / step))
    turns = [angle * i / count for i in range(count + 1)]
    return tuple((radius * math.cos(turn), radius * math.sin(turn)) for turn in turns)


FAMILIES = (
    Family(
        "flared skirt",
        "Front or back of a skirt that flares from the waist, A-line to full circle, on the fold.",
        (
            asked("waist", "finished waist, all round"),
            asked("sweep", "finished width round the hem"),
            asked("length", "finished length from the waist"),
            hem_of(20),
            seam_of(),
        ),
        flared_skirt,
        on_fold=True,
    ),
    Family(
        "circle sector",
        "Part of a ring: circle skirt, flounce, cape; on the fold, give half of both edges.",
        (
            asked("inner", "length of the inner edge of this piece"),
            asked("outer", "length of its outer edge"),
            asked("length", "from the inner to the outer edge"),
            hem_of(20),
            seam_of(),
        ),
        circle_sector,
    ),
)
