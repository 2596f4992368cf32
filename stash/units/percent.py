"""Percentages, typed as such or as what was measured before and after."""

from __future__ import annotations

import re
from fractions import Fraction

from stash.errors import BadInputError
from stash.units.number import NUMBER, number_value, plain_text
from stash.units.parse_length import UNIT, parse_length

_PERCENT = re.compile(rf"({NUMBER})\s*(?:%|per ?cent|pct)?")
_CHANGE = re.compile(rf"({NUMBER})\s*({UNIT})?\s*(?:->|→|\bto\b)\s*({NUMBER})\s*({UNIT})")
_TO = re.compile(r"\s*(?:->|→|\bto\b)\s*")
_LAST_UNIT = re.compile(rf"{UNIT}$")
_MOST = 1000
_STRETCH_HINT = "Type 35 %, or 10 cm to 13.5 cm."
_LOSS_HINT = "Type 5 %, or the lengths before and after: 50 cm to 48 cm."
_RECOVERY_HINT = "Type 92 %, or at rest, stretched and let go: 10 to 15 to 10.4 cm."


def parse_share(text: str) -> float:
    """A percentage that is only typed as such: `3 %`, `3`.

    Raises:
        BadInputError: anything else; over 1000 %.
    """
    alone = _PERCENT.fullmatch(plain_text(text))
    if alone is None:
        raise _no_percentage(text, "Type 3 %.")
    return _percent(number_value(alone[1]), Fraction(100), text)


def parse_percent(text: str) -> float:
    """A percentage: `35 %`, `35`, or stretch as measured, `4 in to 5.4 in`, `10 → 13.5 cm`.

    Stretch is (stretched - relaxed) / relaxed, as measured on the cloth at rest and held.

    Raises:
        BadInputError: anything else; a second length shorter than the first; over 1000 %.
    """
    before, after = _measured(text, _STRETCH_HINT)
    if after < before:
        raise BadInputError(
            f"{text.strip()!r} gets shorter.",
            "Type the length at rest first, then stretched: 10 cm to 13.5 cm.",
        )
    return _percent(after - before, before, text)


def parse_loss(text: str) -> float:
    """A percentage lost: `5 %`, `5`, or shrinkage as measured, `50 cm to 48 cm`.

    Raises:
        BadInputError: anything else; a second length longer than the first; 100 % or more.
    """
    plain = plain_text(text)
    if _PERCENT.fullmatch(plain):
        lost = parse_percent(text)
    else:
        before, after = _measured(text, _LOSS_HINT)
        if after > before:
            raise BadInputError(
                f"{text.strip()!r} gets longer.",
                "Type the length before washing first: 50 cm to 48 cm.",
            )
        lost = _percent(before - after, before, text)
    if lost >= 100:
        raise BadInputError(f"{text.strip()!r} would leave nothing.", "Type a loss like 5 %.")
    return lost


def parse_recovery(text: str) -> float:
    """The share of a stretch that springs back: `92 %`, or measured, `10 to 15 to 10.4 cm`.

    Measured at rest, stretched, and let go: (stretched - let go) / (stretched - at rest),
    after ASTM D3107 (from memory).

    Raises:
        BadInputError: anything else; over 100 %; lengths that are not in that order.
    """
    plain = plain_text(text)
    if alone := _PERCENT.fullmatch(plain):
        return _percent(number_value(alone[1]), Fraction(100), text, most=100)
    unit = _LAST_UNIT.search(plain)
    parts = _TO.split(plain)
    if len(parts) != 3 or unit is None:
        raise BadInputError(f"{text.strip()!r} is not a recovery.", _RECOVERY_HINT)
    rest, stretched, let_go = (parse_length(part, unit[0]).nm for part in parts)
    if not rest <= let_go <= stretched or rest == stretched:
        raise BadInputError(f"{text.strip()!r} does not stretch and spring back.", _RECOVERY_HINT)
    return _percent(Fraction(stretched - let_go), Fraction(stretched - rest), text)


def show_percent(percent: float) -> str:
    """`35 %`, with a decimal only where there is one."""
    return f"{round(percent, 1):g} %"


def _measured(text: str, hint: str) -> tuple[Fraction, Fraction]:
    """Before and after, in any one unit; a plain percentage is a growth of 100."""
    plain = plain_text(text)
    if alone := _PERCENT.fullmatch(plain):
        return Fraction(100), 100 + number_value(alone[1])
    change = _CHANGE.fullmatch(plain)
    if change is None:
        raise _no_percentage(text, hint)
    before = parse_length(f"{change[1]} {change[2] or change[4]}")
    after = parse_length(f"{change[3]} {change[4]}")
    if not before:
        raise BadInputError(f"{text.strip()!r} starts from nothing.", hint)
    return Fraction(before.nm), Fraction(after.nm)


def _no_percentage(text: str, hint: str) -> BadInputError:
    typed = text.strip()
    what = "negative" if typed.startswith(("-", "−")) else "not a percentage"
    return BadInputError(f"{typed!r} is {what}.", hint)


def _percent(part: Fraction, whole: Fraction, text: str, most: int = _MOST) -> float:
    percent = 100 * part / whole
    if percent > most:
        raise BadInputError(f"{text.strip()!r} is over {most} %.", "Type 35 %, say.")
    return float(percent)
