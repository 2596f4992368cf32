"""Blocks of skirts.

Straight by the two-piece skirt draft of Aldrich, *Metric Pattern Cutting for Women's Wear* (from
memory): a quarter of hip and ease in each half panel, darts of 2 cm, to the knee. The A-line is
the same with the hem let out at each side edge. Ease 2 to 3 in at the hip for fitted skirts
(pattern-catalogue silhouette table, from memory); hem allowances of 2 to 3 in straight and 1 to
1 1/2 in flared (from memory).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.garment.blocks.parts import INCH, cut

if TYPE_CHECKING:
    from stash.garment.blocks.body import Body
    from stash.garment.blocks.parts import Pieces

HIP_EASE = 2.5 * INCH
WAIST_EASE = 0.75 * INCH
"""Skirt waist 1/2 to 3/4 in, 1 in at most (Central Washington Univ. costume text, ch. 16)."""
BELOW_KNEE = 20.0
STRAIGHT_HEM = 2.5 * INCH
FLARED_HEM = 1.25 * INCH
FLARE = 70.0
"""Let out at each of the four side edges of an A-line, mm; usual drafts say 5 to 10 cm (from
memory)."""
OVERLAP = 40.0
"""Of the waistband, for hooks."""


def straight_skirt(body: Body) -> Pieces:
    """Front on the fold, two backs with a zip between them, waistband."""
    return _skirt(body, flare=0, hem=STRAIGHT_HEM)


def flared_skirt(body: Body) -> Pieces:
    """An A-line: front on the fold, two backs, waistband."""
    return _skirt(body, flare=FLARE, hem=FLARED_HEM)


def _skirt(body: Body, *, flare: float, hem: float) -> Pieces:
    waist = body.waist + WAIST_EASE
    panel = {
        "waist": waist,
        "hip": body.hip,
        "length": body.waist_to_knee + BELOW_KNEE,
        "sweep": body.hip + HIP_EASE + 4 * flare,
        "hip_depth": body.waist_to_hip,
        "ease": HIP_EASE,
        "hem": hem,
    }
    return (
        cut("skirt panel", "front", panel),
        cut("skirt panel", "back", panel, copies=2, on_fold=False),
        cut("band", "waistband", {"length": waist + OVERLAP, "width": 70}),
    )
