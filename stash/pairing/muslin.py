"""Which cloth to risk on a test of the fit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.garment.pattern import Role
from stash.pairing.judgement import MuslinCandidate, Pairing
from stash.pairing.likeness import differences, likeness, missed
from stash.pairing.plan_words import listed
from stash.pairing.verdict import pair
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from datetime import date

    from stash.cloth.record import Cloth
    from stash.config import Settings
    from stash.garment.make import Make, Person
    from stash.garment.pattern import Pattern
    from stash.pairing.needs import Needs

LET_OUT = Length.from_mm(50)
"""Extra length for letting out and lengthening at the fitting."""

WANTED_ELSEWHERE = 0.85
"""Each other make this cloth is best for takes this share of the score."""

LIKENESS, NOT_MISSED, SUIT = 0.45, 0.35, 0.2
"""What counts in the score. A house choice."""


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
    wanted_by: Mapping[int, Sequence[str]] | None = None,
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
        wanted_by: By cloth id, the names of other makes whose best cloth it is.
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
            others = (wanted_by or {}).get(cloth.id, ())
            found.append(_candidate(pairing, cloth, intended, others, today))
    return tuple(sorted(found, key=lambda c: (-c.score, c.pairing.cloth_id)))


def _candidate(
    pairing: Pairing, cloth: Cloth, intended: Cloth | None, others: Sequence[str], today: date
) -> MuslinCandidate:
    alike = likeness(cloth, intended) if intended is not None else None
    loss = missed(cloth, today)
    marks = [(1 - loss, NOT_MISSED), (pairing.suit, SUIT)]
    if alike is not None:
        marks.append((alike, LIKENESS))
    score = sum(mark * weight for mark, weight in marks) / sum(weight for _, weight in marks)
    return MuslinCandidate(
        pairing=pairing,
        score=score * WANTED_ELSEWHERE ** len(others),
        likeness=alike,
        missed=loss,
        why=_why(cloth, intended, alike, loss, others),
    )


def _why(
    cloth: Cloth,
    intended: Cloth | None,
    alike: float | None,
    loss: float,
    others: Sequence[str],
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
    if others:
        said.append(f"It is also the best cloth for {listed(others)}.")
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
