"""What has to be bought."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.config import System
from stash.pairing.notions import notions_of
from stash.report.records import BuyingList, ClothLine, NotionLine
from stash.services.whole import Whole, read_whole
from stash.units.format_length import Measure, show_length
from stash.units.length import NM_PER_INCH, NM_PER_MM, NM_PER_YARD, ZERO, Length

if TYPE_CHECKING:
    from stash.config import Settings
    from stash.garment.make import Make
    from stash.garment.pattern import Notion
    from stash.pairing.judgement import SeasonPlan, Shortfall
    from stash.services.progress import Cancelled, Progress
    from stash.services.stash import Stash

A_REEL = Length.from_mm(10_000)
"""Longer than this is thread, told in whole metres or yards as reels are."""

REEL_UNIT = {
    System.METRIC: ("m", 1000 * NM_PER_MM),
    System.IMPERIAL: ("yd", NM_PER_YARD),
}
NOTION_STEP = {
    System.METRIC: Length(10 * NM_PER_MM),
    System.IMPERIAL: Length(NM_PER_INCH // 8),
}
"""Elastic and zips are to be bought, so they are rounded up."""


def buying_list(
    stash: Stash,
    plan: SeasonPlan | None = None,
    *,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> BuyingList:
    """Cloth nothing on the shelf will do for, and the notions of every make in the queue."""
    if plan is None:
        from stash.services.planning import season_plan  # planning ends in a buying list

        plan = season_plan(stash, progress=progress, cancelled=cancelled)
    return list_for(read_whole(stash), plan, stash.settings)


def list_for(whole: Whole, plan: SeasonPlan, settings: Settings) -> BuyingList:
    """The list for a plan, in the order to sew."""
    place = {make_id: number for number, make_id in enumerate(plan.order)}
    short = sorted(plan.shortfalls, key=lambda s: place.get(s.make_id, len(place)))
    return BuyingList(
        cloths=tuple(
            ClothLine(make=whole.makes[one.make_id].name, shortfall=one, best=cheapest_width(one))
            for one in short
        ),
        notions=tuple(
            line
            for make_id in plan.order
            for line in _notions(whole, whole.makes[make_id], settings)
        ),
        budget=settings.budget,
    )


def cheapest_width(shortfall: Shortfall) -> int | None:
    """Place of the width that takes the least cloth by area; None: no amount is known."""
    areas = {
        place: one.width.mm * one.length.mm
        for place, one in enumerate(shortfall.widths)
        if one.length is not None and one.length > ZERO
    }
    return min(areas, key=lambda place: areas[place], default=None)


def _notions(whole: Whole, make: Make, settings: Settings) -> tuple[NotionLine, ...]:
    pattern = whole.pattern_of(make)
    return tuple(
        NotionLine(
            make_id=make.id,
            make=make.name,
            what=notion.name,
            amount=_amount(notion, settings),
            note=notion.note,
        )
        for notion in notions_of(make, pattern, settings.system, whole.person_of(make))
    )


def _amount(notion: Notion, settings: Settings) -> str:
    if not notion.length:
        return str(notion.amount)
    if notion.length > A_REEL:
        unit, nm = REEL_UNIT[settings.system]
        each = f"{-(-notion.length.nm // nm)} {unit}"
    else:
        step = NOTION_STEP[settings.system]
        each = show_length(notion.length.ceil_to(step), settings.system, Measure.EXTENT)
    return each if notion.amount == 1 else f"{notion.amount} × {each}"
