"""The buying list as text to take to the shop."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.report.columns import table, wrapped
from stash.units.format_length import Measure, show_length
from stash.units.length import Length
from stash.units.money import show_money

if TYPE_CHECKING:
    from stash.config import Settings
    from stash.report.records import BuyingList, ClothLine


def buy_text(buying: BuyingList, settings: Settings, width: int = 80) -> str:
    """Cloths by make with the length at each common width, then notions by make."""
    lines = ["Buying list", "=" * width]
    if buying.budget is not None:
        lines += [f"Budget: {show_money(buying.budget, settings.currency)}"]
    if not buying.cloths:
        lines += ["", "No cloth has to be bought."]
    for line in buying.cloths:
        lines += ["", *_cloth(line, settings, width)]
    if buying.notions:
        rows = [(n.make, n.what, n.amount) for n in buying.notions]
        lines += ["", table(("Notions for", "What", ">How much"), rows, width)]
    return "\n".join(lines)


def _cloth(line: ClothLine, settings: Settings, width: int) -> list[str]:
    short = line.shortfall
    rows = []
    for place, one in enumerate(short.widths):
        amount = "-"
        if one.length is not None:
            step = Length.from_mm(settings.shop_step)
            amount = show_length(one.length, settings.system, Measure.BUY, step)
        mark = "least cloth" if place == line.best else ""
        said = str(one.sureness) if one.length is not None else one.why
        rows.append((show_length(one.width, settings.system, Measure.WIDTH), amount, said, mark))
    listed = table((">Width", ">Buy", "How sure", ""), rows, width - 4)
    return [
        f"{line.make}, {short.role}",
        wrapped(short.asks, width, 4),
        wrapped(short.why, width, 4),
        *(f"    {row}" for row in listed.splitlines()),
    ]
