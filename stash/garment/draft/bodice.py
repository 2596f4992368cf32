"""Upper-body pieces: front, back, yoke and facings, each drawn as its half.

x = 0 is the highest point of the shoulder at the neck; y = 0 is the centre line.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.garment.draft.edges import Add, Edge, curve
from stash.garment.draft.family import Family, asked, hem_of, optional, seam_of, usual

if TYPE_CHECKING:
    from collections.abc import Mapping

SHOULDER_DROP = 0.33
"""Fall of the shoulder seam for each mm outward: about 18 degrees (common practice)."""


def bodice_front(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """Half front: the armhole is scooped deeper than in the back."""
    return _bodice(mm, scoop=0.62)


def bodice_back(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """Half back."""
    return _bodice(mm, scoop=0.45)


def _bodice(mm: Mapping[str, float], scoop: float) -> tuple[Edge, ...]:
    half = (mm["bust"] + mm["ease"]) / 4
    neck, deep, long = mm["neck_width"], mm["neck_depth"], mm["length"]
    shoulder = mm["shoulder"]
    stand = mm["stand"]
    tip = (SHOULDER_DROP * (shoulder - neck), shoulder)
    under = (mm["armhole"], half)
    hem_half = mm.get("sweep", mm["bust"] + mm["ease"]) / 4
    reach = under[0] - tip[0]
    armhole = curve(
        tip,
        (tip[0] + 0.55 * reach, tip[1] - scoop * 0.12 * reach),
        (under[0], under[1] - scoop * (half - shoulder) - 0.15 * reach),
        under,
    )
    neckline = curve((deep, 0), (deep, 0.55 * neck), (0.45 * deep, neck), (0, neck))
    edges = (
        Edge(((long, hem_half), (long, -stand)), Add.HEM),
        Edge(((long, -stand), (deep, -stand)), Add.CENTRE),
        Edge(((deep, -stand), *neckline) if stand else neckline),
        Edge(((0, neck), tip)),
        Edge(armhole),
        Edge((under, (long, hem_half))),
    )
    return tuple(_shifted(edge, stand) for edge in edges)


def yoke(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """Half back yoke: neck, shoulder, a short piece of armhole, straight lower edge."""
    neck, deep, shoulder = mm["neck_width"], mm["neck_depth"], mm["shoulder"]
    low = deep + mm["height"]
    tip = (SHOULDER_DROP * (shoulder - neck), shoulder)
    return (
        Edge(((low, shoulder - 5), (low, 0))),
        Edge(((low, 0), (deep, 0)), Add.CENTRE),
        Edge(curve((deep, 0), (deep, 0.55 * neck), (0.45 * deep, neck), (0, neck))),
        Edge(((0, neck), tip, (low, shoulder - 5))),
    )


def neck_facing(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """Half facing of a neckline, `height` wide, ending at the shoulder seam."""
    neck, deep, wide = mm["neck_width"], mm["neck_depth"], mm["height"]
    outer = neck + wide
    low = deep + wide
    tip = (SHOULDER_DROP * wide, outer)
    return (
        Edge(((low, 0), (deep, 0)), Add.CENTRE),
        Edge(curve((deep, 0), (deep, 0.55 * neck), (0.45 * deep, neck), (0, neck))),
        Edge(((0, neck), tip)),
        Edge(
            curve(
                tip,
                (tip[0] + 0.5 * (low - tip[0]), outer),
                (low, 0.6 * outer),
                (low, 0),
            ),
            Add.HEM,
        ),
    )


def front_facing(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """The facing of an open front, from the shoulder seam down to the hem."""
    neck, deep, wide, long = mm["neck_width"], mm["neck_depth"], mm["width"], mm["length"]
    tip = (SHOULDER_DROP * 0.6 * wide, neck + 0.6 * wide)
    return (
        Edge(((long, 0), (deep, 0))),
        Edge(curve((deep, 0), (deep, 0.55 * neck), (0.45 * deep, neck), (0, neck))),
        Edge(((0, neck), tip)),
        Edge(
            (
                *curve(tip, (0.6 * deep, tip[1]), (deep, wide), (deep + wide, wide)),
                (long, wide),
            ),
            Add.EDGE,
        ),
        Edge(((long, wide), (long, 0)), Add.HEM),
    )


def _shifted(edge: Edge, by: float) -> Edge:
    return Edge(tuple((x, y + by) for x, y in edge.points), edge.add)


_NECK = (
    asked("neck_width", "centre to the neck end of the shoulder seam, straight across"),
    asked("neck_depth", "high shoulder down to the neckline at the centre"),
)

_BODICE = (
    asked("bust", "bust or chest of the body, all round"),
    asked("length", "finished length from the high shoulder to the hem"),
    asked("shoulder", "centre to the shoulder tip, straight across"),
    asked("armhole", "high shoulder down to the armhole's lowest point"),
    *_NECK,
    usual("ease", "ease at the bust; 3 to 4 in is the least in wovens (NMSU Guide C-228)", 90),
    optional("sweep", "finished width round the hem; left out: as the bust with its ease"),
    usual("stand", "beyond the centre, for buttons and facing; 0 on the fold", 0),
    hem_of(25),
    seam_of(),
)

FAMILIES = (
    Family(
        "bodice front",
        "Front of a shirt, top, dress or jacket, cut on the fold or as two halves.",
        _BODICE,
        bodice_front,
        on_fold=True,
    ),
    Family(
        "bodice back",
        "Back of a shirt, top, dress or jacket, cut on the fold or as two halves.",
        _BODICE,
        bodice_back,
        on_fold=True,
    ),
    Family(
        "yoke",
        "Back yoke with the neck and shoulder seams.",
        (
            asked("shoulder", "centre to the shoulder tip, straight across"),
            *_NECK,
            asked("height", "neckline to the lower edge at the centre"),
            seam_of(),
        ),
        yoke,
        copies=2,
        on_fold=True,
    ),
    Family(
        "neck facing",
        "Facing of a neckline, ending at the shoulder.",
        (
            *_NECK,
            asked("height", "width of the facing"),
            usual("hem", "added at the outer edge", 0),
            seam_of(),
        ),
        neck_facing,
        on_fold=True,
    ),
    Family(
        "front facing",
        "Facing of a front that opens, from the shoulder to the hem.",
        (
            asked("length", "high shoulder to the hem"),
            asked("width", "width of the facing below the neckline"),
            *_NECK,
            usual("edge", "added at the inner edge", 0),
            hem_of(25),
            seam_of(),
        ),
        front_facing,
        copies=2,
    ),
)
