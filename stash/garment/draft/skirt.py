"""Skirt panels, drawn as the half beside the centre line."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.garment.draft.edges import Add, Edge, curve
from stash.garment.draft.family import Family, asked, hem_of, seam_of, usual

if TYPE_CHECKING:
    from collections.abc import Mapping


def skirt_panel(mm: Mapping[str, float]) -> tuple[Edge, ...]:
    """Half a front or back: waist at x = 0, hip curve at the side, then to the hem."""
    waist = mm["waist"] / 4 + mm["darts"]
    hip = (mm["hip"] + mm["ease"]) / 4
    sweep = mm["sweep"] / 4
    deep, long = mm["hip_depth"], mm["length"]
    lift = 10.0
    side_top = (0.0, waist)
    side = curve(
        side_top, (0.45 * deep, waist + 0.55 * (hip - waist)), (0.7 * deep, hip), (deep, hip)
    )
    rise = 0.02 * max(0.0, sweep - hip)
    return (
        Edge((*side, (long - rise, sweep))),
        Edge(((long - rise, sweep), (long, 0.5 * sweep), (long, 0)), Add.HEM),
        Edge(((long, 0), (lift, 0)), Add.CENTRE),
        Edge(((lift, 0), (0.7 * lift, 0.5 * waist), side_top), Add.TOP),
    )


FAMILIES = (
    Family(
        "skirt panel",
        "Front or back of a skirt, straight or flared, cut on the fold or as two halves.",
        (
            asked("waist", "finished waist, all round"),
            asked("hip", "hip of the body, all round"),
            asked("length", "finished length from the waist"),
            asked("sweep", "finished width round the hem"),
            usual("hip_depth", "waist down to the hip", 200, may_be_zero=False),
            usual("darts", "taken up by darts or pleats in this half", 20),
            usual("ease", "hip ease; 2 to 3 in for a fitted skirt (from memory)", 50.8),
            hem_of(50),
            seam_of(),
        ),
        skirt_panel,
        on_fold=True,
    ),
)
