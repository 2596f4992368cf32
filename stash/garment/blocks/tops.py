"""Blocks of what is worn above: T-shirt, sweatshirt, turtleneck, shirt, blouse.

Bodies and sleeves by the drafting families, with the measures of Aldrich, *Metric Pattern Cutting
for Women's Wear* (from memory): neck width a fifth of the neck, back neck 2 cm deep, underarm
lowered as the ease grows, cap of a set-in sleeve a third of the armhole's length and flatter in
shirts and knits. Ease in wovens by the pattern-catalogue silhouette table (from memory):
semi-fitted blouse 4 1/8 to 5 in, loose-fitting shirt 5 1/8 to 8 in. Knits carry little wearing
ease (Central Washington Univ. costume text, ch. 16).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.garment.blocks.parts import INCH, OVER_NAPE, across_shoulder, cut, neck_width
from stash.garment.pattern import Role

if TYPE_CHECKING:
    from stash.garment.blocks.body import Body
    from stash.garment.blocks.parts import Pieces
    from stash.garment.pattern import Piece

BACK_NECK = 40.0
"""Depth of the back neckline below the shoulder at the neck, which lies 2 cm over the nape; 2 cm
more for a neckline a little wider than the neck (common practice)."""
STAND = 60.0
"""Beyond the centre front: button stand and the facing turned back (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Top:
    """What differs between one top and another, mm."""

    ease: float
    below_waist: float
    """Length below the waist at the side."""
    lowered: float
    """How much lower than on the body the underarm lies."""
    dropped: float = 0.0
    """How far the shoulder reaches over the arm."""
    sleeve: float = 1.0
    """Length, of the arm; 0: none."""
    sleeve_ease: float = 50.0
    cap: float = 0.55
    """Height of the sleeve cap, of the armhole's depth."""
    hand: float = 1.3
    """Width at the end of a long sleeve, of the wrist."""
    hem: float = 25.0
    seam: float = 15.0


def half_bust(body: Body, top: Top) -> float:
    """Bust with its ease, all round."""
    return body.bust + top.ease


def armhole_depth(body: Body, top: Top) -> float:
    """From the shoulder at the neck down to the underarm."""
    return body.armhole + OVER_NAPE + top.lowered


def body_measures(body: Body, top: Top) -> dict[str, float]:
    """What front and back share."""
    return {
        "bust": body.bust,
        "ease": top.ease,
        "length": OVER_NAPE + body.nape_to_waist + top.below_waist,
        "shoulder": across_shoulder(body) + top.dropped,
        "armhole": armhole_depth(body, top),
        "neck_width": neck_width(body),
        "hem": top.hem,
        "seam": top.seam,
    }


def sleeves(body: Body, top: Top, role: Role = Role.MAIN) -> Pieces:
    """A pair of set-in sleeves; none where the top has none."""
    if not top.sleeve:
        return ()
    cap = top.cap * armhole_depth(body, top)
    wide = body.upper_arm + top.sleeve_ease
    share = min(1.0, top.sleeve)
    hand = (1 - share) * wide * 0.92 + share * top.hand * body.wrist
    return (
        cut(
            "sleeve",
            "sleeve",
            {
                "length": max(top.sleeve * body.arm - top.dropped, cap + 20),
                "upper_arm": body.upper_arm,
                "ease": top.sleeve_ease,
                "wrist": min(hand, wide),
                "cap": cap,
                "hem": top.hem,
                "seam": top.seam,
            },
            role=role,
        ),
    )


def front_neck(body: Body) -> float:
    """Depth of the front neckline below the shoulder at the neck."""
    return neck_width(body) + BACK_NECK / 2


def buttoned_front(body: Body, top: Top) -> Piece:
    """Half a front that buttons, cut twice."""
    measures = body_measures(body, top) | {"neck_depth": front_neck(body), "stand": STAND}
    return cut("bodice front", "front", measures, copies=2, on_fold=False)


def pullover(body: Body, top: Top) -> Pieces:
    """Front and back on the fold, and the sleeves."""
    shared = body_measures(body, top)
    return (
        cut("bodice front", "front", shared | {"neck_depth": front_neck(body)}),
        cut("bodice back", "back", shared | {"neck_depth": BACK_NECK}),
        *sleeves(body, top),
    )


def t_shirt(body: Body) -> Pieces:
    """Short sleeves and a neckband."""
    top = Top(
        ease=3 * INCH,
        below_waist=body.waist_to_hip,
        lowered=10,
        sleeve=0.38,
        sleeve_ease=60,
        cap=0.5,
        seam=10,
    )
    neckband = cut("band", "neckband", {"length": 0.9 * body.neck, "width": 40, "seam": 10})
    return (*pullover(body, top), neckband)


def sweatshirt(body: Body) -> Pieces:
    """Loose and dropped at the shoulder; cuffs, neckband and hem band of rib."""
    top = Top(
        ease=8 * INCH,
        below_waist=body.waist_to_hip - 60,
        lowered=35,
        dropped=30,
        sleeve=0.92,
        sleeve_ease=120,
        cap=0.4,
        hand=1.5,
        hem=10,
        seam=10,
    )
    around = half_bust(body, top)
    rib = Role.RIB
    return (
        *pullover(body, top),
        cut("band", "neckband", {"length": 0.9 * body.neck, "width": 60, "seam": 10}, role=rib),
        cut(
            "band",
            "cuff",
            {"length": 1.1 * body.wrist, "width": 140, "seam": 10},
            copies=2,
            role=rib,
        ),
        cut(
            "band",
            "hem band",
            {"length": 0.4 * around, "width": 140, "seam": 10},
            copies=2,
            role=rib,
        ),
    )


def turtleneck(body: Body) -> Pieces:
    """Close to the body, long sleeves, a collar folded twice."""
    top = Top(
        ease=0.5 * INCH,
        below_waist=body.waist_to_hip,
        lowered=0,
        sleeve=1.03,
        sleeve_ease=20,
        cap=0.6,
        hand=1.15,
        seam=10,
    )
    collar = cut("rectangle", "collar", {"length": 0.9 * body.neck + 20, "width": 400})
    return (*pullover(body, top), collar)


def shirt(body: Body) -> Pieces:
    """Loose, buttoned in front, yoke, cuffs, collar on a stand, one pocket."""
    top = Top(
        ease=6.5 * INCH,
        below_waist=body.waist_to_hip + 60,
        lowered=30,
        dropped=15,
        sleeve=0.94,
        sleeve_ease=120,
        cap=0.42,
        hand=1.6,
        hem=20,
    )
    shared = body_measures(body, top)
    yoke = 90.0
    neck = body.neck + 15
    return (
        buttoned_front(body, top),
        cut(
            "half trapezoid",
            "back",
            {
                "length": shared["length"] - BACK_NECK - yoke,
                "top": half_bust(body, top) / 4,
                "bottom": half_bust(body, top) / 4,
                "hem": top.hem,
            },
        ),
        cut(
            "yoke",
            "yoke",
            {
                "shoulder": shared["shoulder"],
                "neck_width": neck_width(body),
                "neck_depth": BACK_NECK,
                "height": yoke,
            },
        ),
        *sleeves(body, top),
        cut("rectangle", "cuff", {"length": 1.35 * body.wrist + 50, "width": 150}, copies=2),
        cut("collar", "collar", {"neck": neck, "height": 75}),
        cut("collar stand", "collar stand", {"neck": neck, "height": 35}),
        cut("patch pocket", "pocket", {"length": 140, "width": 120}, copies=1),
    )


def blouse(body: Body, *, sleeve: float = 0.94) -> Pieces:
    """Semi-fitted, buttoned in front, with a collar; cuffs with a long sleeve.

    Args:
        body: The body.
        sleeve: Length of the sleeve, of the arm: a long one by default, 0 for none.
    """
    top = Top(
        ease=4.5 * INCH,
        below_waist=body.waist_to_hip,
        lowered=15,
        sleeve=sleeve,
        sleeve_ease=75,
        cap=0.58,
        hand=1.6,
        hem=20,
    )
    shared = body_measures(body, top)
    cuffs = (cut("rectangle", "cuff", {"length": 1.35 * body.wrist + 50, "width": 130}, copies=2),)
    return (
        buttoned_front(body, top),
        cut("bodice back", "back", shared | {"neck_depth": BACK_NECK}),
        *sleeves(body, top),
        *(cuffs if sleeve > 0.8 else ()),
        cut("collar", "collar", {"neck": body.neck + 10, "height": 75}),
    )
