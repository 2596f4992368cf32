"""What buying would cost, told from what the person paid before."""

from __future__ import annotations

import math
from statistics import median
from typing import TYPE_CHECKING

from stash.geometry.ring import signed_area
from stash.pairing.assign import Spending

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from stash.cloth.record import Cloth
    from stash.config import Settings
    from stash.pairing.choose import Filled

WAITING = 0.9
"""Share of the priority lost when a make waits for money: nearly as bad as not having it."""
USED = 0.75
"""Share of a cloth's area that pieces fill (common for garments laid at home, a house choice)."""
CENTS = 100


def spending_of(
    filled: Sequence[Filled], cloths: Mapping[int, Cloth], settings: Settings
) -> Spending | None:
    """The budget with what each slot would cost to buy; None where no budget is set."""
    if settings.budget is None:
        return None
    price = usual_price(cloths)
    slots = [n for n, each in enumerate(filled) if each.slot.held is None]
    makes: dict[int, list[int]] = {}
    for number in slots:
        makes.setdefault(filled[number].slot.make.id, []).append(number)
    return Spending(
        budget=math.floor(settings.budget * CENTS),
        costs={n: math.ceil(CENTS * price * area_to_buy(filled[n])) for n in slots},
        waits=tuple(
            (tuple(numbers), WAITING * filled[numbers[0]].slot.make.priority)
            for numbers in makes.values()
        ),
    )


def usual_price(cloths: Mapping[int, Cloth]) -> float:
    """What a square metre usually cost: the median over the priced cloths; 0 if none is."""
    paid = [
        float(cloth.price) / (cloth.width.mm / 1000)
        for cloth in cloths.values()
        if cloth.price is not None and cloth.width.nm > 0
    ]
    return median(paid) if paid else 0.0


def area_to_buy(each: Filled) -> float:
    """Square metres of cloth for a slot: of its pieces, else of the cloth it takes least of."""
    slot = each.slot
    pieces = slot.pattern.pieces_for(slot.make.view, slot.make.size, slot.role)
    if pieces:
        area = sum(p.copies * abs(signed_area(p.outline)) * (2 if p.on_fold else 1) for p in pieces)
        return area / 1e6 / USED
    rows = slot.pattern.charts_for(slot.make.view, slot.make.size, slot.role)
    return min((row.amount.mm * row.width.mm / 1e6 for row in rows), default=0.0)
