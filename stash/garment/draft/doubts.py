"""Measures that make a shape but hardly a garment: asked about, never refused.

Limits are common practice where nothing else is said.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    MM = Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Doubt:
    """Something odd about measures in mm, as a statement without its question."""

    odd: Callable[[MM], bool]
    says: str


def doubts_of(family: str, mm: MM) -> tuple[str, ...]:
    """Questions to ask about these measures; empty where they are like a garment's."""
    return tuple(
        f"{doubt.says}: is that right?" for doubt in DOUBTS.get(family, ()) if doubt.odd(mm)
    )


def _more(one: str, other: str) -> Callable[[MM], bool]:
    return lambda mm: mm[one] > mm[other]


LEAST_FOOT, LEAST_HAND = 240.0, 190.0
"""Smallest ends of a leg and a sleeve that a foot and a hand of an adult pass, mm."""
WRONG_UNIT = 3.0
"""A garment is no longer than this many times the girth beside it."""

_HIP_EASE = Doubt(lambda mm: mm["ease"] > 0.5 * mm["hip"], "The ease is more than half the hip")
_LEG = (
    Doubt(lambda mm: mm["ankle"] > 0.8 * mm["hip"], "The hem of one leg is nearly as wide as hips"),
    Doubt(lambda mm: mm["ankle"] < LEAST_FOOT, "A foot hardly goes through this hem"),
    Doubt(
        lambda mm: mm.get("top", mm["hip"]) < mm["hip"] - 1 and "top" in mm,
        "The top is narrower than the hip, so it opens somewhere",
    ),
    Doubt(lambda mm: mm["crotch"] > 0.45 * mm["hip"], "The crotch is very deep for this hip"),
    Doubt(lambda mm: mm["crotch"] < 0.18 * mm["hip"], "The crotch is very shallow for this hip"),
    Doubt(lambda mm: mm["length"] > WRONG_UNIT * mm["hip"], "It is very long for this hip"),
    _HIP_EASE,
)
_BODICE = (
    Doubt(
        lambda mm: mm.get("sweep", 1e9) < mm["bust"],
        "The hem is narrower than the bust",
    ),
    Doubt(lambda mm: 2 * mm["shoulder"] > 0.65 * mm["bust"], "The shoulders are very wide"),
    Doubt(lambda mm: 2 * mm["shoulder"] < 0.28 * mm["bust"], "The shoulders are very narrow"),
    Doubt(_more("neck_depth", "armhole"), "The neckline is deeper than the armhole"),
    Doubt(_more("armhole", "length"), "The armhole is deeper than the garment is long"),
    Doubt(lambda mm: mm["ease"] > 0.5 * mm["bust"], "The ease is more than half the bust"),
)
_SLEEVE = (
    Doubt(_more("cap", "upper_arm"), "The cap is higher than the arm is round"),
    Doubt(lambda mm: mm["cap"] > 0.9 * mm["length"], "Nearly all of the sleeve is cap"),
)
_LONGER_THAN_WIDE = Doubt(_more("width", "length"), "It is wider than it is long")

DOUBTS: dict[str, tuple[Doubt, ...]] = {
    "skirt panel": (
        Doubt(_more("waist", "hip"), "The waist is wider than the hip"),
        Doubt(
            lambda mm: mm["sweep"] > 3 * (mm["hip"] + mm["ease"]),
            "The hem is more than three times as wide as the hip",
        ),
        Doubt(
            lambda mm: mm["sweep"] < mm["hip"],
            "The hem is narrower than the hip, so it wants a slit or stretch",
        ),
        Doubt(_more("hip_depth", "length"), "It ends above the hip"),
        _HIP_EASE,
    ),
    "flared skirt": (
        Doubt(lambda mm: mm["sweep"] < 1.3 * mm["waist"], "The hem hardly flares beyond the waist"),
        Doubt(lambda mm: mm["length"] > 1400, "It is longer than a person is from the waist"),
    ),
    "trouser front": _LEG,
    "trouser back": _LEG,
    "bodice front": _BODICE,
    "bodice back": _BODICE,
    "sleeve": (
        *_SLEEVE,
        Doubt(
            lambda mm: mm["wrist"] > mm["upper_arm"] + mm["ease"],
            "The lower end is wider than the upper arm",
        ),
        Doubt(lambda mm: mm["wrist"] < LEAST_HAND, "A hand hardly goes through the lower end"),
    ),
    "cuffed sleeve": (
        *_SLEEVE,
        Doubt(lambda mm: mm["lower"] < LEAST_HAND, "The lower edge is no wider than a wrist"),
        Doubt(lambda mm: mm["cuff"] > 0.4 * mm["length"], "The cuff is most of the sleeve"),
    ),
    "yoke": (Doubt(_more("height", "shoulder"), "The yoke is deeper than half of it is wide"),),
    "collar": (Doubt(lambda mm: mm["height"] > 0.4 * mm["neck"], "The collar is very high"),),
    "collar stand": (Doubt(lambda mm: mm["height"] > 70, "The stand is very high"),),
    "hood": (
        Doubt(_more("depth", "height"), "The hood is deeper than it is high"),
        Doubt(lambda mm: mm["neck"] > 2.6 * mm["depth"], "The neck is wider than the hood"),
    ),
    "pocket bag": (_LONGER_THAN_WIDE,),
    "patch pocket": (
        Doubt(lambda mm: mm["width"] > 1.5 * mm["length"], "It is much wider than it is deep"),
    ),
    "band": (_LONGER_THAN_WIDE,),
    "waistband": (
        Doubt(lambda mm: mm["height"] > 150, "The band is higher than a hand is wide"),
        Doubt(lambda mm: mm["overlap"] > 0.3 * mm["waist"], "It laps over by a third"),
    ),
    "neck facing": (Doubt(lambda mm: mm["height"] > 200, "The facing is very wide"),),
    "front facing": (_LONGER_THAN_WIDE,),
    "trapezoid": (Doubt(_more("top", "bottom"), "It is wider at its upper end"),),
    "half trapezoid": (Doubt(_more("top", "bottom"), "It is wider at its upper end"),),
    "circle sector": (
        Doubt(lambda mm: mm["inner"] < 30, "The inner edge is shorter than a finger is wide"),
    ),
}
"""By family; a family without anything odd to ask about is not here."""
