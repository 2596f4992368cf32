"""What has to be bought for a role: how much at the common widths, and what to look for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.cloth.record import USUAL_SELVEDGE, Structure
from stash.pairing.case import asks_of
from stash.pairing.factors import hand_range, weight_words
from stash.pairing.judgement import BuyWidth, Shortfall, Sureness
from stash.pairing.nearest import nearest_miss
from stash.pairing.needs import Question
from stash.trade.shrinkage import after_wash, before_wash, default_shrinkage
from stash.trade.stretch import stretch_class
from stash.trade.weights import weight_class
from stash.trade.widths import COMMON_WIDTHS
from stash.units.format_length import Measure, show_length
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from stash.cloth.record import Cloth
    from stash.config import Settings, System
    from stash.garment.make import Make
    from stash.garment.pattern import Asks, Pattern, Role
    from stash.pairing.judgement import Judged, Need
    from stash.pairing.needs import Needs


def buying_questions(
    make: Make, pattern: Pattern, role: Role, settings: Settings
) -> tuple[Question, ...]:
    """The questions of length a shortfall puts, one per common width.

    The cloth is not bought yet, so it is taken at its worst: with nap, a centimetre of
    selvedge each side, and shrinking as its kind does at the first wash.
    """
    _, lost_width = _shrinkage(pattern, role)
    return tuple(
        Question(
            make=make,
            pattern=pattern,
            role=role,
            width=after_wash(width - USUAL_SELVEDGE.times(2), lost_width),
            nap=True,
            label=width,
        )
        for width in COMMON_WIDTHS[settings.system]
    )


def shortfall(
    make: Make,
    pattern: Pattern,
    role: Role,
    pairings: Sequence[Judged],
    cloths: Mapping[int, Cloth],
    needs: Needs,
    settings: Settings,
    *,
    taken: Mapping[int, str] | None = None,
) -> Shortfall:
    """What to buy for one role.

    Args:
        make: The make.
        pattern: Its pattern.
        role: The role nothing is planned for.
        pairings: The role against every cloth on the shelf, for the nearest miss.
        cloths: The shelf by id.
        needs: Answers of length.
        settings: Units and the shop's step.
        taken: By cloth id, best first, why a cloth that could be cut is not given to this role.
    """
    return Shortfall(
        make_id=make.id,
        role=role,
        widths=tuple(
            _buy(question, width, needs.answer(question), settings)
            for question, width in zip(
                buying_questions(make, pattern, role, settings),
                COMMON_WIDTHS[settings.system],
                strict=True,
            )
        ),
        why=nearest_miss(pairings, cloths, taken or {}, settings.system),
        asks=look_for(asks_of(pattern, role), settings.system),
    )


def _shrinkage(pattern: Pattern, role: Role) -> tuple[float, float]:
    """Per cent of length and width the first wash may take from a cloth not yet bought."""
    structures = asks_of(pattern, role).structures
    return default_shrinkage(structures[0] if structures else Structure.WOVEN, ())


def _buy(question: Question, width: Length, need: Need, settings: Settings) -> BuyWidth:
    if need.length is None:
        return BuyWidth(width=width, length=None, sureness=Sureness.UNKNOWN, why=need.why)
    lost_length, _ = _shrinkage(question.pattern, question.role)
    length = before_wash(need.length, lost_length).ceil_to(Length.from_mm(settings.shop_step))
    net = show_length(need.length, settings.system, Measure.NEED)
    return BuyWidth(
        width=width,
        length=length,
        sureness=need.sureness,
        why=f"{need.why} {net} once washed; the first wash may take {lost_length:.0f} %; rounded "
        "up to what the shop cuts.",
    )


def _gauge(percent: float) -> str:
    return f"10 cm to {10 + percent / 10:.1f} cm"


def _weight_classes(asks: Asks) -> str:
    """The shops' words for a range of weights: ` (light to medium)`."""
    if asks.weight_low is None or asks.weight_high is None:
        return ""
    ends = dict.fromkeys((weight_class(asks.weight_low), weight_class(asks.weight_high)))
    return f" ({' to '.join(ends)})"


def look_for(asks: Asks, system: System) -> str:
    """What to look for in the shop, in one sentence."""
    cloth = " or ".join(asks.structures) if asks.structures else "any cloth"
    parts = [f"{cloth} cloth" if asks.structures else cloth]
    if across := asks.stretch_across:
        words = f"sold as {stretch_class(across)} or stretchier"
        parts.append(f"{across:.0f} % stretch across ({_gauge(across)}; {words})")
    if along := asks.stretch_along:
        parts.append(f"{along:.0f} % stretch along ({_gauge(along)})")
    if asks.recovery:
        parts.append("springing back after stretching")
    if weight := weight_words(asks, system):
        parts.append(weight + _weight_classes(asks))
    if hand := hand_range(asks.hand_low, asks.hand_high):
        parts.append(f"{hand} in the hand")
    if not asks.nap_allowed:
        parts.append("without nap")
    if asks.fibres:
        parts.append(f"best of {' or '.join(asks.fibres)}")
    if asks.avoid:
        parts.append(f"not {' or '.join(asks.avoid)}")
    sentence = ", ".join(parts)
    return f"{sentence[:1].upper()}{sentence[1:]}."
