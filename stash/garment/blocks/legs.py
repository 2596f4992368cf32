"""Blocks of trousers, shorts and leggings.

Legs by the drafting family: forks of hip/20 and hip/10 (tailoring drafts, from memory) and
crotch-depth ease by the hip (New Mexico State University Extension Guide C-209). Ease by C-209:
2 to 4 in at the hip, up to 1 in at the waist. The hem is the trouser bottom width of Aldrich,
*Metric Pattern Cutting for Women's Wear* (from memory). Pieces as they are usual: two fronts
and two backs with an elastic waist; with a waistband, fly and pockets when tailored. What is cut
from pocketing and interfacing is too little to be estimated: their charts speak for them.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from stash.garment.blocks.parts import INCH, cut

if TYPE_CHECKING:
    from stash.garment.blocks.body import Body
    from stash.garment.blocks.parts import Pieces

HIP_EASE = 3 * INCH
"""The middle of C-209's 2 to 4 in."""
WAIST_EASE = 1 * INCH
DARTS = 80.0
"""Four darts of 2 cm in front and back (Aldrich, from memory)."""
OFF_FLOOR = 30.0
"""Full length ends over the shoe (common practice)."""
ABOVE_KNEE = 50.0
"""Shorts end above the knee (common practice)."""
BOTTOM = 0.23
"""Half of the hem of one leg, of the hip: 22 cm where the hip is 94 cm."""
SHORTS_HEM = 0.65
"""Of the hip, round the hem of one leg: a thigh of about 0.6 and some ease (from memory)."""
SMALLER = 0.95
"""Leggings are smaller than the body by the 5 per cent of very stretchy knits (Richardson,
*Designing and Patternmaking for Stretch Fabrics*, from memory)."""
LEGGINGS_HEM = 0.24
"""Of the hip, round the ankle (from memory)."""
CASING = 45.0
"""For elastic of 3 cm: the elastic, 5 mm, and the turn under (from memory)."""
TURN_UP = 40.0
"""Hem of trousers: 1 1/2 to 2 in (from memory)."""


def _legs(
    body: Body,
    *,
    top: float,
    casing: float,
    length: float,
    hem_round: float,
    ease: float = HIP_EASE,
) -> Pieces:
    measures = {
        "hip": body.hip,
        "crotch": body.rise,
        "length": length,
        "ankle": hem_round,
        "ease": ease,
        "top": top,
        "casing": casing,
        "hem": TURN_UP,
    }
    return (
        cut("trouser front", "front", measures),
        cut("trouser back", "back", measures),
    )


def full_length(body: Body) -> float:
    """Side length of full-length trousers, mm."""
    return body.waist_to_floor - OFF_FLOOR


def elastic_trousers(body: Body) -> Pieces:
    """Four legs, wide enough at the top to pull on over the hip."""
    return _legs(
        body,
        top=body.hip + HIP_EASE / 2,
        casing=CASING,
        length=full_length(body),
        hem_round=2 * BOTTOM * body.hip,
    )


def shorts(body: Body) -> Pieces:
    """As elastic trousers, ending above the knee."""
    return _legs(
        body,
        top=body.hip + HIP_EASE / 2,
        casing=CASING,
        length=body.waist_to_knee - ABOVE_KNEE,
        hem_round=SHORTS_HEM * body.hip,
    )


def leggings(body: Body) -> Pieces:
    """Knit legs no wider than the body, narrow at the ankle."""
    small = replace(body, hip=SMALLER * body.hip)
    return _legs(
        small,
        top=small.hip,
        casing=CASING,
        length=full_length(body),
        hem_round=LEGGINGS_HEM * body.hip,
        ease=0,
    )


def tailored_trousers(
    body: Body, *, length: float | None = None, hem_round: float | None = None
) -> Pieces:
    """Legs with darts, waistband, fly and slant pockets.

    Args:
        body: The body.
        length: Finished side length in mm; None: full length.
        hem_round: Finished hem of one leg in mm; None: the usual one.
    """
    waist = body.waist + WAIST_EASE
    return (
        *_legs(
            body,
            top=min(waist + DARTS, body.hip + HIP_EASE),
            casing=15,
            length=length or full_length(body),
            hem_round=hem_round or 2 * BOTTOM * body.hip,
        ),
        cut("band", "waistband", {"length": waist + 50, "width": 80}),
        cut("rectangle", "fly", {"length": 200, "width": 90}, copies=2),
        cut("rectangle", "pocket facing", {"length": 220, "width": 120}, copies=2),
    )
