"""Plain shapes: enough for bands, bags, cuffs, pockets and anything traced roughly."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.garment.draft.edges import Add, Edge, curve
from stash.garment.draft.family import Family, asked, hem_of, seam_of, usual
from stash.garment.pattern import Grain

if TYPE_CHECKING:
    from collections.abc import Mapping


def rectangle(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """`length` along the grain by `width` across; the centre line is the edge at y = 0."""
    long, wide = mm["length"], mm["width"]
    return (
        Edge(((0, 0), (long, 0)), Add.CENTRE),
        Edge(((long, 0), (long, wide)), Add.HEM),
        Edge(((long, wide), (0, wide), (0, 0))),
    )


def trapezoid(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """`top` wide at one end, `bottom` at the other, even on both sides."""
    long, top, bottom = mm["length"], mm["top"], mm["bottom"]
    wide = max(top, bottom)
    t, b = (wide - top) / 2, (wide - bottom) / 2
    return (
        Edge(((0, t), (long, b))),
        Edge(((long, b), (long, b + bottom)), Add.HEM),
        Edge(((long, b + bottom), (0, t + top), (0, t))),
    )


def half_trapezoid(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """Half of a panel on its centre line: `top` and `bottom` are the half widths."""
    long, top, bottom = mm["length"], mm["top"], mm["bottom"]
    return (
        Edge(((0, 0), (long, 0)), Add.CENTRE),
        Edge(((long, 0), (long, bottom)), Add.HEM),
        Edge(((long, bottom), (0, top), (0, 0))),
    )


def patch_pocket(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """A pocket with its opening at x = 0, the lower corners taken off."""
    long, wide = mm["length"], mm["width"]
    cut = min(0.25 * wide, 0.25 * long)
    return (
        Edge(((0, wide), (0, 0)), Add.HEM),
        Edge(
            (
                (0, 0),
                (long - cut, 0),
                (long, cut),
                (long, wide - cut),
                (long - cut, wide),
                (0, wide),
            )
        ),
    )


def waistband(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """A band twice its finished height, as long as the waist and what laps over."""
    return rectangle({"length": mm["waist"] + mm["overlap"], "width": 2 * mm["height"]})


def pocket_bag(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """An in-seam bag: straight along the seam, rounded at the far side and the bottom."""
    long, wide = mm["length"], mm["width"]
    opening = 0.6 * long
    return (
        Edge(((0, 0), (opening, 0))),
        Edge(
            curve((opening, 0), (long, 0.1 * wide), (1.02 * long, wide), (0.7 * long, wide)),
        ),
        Edge(curve((0.7 * long, wide), (0.3 * long, wide), (0, 0.7 * wide), (0, 0))),
    )


_LENGTH = asked("length", "length along the grain")
_WIDTH = asked("width", "width across the grain")

FAMILIES = (
    Family(
        "rectangle",
        "Any straight piece: strap, pocket, panel; on the fold, give half the width.",
        (_LENGTH, _WIDTH, seam_of(0), hem_of(0)),
        rectangle,
        mirrored=False,
    ),
    Family(
        "trapezoid",
        "A straight piece that widens evenly from one end to the other.",
        (
            _LENGTH,
            asked("top", "width at the narrow or upper end"),
            asked("bottom", "width at the other end"),
            seam_of(0),
            hem_of(0),
        ),
        trapezoid,
        mirrored=False,
    ),
    Family(
        "half trapezoid",
        "Half of a widening panel, its centre on the fold.",
        (
            _LENGTH,
            asked("top", "half width at the upper end"),
            asked("bottom", "half width at the lower end"),
            seam_of(),
            hem_of(30),
        ),
        half_trapezoid,
        on_fold=True,
    ),
    Family(
        "band",
        "Waistband, cuff, neckband, hem band: a strip, double if it is folded over.",
        (
            asked("length", "finished length round the body"),
            asked("width", "cut height before allowances: twice the finished height if doubled"),
            seam_of(),
        ),
        rectangle,
        mirrored=False,
        grain=Grain.EITHER,
    ),
    Family(
        "waistband",
        "A waistband folded over along its length.",
        (
            asked("waist", "finished waist, all round"),
            asked("height", "finished height"),
            usual("overlap", "laps over at the opening; 0 with elastic or a seam", 30),
            seam_of(),
        ),
        waistband,
        mirrored=False,
        grain=Grain.EITHER,
    ),
    Family(
        "patch pocket",
        "A pocket sewn on top, lower corners taken off.",
        (_LENGTH, _WIDTH, usual("hem", "turned in at the opening", 30), seam_of(10)),
        patch_pocket,
        copies=2,
    ),
    Family(
        "pocket bag",
        "A bag let into a seam; two for each pocket.",
        (
            _LENGTH,
            asked("width", "how far the bag reaches from the seam"),
            seam_of(),
        ),
        pocket_bag,
        copies=4,
        grain=Grain.EITHER,
    ),
)
