"""Which cloth to risk on a test of the fit."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from stash.garment.pattern import Role
from stash.pairing.judgement import MuslinCandidate, MuslinFirst, Pairing
from stash.pairing.likeness import differences, likeness, missed
from stash.pairing.plan_words import listed
from stash.pairing.verdict import pair
from stash.pairing.wearing import worn
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from datetime import date

    from stash.cloth.record import Cloth
    from stash.config import Settings
    from stash.garment.make import Make, Person
    from stash.garment.pattern import Pattern
    from stash.pairing.needs import Needs
    from stash.pairing.price import Price
    from stash.pairing.wearing import Garment, Worn

LET_OUT = Length.from_mm(50)
"""Extra length for letting out and lengthening at the fitting."""

LIKENESS, NOT_MISSED, SUIT, WORN = 0.45, 0.35, 0.2, 0.15
"""What counts in the score. A house choice."""

UNKNOWN_LIKENESS = 0.5
"""What a cloth counts for whose behaviour nobody measured: as likely like as unlike."""

PRICE_FELT = 2.0
"""A price at which the score falls to 37 %: about what a make of middle priority gains by its
cloth (3 times a suit of 1 less `worth.GOOD_ENOUGH`). A house choice."""

TOO_LOVED = 4
"""From this on a cloth is not risked on a pattern nobody has sewn."""
MOST_NAMED = 3
"""Candidates named where a muslin is advised."""


def intended_cloth(
    pairings: Iterable[Pairing], cloths: Mapping[int, Cloth], promised: int | None = None
) -> Cloth | None:
    """The cloth the make is meant for: the promised one, else the best that can be cut."""
    if promised is not None:
        return cloths.get(promised)
    able = [p for p in pairings if p.verdict.can_be_cut]
    if not able:
        return None
    return cloths.get(min(able, key=lambda p: (-p.suit, p.cloth_id)).cloth_id)


def muslin_candidates(
    make: Make,
    pattern: Pattern,
    cloths: Iterable[Cloth],
    free: Mapping[int, Length],
    needs: Needs,
    settings: Settings,
    *,
    today: date,
    intended: Cloth | None = None,
    has: Sequence[Garment] = (),
    person: Person | None = None,
    allowance: Length = LET_OUT,
) -> tuple[MuslinCandidate, ...]:
    """The cloths a test of `make` could be cut from, best first.

    Args:
        make: The make to be tested.
        pattern: Its pattern, whose hard asks every candidate passes.
        cloths: The shelf.
        free: Length by cloth id not promised elsewhere, as it lies on the shelf.
        needs: Answers of length.
        settings: Units and margin.
        today: For the age of a cloth.
        intended: The cloth the make itself is meant for; never a candidate.
        has: What the person has to wear it with.
        person: Who it is for, if known.
        allowance: Extra length for letting out at the fitting.
    """
    found = []
    for cloth in cloths:
        if intended is not None and cloth.id == intended.id:
            continue
        pairing = pair(
            make,
            pattern,
            Role.MAIN,
            cloth,
            free.get(cloth.id, ZERO),
            needs,
            settings,
            person=person,
            allowance=allowance,
        )
        if pairing.verdict.can_be_cut:
            liked = worn(cloth, pattern.kind, has) if has else None
            found.append(_candidate(pairing, cloth, intended, liked, today))
    return _best_first(found)


def priced(
    candidates: Iterable[MuslinCandidate],
    prices: Mapping[int, Price],
    makes: Mapping[int, Make],
    cloths: Mapping[int, Cloth],
) -> tuple[MuslinCandidate, ...]:
    """The candidates with their price in the plan, by cloth id, best first.

    Those without a price are left as they are.
    """
    found = []
    for one in candidates:
        price = prices.get(one.pairing.cloth_id)
        if price is None:
            found.append(one)
            continue
        found.append(
            replace(
                one,
                price=price.worth,
                score=one.score * math.exp(-price.worth / PRICE_FELT),
                why=(*one.why, *_price_words(price, makes, cloths)),
            )
        )
    return _best_first(found)


def muslin_first(
    make: Make,
    pattern: Pattern,
    cloth: Cloth,
    candidates: Sequence[MuslinCandidate],
    *,
    tested: bool,
) -> MuslinFirst | None:
    """The advice to test first, where the cloth is too loved for an untested pattern.

    Args:
        make: The make; a muslin is a test itself.
        pattern: Its pattern.
        cloth: The cloth it might be cut from.
        candidates: For this cloth, best first.
        tested: The pattern has been sewn, or a muslin of the make is in the queue or done.
    """
    if tested or make.muslin or cloth.loved < TOO_LOVED:
        return None
    return MuslinFirst(
        why=f"{cloth.name} is too well loved for {pattern.name}, which has not been sewn yet: "
        "make a wearable muslin first.",
        cloth_ids=tuple(one.pairing.cloth_id for one in candidates[:MOST_NAMED]),
    )


def _best_first(found: Iterable[MuslinCandidate]) -> tuple[MuslinCandidate, ...]:
    return tuple(sorted(found, key=lambda c: (-c.score, c.pairing.cloth_id)))


def _price_words(
    price: Price, makes: Mapping[int, Make], cloths: Mapping[int, Cloth]
) -> tuple[str, ...]:
    """What the rest of the queue does without it."""
    if not price.moves:
        return ("No other make loses by it.",) if price.worth < PRICE_FELT / 100 else ()
    said = []
    for move in price.moves:
        name = makes[move.make_id].name
        after = cloths.get(move.after or 0)
        takes = f"would take {after.name}" if after else "would have to be bought for"
        said.append(f"{name}, {move.role}, {takes}")
    return (f"Cut for this, it is missing elsewhere: {'; '.join(said)}.",)


def _candidate(
    pairing: Pairing, cloth: Cloth, intended: Cloth | None, liked: Worn | None, today: date
) -> MuslinCandidate:
    alike = likeness(cloth, intended) if intended is not None else None
    loss = missed(cloth, today)
    marks = [(1 - loss, NOT_MISSED), (pairing.suit, SUIT)]
    if intended is not None:
        marks.append((UNKNOWN_LIKENESS if alike is None else alike, LIKENESS))
    if liked is not None:
        marks.append((liked.mark, WORN))
    score = sum(mark * weight for mark, weight in marks) / sum(weight for _, weight in marks)
    return MuslinCandidate(
        pairing=pairing,
        score=score,
        likeness=alike,
        missed=loss,
        worn=liked.mark if liked is not None else None,
        why=(*_why(cloth, intended, alike, loss), *(liked.why if liked is not None else ())),
    )


def _why(
    cloth: Cloth,
    intended: Cloth | None,
    alike: float | None,
    loss: float,
) -> tuple[str, ...]:
    said = []
    if intended is None:
        said.append("No cloth is meant for this make yet, so likeness cannot be judged.")
    elif alike is None:
        said.append(f"Too little is measured to say how like {intended.name} it behaves.")
    else:
        said.append(_how_alike(cloth, intended, alike))
    if loss < 0.35:
        said.append("It would hardly be missed.")
    elif loss < 0.65:
        said.append("It would be missed a little.")
    else:
        said.append("It would be missed: it is one of the better cloths.")
    return tuple(said)


def _how_alike(cloth: Cloth, intended: Cloth, alike: float) -> str:
    felt = differences(cloth, intended)
    but = f"; the {listed(felt)} will feel different" if felt else ""
    if cloth.structure is not intended.structure:
        return f"It is {cloth.structure} and {intended.name} is {intended.structure}{but}."
    if alike >= 0.8:
        return f"It behaves very like {intended.name}{but}."
    if alike >= 0.5:
        return f"It behaves much like {intended.name}{but}."
    return f"It behaves unlike {intended.name}{but}."
