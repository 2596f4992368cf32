"""Ways to make it fit, as text for the cutting table and as plain data."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stash.config import System
from stash.pairing.gates import unmeasured
from stash.pairing.judgement import Verdict
from stash.report.columns import table, wrapped
from stash.report.plain import millimetres, pairing_json
from stash.trade.ways import WayKind
from stash.units.enough import show_enough
from stash.units.format_length import CENTIMETRE, Measure, show_length
from stash.units.length import NM_PER_INCH, NM_PER_MM, ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.report.fit_records import FitIn, Given, Rung

HEAD = ("Way", ">Need", ">Wins", ">Missing", ">Cost")
SCALE = (
    "Cost is a house rule: 0 costs the garment nothing, 1 only its maker sees, 2 who looks for it, "
    "4 everyone; from 6 it is hardly the garment that was meant. What is missing counts the margin."
)
ON_THE_TABLE = frozenset({WayKind.LAY, WayKind.MARGIN, WayKind.NAP, WayKind.CROSSWISE})
"""Ways that leave the paper pieces as they are."""
FINELY = {System.METRIC: Length(NM_PER_MM), System.IMPERIAL: Length(NM_PER_INCH // 64)}
"""To hold a length by: no more than the cloth may have."""
STEPS = {System.METRIC: CENTIMETRE, System.IMPERIAL: Length(NM_PER_INCH // 8)}


def fit_text(fit: FitIn, system: System, width: int = 80) -> str:
    """What to do, rung by rung, then every way by itself, and what was not tried."""
    parts = [
        f"{fit.make.name}, {fit.role}, on {fit.cloth.name}",
        wrapped(stands(fit, system), width),
    ]
    parts += [wrapped(line, width) for line in answer(fit, system)]
    if len(fit.ladder) > 1:
        parts += ["", table(HEAD, [cells(r, system) for r in fit.ladder], width, keep=0), ""]
        for number, rung in enumerate(fit.ladder[1:], start=1):
            parts += [wrapped(line, width, hang=3) for line in steps(rung, system, f"{number}. ")]
    if fit.alone:
        parts += ["", "Each way by itself"]
        parts.append(table(HEAD, [cells(rung, system) for rung in fit.alone], width, keep=0))
        parts.append(wrapped(SCALE, width))
    if fit.left_out and not fit.as_it_is:
        parts += ["", "Not tried"]
        parts += [wrapped(f"{one.kind}: {one.why}", width, hang=3) for one in fit.left_out]
    return "\n".join(parts)


def stands(fit: FitIn, system: System) -> str:
    """How it stands before anything is changed, in a sentence or two."""
    pairing = fit.pairing
    if pairing.need.length is None:
        said = f"As it is: {pairing.verdict}. {pairing.need.why}"
    else:
        shown = show_enough(pairing.need.length, fit.have, system)
        said = (
            f"As it is: {pairing.verdict}. It needs {shown.needs} of {shown.holds}: {shown.words}."
        )
    if fit.search_won is None:
        return said
    longer = f"{said} {fit.seconds:g} seconds of looking longer for a shorter lay"
    if fit.search_won > ZERO:
        return f"{longer} won {show_length(fit.search_won, system, Measure.SMALL)} for nothing."
    return f"{longer} won nothing."


def answer(fit: FitIn, system: System, *, typed: bool = True) -> Iterator[str]:
    """What comes out, what is next, and what it costs; `typed`: with commands to type."""
    for reason in unmeasured(fit.pairing.reasons):
        yield f"Before you cut: {reason.sentence}"
    if fit.as_it_is:
        yield "It fits as the pattern is: nothing has to change."
        if typed:
            yield f'Next: stash lay "{fit.make.name}" --cloth "{fit.cloth.name}"'
        return
    if fit.fits:
        many = "one change" if len(fit.ladder) == 2 else f"{len(fit.ladder) - 1} changes"
        proof = (
            "nothing cheaper fits"
            if fit.least
            else "the cheapest found, though not everything cheaper could be laid"
        )
        yield f"It fits with {many}, at a cost of {fit.cost:.2f}: {proof}."
        yield f"Then it needs {_needs(fit.last, fit, system)}. {_next(fit, system, typed=typed)}"
        return
    yield from _nothing(fit, system, typed=typed)


def _needs(rung: Rung, fit: FitIn, system: System) -> str:
    assert rung.need is not None
    shown = show_enough(rung.need, fit.have, system)
    return f"{shown.needs} of {shown.holds}: {shown.words}"


def _next(fit: FitIn, system: System, *, typed: bool) -> str:
    """What to do first, before the shears."""
    need = fit.last.laid.cut_from_shelf if fit.last.laid is not None else None
    wash = "" if fit.cloth.washed else " Wash the cloth first; lengths are of washed cloth."
    given = ""
    if fit.last.given:
        names = " and ".join(one.cloth.name for one in fit.last.given)
        given = f" Have {names} beside it on the table before you cut either."
    same_paper = all(r.way is None or r.way.kind in ON_THE_TABLE for r in fit.ladder)
    first = "lay it as the drawing shows" if same_paper else "change the paper as said below"
    hold = f" Next: {first}."
    if need is not None and typed:
        length = show_length(need.ceil_to(FINELY[system]), system, Measure.EXACT)
        hold = (
            f' Next: {first}, then stash promise "{fit.make.name}" '
            f'"{fit.cloth.name}" --length "{length}" holds the cloth for it.'
        )
    return f"{wash}{given}{hold}".strip()


def _nothing(fit: FitIn, system: System, *, typed: bool) -> Iterator[str]:
    sure = "Nothing makes it fit" if fit.least else "Nothing was found that makes it fit"
    last = fit.last
    if last.short is None:
        yield f"{sure}, and no way comes near enough to say how much is missing."
    elif len(fit.ladder) == 1:
        yield f"{sure}, and no way brings it nearer than the pattern as it is."
    else:
        missing = _missing(last, system)
        yield f"{sure}. The nearest is below: {missing} would still be missing."
    if fit.cloth.again and last.short is not None:
        yield (
            f"{fit.cloth.name} can be bought again: buy the whole length anew, or make sure that "
            "the dye lot is the same before you cut two pieces for one garment."
        )
    bought = [
        f"{show_length(one.length, system, Measure.BUY)} of {_wide(one.width, system)}"
        for one in fit.buy
        if one.length is not None
    ]
    if bought:
        yield f"To buy for the pattern as it is: {', or '.join(bought)}."
    if typed:
        yield f'Or see what else is on the shelf: stash pair "{fit.make.name}" --role {fit.role}'


def _wide(width: Length, system: System) -> str:
    return f"cloth {show_length(width, system, Measure.WIDTH)} wide"


def _missing(rung: Rung, system: System) -> str:
    """How much is missing to a fit, the margin included; empty when nothing is."""
    if rung.short is None:
        return "no lay"
    gap = rung.short + rung.margin
    return "" if gap <= ZERO else show_length(gap.ceil_to(STEPS[system]), system, Measure.WIDTH)


def cells(rung: Rung, system: System) -> tuple[str, str, str, str, str]:
    """Name, need, what it wins, what is still missing, and its cost."""
    return (
        rung.way.name if rung.way is not None else "As the pattern is",
        "–" if rung.need is None else show_length(rung.need, system, Measure.NEED),
        wins(rung, system),
        "fits" if rung.fits else _missing(rung, system) or "other cloth",
        "" if rung.way is None else f"{rung.way.cost:.2f}",
    )


def wins(rung: Rung, system: System) -> str:
    """`4 cm`, `nothing`, `-1 cm` where it takes more, or empty for the first rung."""
    if rung.way is None:
        return ""
    if rung.way.kind is WayKind.MARGIN:
        return "margin"
    if rung.wins is None:
        return "makes it possible" if rung.need is not None else "–"
    if abs(rung.wins.nm) < NM_PER_MM:
        return "nothing"
    step = STEPS[system]
    if abs(rung.wins.nm) < step.nm:
        return show_length(rung.wins, system, Measure.SMALL)
    sign = -1 if rung.wins.nm < 0 else 1
    return show_length(
        Length(sign * (abs(rung.wins.nm) // step.nm) * step.nm), system, Measure.WIDTH
    )


def steps(rung: Rung, system: System, number: str = "") -> Iterator[str]:
    """What to do on this rung, what it costs, and the other cloth's own verdict."""
    assert rung.way is not None
    yield f"{number}{rung.way.does} {rung.way.costs}"
    for given in rung.given:
        if given.cloth.id == rung.way.donor:
            yield f"   {given_words(given, system)}"


def given_words(given: Given, system: System) -> str:
    """`White poplin for collar: fits, …; colour 12.3 apart (CIEDE2000), 14 % lighter.`"""
    pairing = given.pairing
    said = f"{given.cloth.name} for {', '.join(given.pieces)}: {pairing.verdict}"
    if pairing.need.length is not None:
        said += f", {show_enough(pairing.need.length, pairing.have, system).words}"
    said += f"; suit {pairing.suit:.0%}; colour {given.apart.colour:.0f} apart (CIEDE2000)"
    weight = given.apart.weight
    if weight is None:
        return f"{said}, weight not known: weigh both."
    if abs(weight) < 1:
        return f"{said}, as heavy."
    return f"{said}, {abs(weight):.0f}% {'heavier' if weight > 0 else 'lighter'}."


def fit_json(fit: FitIn) -> dict[str, Any]:
    """`stash fit-in --json`: lengths in millimetres, keys that stay."""
    return {
        "make": fit.make.name,
        "cloth": fit.cloth.name,
        "role": fit.role.value,
        "verdict": fit.pairing.verdict.value,
        "unsure": fit.pairing.verdict is Verdict.UNKNOWN,
        "have_mm": millimetres(fit.have),
        "search_won_mm": millimetres(fit.search_won),
        "fits": fit.fits,
        "least": fit.least,
        "cost": round(fit.cost, 2),
        "laid": fit.laid,
        "ladder": [_rung_json(rung) for rung in fit.ladder],
        "alone": [_rung_json(rung) for rung in fit.alone],
        "left_out": [{"kind": one.kind.value, "why": one.why} for one in fit.left_out],
        "buy": [
            {"width_mm": millimetres(one.width), "length_mm": millimetres(one.length)}
            for one in fit.buy
        ],
    }


def _rung_json(rung: Rung) -> dict[str, Any]:
    way = rung.way
    return {
        "kind": way.kind.value if way else None,
        "way": way.name if way else None,
        "does": way.does if way else None,
        "costs": way.costs if way else None,
        "cost": way.cost if way else None,
        "need_mm": millimetres(rung.need),
        "wins_mm": millimetres(rung.wins),
        "short_mm": millimetres(rung.short),
        "margin_mm": millimetres(rung.margin),
        "fits": rung.fits,
        "checked": rung.laid.lay.checked if rung.laid and rung.laid.lay else None,
        "given": [
            {
                "pieces": list(given.pieces),
                "colour_apart": round(given.apart.colour, 2),
                "weight_apart_percent": None
                if given.apart.weight is None
                else round(given.apart.weight, 1),
                **pairing_json(given.pairing, {given.cloth.id: given.cloth}),
            }
            for given in rung.given
        ],
    }
