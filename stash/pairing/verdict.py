"""The verdict on one make role and one cloth: right, wide enough, long enough, in that order."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING

from stash.cloth.washing import shelf_length, washed_length
from stash.pairing.case import case_for
from stash.pairing.cautions import cautions
from stash.pairing.factors import waste
from stash.pairing.gates import failed, unmeasured
from stash.pairing.judgement import Judged, Need, Pairing, Reason, Sureness, Verdict
from stash.pairing.nature import nature_of
from stash.pairing.needs import MATCHED, question_for
from stash.pairing.suit import known_of, suit_of, weighed
from stash.trade.repeats import repeats_to_order
from stash.units.enough import show_enough
from stash.units.format_length import Measure, show_length
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Mapping

    from stash.cloth.record import Cloth
    from stash.config import Settings, System
    from stash.garment.make import Make, Person
    from stash.garment.pattern import Pattern, Role
    from stash.pairing.nature import Nature
    from stash.pairing.needs import Needs


def pair(
    make: Make,
    pattern: Pattern,
    role: Role,
    cloth: Cloth,
    free: Length,
    needs: Needs,
    settings: Settings,
    *,
    person: Person | None = None,
    allowance: Length = ZERO,
    beside: Mapping[Role, Cloth] | None = None,
) -> Pairing:
    """Judge one cloth for one role of a make.

    Args:
        make: The make.
        pattern: Its pattern.
        role: Which of its cloths.
        cloth: The cloth.
        free: Length of it not promised elsewhere, as it lies on the shelf.
        needs: Answers of length. Not asked when the cloth is unsuited.
        settings: Units and margin.
        person: Who it is for, if known; decides the cautions for children.
        allowance: Extra length of washed cloth wanted on top of the need.
        beside: Settled cloths of the make's other roles, which are cared for together.
    """
    nature = nature_of(
        case_for(cloth, pattern, role, settings.system, weights=settings.weights, beside=beside)
    )
    need = barred(nature)
    if need is None:
        need = with_repeat(needs.answer(question_for(make, pattern, role, cloth)), cloth, role)
        need = _longer(need, allowance)
    judged = judge(role, nature, need, free, settings)
    return told(judged, make, nature, free, settings, person=person)


def barred(nature: Nature) -> Need | None:
    """What stands for the need of a cloth that fails a hard ask; None where it passes all."""
    if not nature.bars:
        return None
    why = f"Not laid out: {nature.bars[0].sentence}"
    return Need(length=None, sureness=Sureness.UNKNOWN, why=why)


def judge(role: Role, nature: Nature, need: Need, free: Length, settings: Settings) -> Judged:
    """Set the need against `free`, the length as it lies on the shelf that may be used."""
    cloth, reasons, suit = nature.cloth, nature.reasons, nature.suit
    if used := waste(need):
        reasons = (*reasons, *weighed((used,), settings.weights))
        suit = suit_of(reasons)
    have, length = washed_length(free, cloth), need.length
    return Judged(
        role=role,
        cloth_id=cloth.id,
        verdict=_verdict(need, nature.bars, nature.open, have, margin_of(need, settings)),
        need=need,
        have=have,
        spare=None if length is None else have - length,
        cut_from_shelf=None if length is None else shelf_length(length, cloth),
        suit=suit,
        reasons=reasons,
    )


def told(
    judged: Judged,
    make: Make,
    nature: Nature,
    free: Length,
    settings: Settings,
    *,
    person: Person | None = None,
) -> Pairing:
    """The same in words: what is to be said of the length, and what to think of first."""
    said = _length_reason(judged.need, judged.verdict, judged.have, settings.system)
    return Pairing(
        make_id=make.id,
        role=judged.role,
        cloth_id=judged.cloth_id,
        verdict=judged.verdict,
        need=judged.need,
        have=judged.have,
        spare=judged.spare,
        cut_from_shelf=judged.cut_from_shelf,
        suit=judged.suit,
        suit_known=known_of(judged.reasons),
        reasons=(said, *judged.reasons) if said else judged.reasons,
        cautions=cautions(
            nature.cloth,
            nature.pattern,
            judged.role,
            view=make.view,
            size=make.size,
            person=person,
            free=free,
        ),
    )


def with_free(pairing: Pairing, cloth: Cloth, free: Length, settings: Settings) -> Pairing:
    """The same pairing when `free` of the cloth, as it lies on the shelf, may be used."""
    have = washed_length(free, cloth)
    length = pairing.need.length
    nature = tuple(reason for reason in pairing.reasons if reason.factor != "length")
    margin = margin_of(pairing.need, settings)
    verdict = _verdict(pairing.need, failed(nature), unmeasured(nature), have, margin)
    spare = None if length is None else have - length
    said = _length_reason(pairing.need, verdict, have, settings.system)
    return replace(
        pairing,
        have=have,
        spare=spare,
        verdict=verdict,
        reasons=(said, *nature) if said else nature,
    )


def with_repeat(need: Need, cloth: Cloth, role: Role) -> Need:
    """The same need with what matching the repeat of `cloth` adds, where it shows."""
    if not cloth.repeat_length or role not in MATCHED:
        return need
    return lengthened(need, washed_length(cloth.repeat_length, cloth))


def lengthened(need: Need, repeat: Length) -> Need:
    """The need with what a print of this repeat, washed, adds to it.

    A lay whose pieces meet the print takes one repeat more, because the print may begin
    anywhere on the cloth. Any other need is rounded up to whole repeats too, as furnishing
    workrooms reckon a single length: pieces that lie end to end must start alike.
    """
    if need.length is None:
        return need
    if need.lay is not None and need.lay.repeat_at is not None:
        why = (
            f"{need.why} One repeat more, because the print may begin anywhere on the cloth."
            " The lay slides along until it meets it, and is clear of flaws and edges then too."
        )
        return replace(_longer(need, repeat), why=why)
    extra = repeats_to_order(need.length, repeat, 1) - need.length
    why = f"{need.why} Rounded up to whole repeats, and one more to match the print."
    return replace(_longer(need, extra), why=why)


def margin_of(need: Need, settings: Settings) -> Length:
    """Spare length that makes a fit comfortable: the larger of the two settings."""
    if need.length is None:
        return ZERO
    return _margin(need.length, settings.margin_percent, settings.margin_mm)


@lru_cache(maxsize=4096)
def _margin(length: Length, percent: float, least: float) -> Length:
    return max(Length.from_mm(least), length.times(Fraction(percent) / 100))


def _longer(need: Need, allowance: Length) -> Need:
    if need.length is None:
        return need
    return replace(
        need,
        length=need.length + allowance,
        low=None if need.low is None else need.low + allowance,
        high=None if need.high is None else need.high + allowance,
        likely=None if need.likely is None else need.likely + allowance,
    )


def _verdict(
    need: Need,
    bars: tuple[Reason, ...],
    unanswered: tuple[Reason, ...],
    have: Length,
    margin: Length,
) -> Verdict:
    if need.too_narrow:
        return Verdict.TOO_NARROW
    if bars:
        return Verdict.UNSUITED
    if unanswered:
        return Verdict.UNKNOWN
    if need.no_room:
        return Verdict.SHORT
    if need.length is None:
        return Verdict.UNKNOWN
    spare = have - need.length
    if spare < ZERO and _may_be_enough(need, have):
        return Verdict.UNKNOWN
    if spare < ZERO:
        return Verdict.SHORT
    return Verdict.CLOSE if spare < margin else Verdict.FITS


def _may_be_enough(need: Need, have: Length) -> bool:
    """The cloth ends within the range of an estimate."""
    return need.likely is not None and need.low is not None and have >= need.low


def _length_reason(need: Need, verdict: Verdict, have: Length, system: System) -> Reason | None:
    """The sentence on length. It carries a mark for showing; it never weighs in the suit."""
    if verdict in (Verdict.UNSUITED, Verdict.TOO_NARROW):
        return None
    if need.length is None:
        return Reason("length", 0.0 if need.no_room else None, need.why)
    shown = show_enough(need.length, have, system)
    wants, holds, gap = shown.needs, shown.holds, shown.words
    sure = "" if need.sureness is Sureness.LAID_OUT else f" ({need.sureness})"
    if need.likely is not None and need.low is not None:
        low, likely = (show_length(one, system, Measure.NEED) for one in (need.low, need.likely))
        sure = f" at most, {low} at least and most likely {likely} ({need.sureness})"
    if shown.short and _may_be_enough(need, have):
        return Reason(
            "length",
            None,
            f"It needs {wants}{sure}, and there is {holds}: it may be enough. Lay the tissue out "
            "on it, or add the pieces, before you cut.",
        )
    if shown.short:
        return Reason("length", 0.0, f"It needs {wants}{sure} and there is {holds}: {gap}.")
    if verdict is Verdict.CLOSE:
        return Reason(
            "length",
            0.5,
            f"It needs {wants}{sure} of {holds}: {gap} is close, so square the ends "
            "and measure again before you cut.",
        )
    return Reason("length", 1.0, f"It needs {wants}{sure} of {holds}: {gap}.")
