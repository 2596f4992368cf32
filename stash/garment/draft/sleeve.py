"""Sleeves, collars and hoods."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.garment.draft.edges import Add, Edge, curve
from stash.garment.draft.family import Family, asked, hem_of, seam_of, usual

if TYPE_CHECKING:
    from collections.abc import Mapping


def sleeve(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """A set-in sleeve in one piece: cap at x = 0, front cap hollowed a little more."""
    wide = mm["upper_arm"] + mm["ease"]
    cap, long = mm["cap"], mm["length"]
    crown = (0.0, wide / 2)
    inset = (wide - mm["wrist"]) / 2
    front = curve((cap, 0), (1.02 * cap, 0.26 * wide), (0, 0.24 * wide), crown)
    back = curve(crown, (0, 0.78 * wide), (0.98 * cap, 0.76 * wide), (cap, wide))
    return (
        Edge(front),
        Edge(back),
        Edge(((cap, wide), (long, wide - inset))),
        Edge(((long, wide - inset), (long, inset)), Add.HEM),
        Edge(((long, inset), (cap, 0))),
    )


def cuffed_sleeve(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """A sleeve that ends in a cuff: shorter by the cuff, `lower` wide before it is drawn in."""
    part = {**mm, "length": mm["length"] - mm["cuff"], "wrist": mm["lower"]}
    front, back, *rest = sleeve(part)
    return (front, back, *(Edge(edge.points) for edge in rest))


def hood(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """One side of a hood: front edge at y = 0, rounded over crown and back down to the neck."""
    high, deep, neck = mm["height"], mm["depth"], mm["neck"] / 2
    low = (high + 0.08 * high, neck)
    crown = (0.02 * high, 0.45 * deep)
    back = (0.4 * high, deep)
    return (
        Edge(((0.0, 0.0), (high, 0.0)), Add.HEM),
        Edge(curve((high, 0.0), (high, 0.4 * neck), (low[0], 0.7 * neck), low)),
        Edge(
            (
                *curve(low, (0.85 * high, neck), (0.7 * high, deep), back)[:-1],
                *curve(back, (0.15 * high, deep), (0.02 * high, 0.75 * deep), crown)[:-1],
                crown,
                (0.0, 0.0),
            )
        ),
    )


def collar(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """Half a turned-down collar, its centre back on y = 0."""
    half, high, point = mm["neck"] / 2, mm["height"], mm["point"]
    dip = 0.12 * high
    return (
        Edge(((high + dip, 0), (0, 0)), Add.CENTRE),
        Edge(((0, 0), (0, 0.7 * half), (-0.3 * dip, half + point))),
        Edge(((-0.3 * dip, half + point), (high, half))),
        Edge(
            curve(
                (high, half),
                (high + 0.6 * dip, 0.75 * half),
                (high + dip, 0.4 * half),
                (high + dip, 0),
            )
        ),
    )


def collar_stand(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """Half a collar stand, curved up at the front, with a rounded button tab."""
    half, high, tab = mm["neck"] / 2, mm["height"], mm["tab"]
    lift = 0.3 * high
    end = half + tab
    return (
        Edge(((high + lift, 0), (lift, 0)), Add.CENTRE),
        Edge(((lift, 0), (lift, 0.5 * half), (0.2 * lift, half), (0.15 * high, end))),
        Edge(((0.15 * high, end), (0.6 * high, end + 0.15 * high), (high, half))),
        Edge(((high, half), (high + lift, 0.5 * half), (high + lift, 0))),
    )


FAMILIES = (
    Family(
        "sleeve",
        "A set-in sleeve in one piece, short or long.",
        (
            asked("length", "finished length from the shoulder tip to the hem"),
            asked("upper_arm", "upper arm of the body, all round"),
            asked("wrist", "finished width round the lower end"),
            asked("cap", "height of the sleeve cap above the underarm"),
            usual("ease", "ease at the upper arm", 50),
            hem_of(25),
            seam_of(),
        ),
        sleeve,
        copies=2,
    ),
    Family(
        "cuffed sleeve",
        "A set-in sleeve gathered or pleated into a cuff; the cuff itself is a band.",
        (
            asked("length", "finished length from the shoulder tip, with the cuff"),
            asked("cuff", "finished depth of the cuff"),
            asked("upper_arm", "upper arm of the body, all round"),
            asked("lower", "width round the lower edge before it is drawn into the cuff"),
            asked("cap", "height of the sleeve cap above the underarm"),
            usual("ease", "ease at the upper arm", 50),
            seam_of(),
        ),
        cuffed_sleeve,
        copies=2,
    ),
    Family(
        "hood",
        "A hood of two sides, seamed over the head.",
        (
            asked("height", "neck seam up to the top of the head, at the front edge"),
            asked("depth", "front edge to the back of the head"),
            asked("neck", "length of the neck seam, all round"),
            hem_of(25),
            seam_of(),
        ),
        hood,
        copies=2,
    ),
    Family(
        "collar",
        "A turned-down collar, half of it, centre back on the fold.",
        (
            asked("neck", "length of the neck seam, all round"),
            asked("height", "height at the centre back"),
            usual("point", "how far the point reaches beyond the neck seam", 20),
            seam_of(10),
        ),
        collar,
        copies=2,
        on_fold=True,
    ),
    Family(
        "collar stand",
        "The band a shirt collar stands on, half of it, centre back on the fold.",
        (
            asked("neck", "length of the neck seam, centre front to centre front"),
            asked("height", "finished height"),
            usual("tab", "beyond the centre front, for the button", 15),
            seam_of(10),
        ),
        collar_stand,
        copies=2,
        on_fold=True,
    ),
)
