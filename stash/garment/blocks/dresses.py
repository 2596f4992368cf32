"""Blocks of the shift dress and the pinafore.

The shift by the one-piece dress of Aldrich, *Metric Pattern Cutting for Women's Wear* (from
memory): bodice and skirt in one, let out a little towards the hem, to the knee; ease of
semi-fitted dresses, 4 1/8 to 5 in (pattern-catalogue silhouette table, from memory). The pinafore
has the usual pieces (from memory): a bib on an A-line skirt, straps, waistband, two pockets.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.garment.blocks.parts import INCH, OVER_NAPE, cut, hip_and_bust, neck_width
from stash.garment.blocks.tops import BACK_NECK, Top, body_measures, front_neck, sleeves
from stash.garment.pattern import Role

if TYPE_CHECKING:
    from stash.garment.blocks.body import Body
    from stash.garment.blocks.parts import Pieces

EASE = 4.5 * INCH
FLARE = 60.0
"""Let out at each of the four side edges at the hem, mm (common practice)."""
HEM = 40.0
FACING = 60.0
FULLNESS = 80.0
"""More than the hip, round a pinafore's skirt, besides its ease."""


def shift_dress(body: Body) -> Pieces:
    """Front on the fold, two backs with a zip, short sleeves, neck facings."""
    top = Top(
        ease=EASE,
        below_waist=body.waist_to_knee,
        lowered=10,
        sleeve=0.35,
        sleeve_ease=60,
        cap=0.6,
        hem=HEM,
    )
    shared = body_measures(body, top)
    shared["sweep"] = hip_and_bust(body) + EASE / 2 + 4 * FLARE
    deep = front_neck(body)
    faced = {"neck_width": neck_width(body), "height": FACING}
    return (
        cut("bodice front", "front", shared | {"neck_depth": deep}),
        cut("bodice back", "back", shared | {"neck_depth": BACK_NECK}, copies=2, on_fold=False),
        *sleeves(body, top),
        cut("neck facing", "front neck facing", faced | {"neck_depth": deep}),
        cut(
            "neck facing",
            "back neck facing",
            faced | {"neck_depth": BACK_NECK},
            copies=2,
            on_fold=False,
        ),
    )


def pinafore(body: Body) -> Pieces:
    """Bib, crossed straps, A-line skirt, waistband, pockets; the bib is faced with lining."""
    waist = body.waist + INCH
    ease = 2.5 * INCH
    panel = {
        "waist": waist,
        "hip": body.hip,
        "length": body.waist_to_knee + 20,
        "sweep": body.hip + ease + FULLNESS + 4 * FLARE,
        "hip_depth": body.waist_to_hip,
        "ease": ease + FULLNESS,
        "hem": HEM,
    }
    bib = {"length": 0.6 * body.nape_to_waist, "top": body.bust / 8, "bottom": body.bust / 7}
    return (
        cut("skirt panel", "skirt front", panel),
        cut("skirt panel", "skirt back", panel, copies=2, on_fold=False),
        cut("half trapezoid", "bib", bib),
        cut("half trapezoid", "bib facing", bib, role=Role.LINING),
        cut(
            "rectangle",
            "strap",
            {"length": 1.5 * body.nape_to_waist + 2 * OVER_NAPE, "width": 110},
            copies=2,
        ),
        cut("band", "waistband", {"length": waist + 50, "width": 80}),
        cut("patch pocket", "pocket", {"length": 200, "width": 170}),
    )
