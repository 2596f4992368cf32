"""The soft asks: recovery, weight, hand, fibre, surface. Each is one mark and one sentence."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from stash.cloth.hand import hand_of
from stash.garment.pattern import Kind, Role
from stash.pairing.desire import at_least
from stash.pairing.gates import FLOOR
from stash.pairing.judgement import Reason, Sureness
from stash.units.letters import bare_letters
from stash.units.weight import show_weight

if TYPE_CHECKING:
    from stash.cloth.record import Hand
    from stash.config import System
    from stash.garment.pattern import Asks
    from stash.pairing.case import Case
    from stash.pairing.judgement import Need

HAND_MARKS = {0: 1.0, 1: 0.6, 2: 0.3}
"""Mark by how many steps the hand lies outside the asked range; further off: the floor."""

SMOOTH_FIBRES = frozenset(
    {"silk", "acetate", "triacetate", "cupro", "viscose", "polyester", "polyamide", "modal"}
)
"""Filament fibres that slide over other cloth, so usual for linings (common practice)."""

SEE_THROUGH_SHOWS = frozenset(
    {
        Kind.TROUSERS_ELASTIC,
        Kind.TROUSERS_TAILORED,
        Kind.SHORTS,
        Kind.LEGGINGS,
        Kind.SKIRT_STRAIGHT,
        Kind.SKIRT_FLARED,
        Kind.DRESS,
        Kind.PINAFORE,
        Kind.COAT,
        Kind.JACKET,
        Kind.BAG,
    }
)

WORN_OVER = frozenset({Kind.SHIRT, Kind.BLOUSE, Kind.TSHIRT, Kind.TURTLENECK, Kind.PYJAMAS})
"""Sheer ones are worn, over something else (common practice)."""

INTERFACING_WORD = "interfac"

HOW_BENDING = (
    "push a strip 2.5 cm (1 in) wide over the edge of a table under a ruler until its tip hangs "
    "44 mm down for every 50 mm out; half of what sticks out is the bending length (ASTM D1388)."
)
"""The cantilever's slope is 41.5 degrees: tan 41.5 = 0.885."""

GOOD_USE, POOR_USE = 0.75, 0.35
"""Share of the length used that the pieces cover: good, and wasteful."""


def factors(case: Case) -> tuple[Reason, ...]:
    """The soft asks that apply to this cloth in this role."""
    found = (
        _purpose(case),
        _recovery(case),
        _weight(case),
        _hand(case),
        _fibre(case),
        _avoid(case),
        _surface(case),
    )
    return tuple(reason for reason in found if reason is not None)


def _purpose(case: Case) -> Reason | None:
    """Interfacing is bought as such: its owner says so in the cloth's name or notes."""
    cloth = case.cloth
    made_for_it = INTERFACING_WORD in f"{cloth.name} {cloth.notes}".lower()
    if case.role is Role.INTERFACING:
        if made_for_it:
            return Reason("purpose", 1.0, "It is interfacing.")
        return Reason("purpose", FLOOR, "It is not interfacing, though firm thin cloth can serve.")
    if made_for_it:
        return Reason("purpose", FLOOR, "It is interfacing: it belongs inside.")
    return None


def _recovery(case: Case) -> Reason | None:
    asked, have = case.asks.recovery, case.cloth.recovery
    if not asked:
        return None
    if have is None:
        return Reason(
            "recovery",
            None,
            "Recovery is not measured. Mark 10 cm, stretch it as far as the pattern needs, let "
            "go, and measure after a minute: it should be 10 cm again.",
        )
    if have >= asked:
        return Reason("recovery", 1.0, f"It springs back well ({have:.0f} %).")
    return Reason(
        "recovery",
        max(FLOOR, at_least(have, asked - 30, asked)),
        f"It springs back only {have:.0f} %; at {asked:.0f} % it would keep its shape.",
    )


def _weight(case: Case) -> Reason | None:
    low, high, have = case.asks.weight_low, case.asks.weight_high, case.cloth.weight
    if low is None and high is None:
        return None
    wanted = weight_words(case.asks, case.system)
    if have is None:
        return Reason(
            "weight",
            None,
            f"Weight is not known; the pattern asks {wanted}. Put the whole piece on a kitchen "
            f"scale and divide by its length and width: {_on_the_scale(case)}.",
        )
    shown = show_weight(have, case.system)
    if low is not None and have < low:
        mark = max(FLOOR, at_least(have, low / 2, low))
        return Reason("weight", mark, f"At {shown} it is lighter than the {wanted} asked.")
    if high is not None and have > high:
        # Equal steps of weight feel equal as ratios: half as light is like double as heavy.
        mark = max(FLOOR, at_least(high / have, 0.5, 1.0))
        return Reason("weight", mark, f"At {shown} it is heavier than the {wanted} asked.")
    return Reason("weight", 1.0, f"At {shown} it is the right weight.")


def _on_the_scale(case: Case) -> str:
    """What a piece of this length and width would weigh, were it right, for a kitchen scale."""
    area = case.cloth.left.mm * case.cloth.width.mm / 1e6
    low, high = case.asks.weight_low, case.asks.weight_high
    ends = [f"{end * area:.0f}" for end in (low, high) if end is not None]
    if len(ends) == 2:
        return f"this piece should weigh {ends[0]} to {ends[1]} g"
    return f"this piece should weigh {ends[0]} g or {'more' if high is None else 'less'}"


def weight_words(asks: Asks, system: System) -> str:
    """The weights asked for, in words; empty when any weight will do."""
    low, high = asks.weight_low, asks.weight_high
    if low is not None and high is not None:
        return f"{show_weight(low, system)} to {show_weight(high, system)}"
    if low is not None:
        return f"{show_weight(low, system)} or more"
    if high is not None:
        return f"{show_weight(high, system)} or less"
    return ""


def hand_range(low: Hand | None, high: Hand | None) -> str:
    """The hand asked for, in words; empty when any will do."""
    if low is not None and high is not None:
        if low is high:
            return low.name.lower()
        return f"{low.name.lower()} to {high.name.lower()}"
    if low is not None:
        return f"{low.name.lower()} or stiffer"
    if high is not None:
        return f"{high.name.lower()} or softer"
    return ""


def _hand(case: Case) -> Reason | None:
    low, high = case.asks.hand_low, case.asks.hand_high
    if low is None and high is None:
        return None
    wanted = hand_range(low, high)
    have, how = hand_of(case.cloth)
    if have is None:
        return Reason(
            "hand",
            None,
            f"Hand is not known; the pattern asks {wanted}. Drape a corner over your fist and "
            f"say: fluid, soft, medium, firm or crisp. Or measure it: {HOW_BENDING}",
        )
    name = have.name.lower()
    off = max((low or have) - have, have - (high or have), 0)
    mark = HAND_MARKS.get(off, FLOOR)
    if off == 0:
        return Reason("hand", mark, f"It is {name} in the hand, as asked ({how}).")
    way = "softer" if low is not None and have < low else "stiffer"
    return Reason("hand", mark, f"It is {name} in the hand, {way} than the {wanted} asked ({how}).")


def _fibre(case: Case) -> Reason | None:
    """What the pattern recommends; of linings also that they slide."""
    cloth = case.cloth
    if case.asks.fibres:
        return _recommended(case)
    if case.role is not Role.LINING:
        return None
    if not cloth.fibres:
        return Reason(
            "fibre", None, "Its fibre is not known; a lining should slide. Rub it on wool."
        )
    smooth = sum(share.percent for share in cloth.fibres if share.fibre in SMOOTH_FIBRES)
    if smooth >= 50 and not cloth.raised:
        return Reason(
            "fibre", 1.0, f"{cloth.fibres[0].fibre.capitalize()} slides, as a lining should."
        )
    return Reason("fibre", 0.5, "It will cling to what is worn under it: a lining should slide.")


def _recommended(case: Case) -> Reason:
    wanted = ", ".join(case.asks.fibres)
    if not case.cloth.fibres:
        return Reason("fibre", None, f"Its fibre is not known; the pattern recommends {wanted}.")
    share = sum(part.percent for part in case.cloth.fibres if part.fibre in case.asks.fibres)
    main = case.cloth.fibres[0].fibre
    if share >= 50:
        return Reason("fibre", 1.0, f"The pattern recommends {wanted}; this is mostly that.")
    return Reason("fibre", 0.5, f"The pattern recommends {wanted}; this is mostly {main}.")


def _avoid(case: Case) -> Reason | None:
    """What the pattern advises against, looked for in all that is said of the cloth."""
    if not case.asks.avoid:
        return None
    cloth = case.cloth
    texts = (cloth.name, cloth.structure.value, cloth.print, *(s.fibre for s in cloth.fibres))
    flags = [word for word, yes in (("nap", cloth.nap), ("sheer", cloth.sheer)) if yes]
    said = bare_letters(" ".join((*texts, *flags)))
    found = [word for word in case.asks.avoid if _names(said, bare_letters(word))]
    if found:
        listed = " and ".join(found)
        return Reason("avoid", 0.3, f"The pattern advises against {listed}, and this is said here.")
    return Reason("avoid", 1.0, f"Nothing says that it is {' or '.join(case.asks.avoid)}.")


def _names(said: str, word: str) -> bool:
    """The word stands there, in the singular or the plural."""
    stem = re.escape(word.removesuffix("s"))
    return re.search(rf"(?<!\w){stem}s?(?!\w)", said) is not None


def _surface(case: Case) -> Reason | None:
    cloth = case.cloth
    if cloth.sheer and case.role is Role.MAIN and case.pattern.kind in SEE_THROUGH_SHOWS:
        return Reason("surface", 0.3, "It is sheer: it will want a lining or something under it.")
    if cloth.sheer and case.role is Role.MAIN and case.pattern.kind in WORN_OVER:
        return Reason(
            "surface",
            0.6,
            "It is sheer: seams, facings and what is worn under it show through.",
        )
    return None


def waste(need: Need) -> Reason | None:
    """How well the width is used, once the pieces have been laid out."""
    if need.too_narrow:
        return Reason("width", 0.0, need.why, gate=True)
    if need.sureness is not Sureness.LAID_OUT or need.lay is None:
        return None
    used = need.lay.utilisation
    mark = 0.8 + 0.2 * at_least(used, POOR_USE, GOOD_USE)  # offcuts are a pity, no more
    words = "uses its width well" if used >= GOOD_USE else "leaves offcuts"
    return Reason("width", mark, f"The pieces cover {100 * used:.0f} % of the length: it {words}.")
