"""Blocks of the jacket and the coat, unlined and lined.

After the easy-fitting jacket and coat of Aldrich, *Metric Pattern Cutting for Women's Wear* (from
memory): back in two halves, fronts with a revers, sleeves set in, under and top collar, front
facings. Ease by the pattern-catalogue silhouette table (from memory): semi-fitted jacket 4 3/8 to
5 3/4 in, semi-fitted coat 6 7/8 to 8 in. A lining has the front less its facing, the back with a
pleat of 2 cm, and the sleeves.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.garment.blocks.parts import INCH, cut, hip_and_bust, neck_width
from stash.garment.blocks.tops import BACK_NECK, Top, body_measures, sleeves
from stash.garment.pattern import Role

if TYPE_CHECKING:
    from stash.garment.blocks.body import Body
    from stash.garment.blocks.parts import Pieces

REVERS = 80.0
"""Beyond the centre front, mm: the buttons' overlap and the turned-back revers."""
FACING = 110.0
"""Width of the front facing at the hem; the revers and 3 cm beside it."""
PLEAT = 20.0
"""In each half of the lining's back."""


@dataclass(frozen=True, slots=True)
class _Style:
    top: Top
    sweep: float
    """More than hip and ease, round the hem."""
    collar: float
    pockets: tuple[float, float]
    """Length and width of a patch pocket."""


def jacket(body: Body) -> Pieces:
    """To the hip."""
    top = Top(
        ease=5 * INCH,
        below_waist=body.waist_to_hip + 30,
        lowered=20,
        sleeve=1.02,
        sleeve_ease=90,
        cap=0.62,
        hand=1.6,
        hem=40,
    )
    return _coat(body, _Style(top, 0, 80, (170, 150)))


def coat(body: Body) -> Pieces:
    """To the knee, flared a little."""
    top = Top(
        ease=7.5 * INCH,
        below_waist=body.waist_to_knee + 40,
        lowered=30,
        sleeve=1.06,
        sleeve_ease=120,
        cap=0.6,
        hand=1.8,
        hem=60,
    )
    return _coat(body, _Style(top, 160, 100, (220, 190)))


def _coat(body: Body, style: _Style) -> Pieces:
    shared = body_measures(body, style.top)
    sweep = hip_and_bust(body) + style.top.ease + style.sweep
    deep = neck_width(body) + BACK_NECK
    front = shared | {"neck_depth": deep, "sweep": sweep}
    back = shared | {"neck_depth": BACK_NECK, "sweep": sweep}
    facing = {
        "length": shared["length"],
        "top": REVERS + FACING - 20,
        "bottom": FACING,
        "hem": 20,
        "seam": 15,
    }
    collar = {"neck": body.neck + 60, "height": style.collar, "point": 30}
    long, wide = style.pockets
    lining = {"hem": 10.0}
    less = 4 * (FACING - REVERS)
    inside = front | lining | {"bust": body.bust - less, "sweep": sweep - less}
    return (
        cut("bodice front", "front", front | {"stand": REVERS}, copies=2, on_fold=False),
        cut("bodice back", "back", back, copies=2, on_fold=False),
        *sleeves(body, style.top),
        cut("trapezoid", "front facing", facing, copies=2),
        cut("collar", "collar", collar),
        cut("patch pocket", "pocket", {"length": long, "width": wide}),
        cut("bodice front", "front lining", inside, copies=2, on_fold=False, role=Role.LINING),
        cut(
            "bodice back",
            "back lining",
            back | lining | {"ease": style.top.ease + 4 * PLEAT, "sweep": sweep + 4 * PLEAT},
            copies=2,
            on_fold=False,
            role=Role.LINING,
        ),
        *sleeves(body, style.top, Role.LINING),
    )
