"""A small language to search the shelf: `cotton width>=140cm is:knit state:free`."""

from __future__ import annotations

import operator
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.cloth.hand import hand_of
from stash.cloth.record import Hand, Structure
from stash.cloth.state import ClothState, state_of
from stash.errors import BadInputError
from stash.trade.colour import NEAR, Lab, lab_of, shade_difference
from stash.trade.fibres import find_fibre
from stash.units.length import ZERO, Length
from stash.units.number import read_number
from stash.units.parse_length import parse_length, parse_width
from stash.units.percent import parse_percent
from stash.units.weight import parse_weight

if TYPE_CHECKING:
    from collections.abc import Callable

    from stash.cloth.record import Cloth


@dataclass(frozen=True, slots=True)
class Comparison:
    """A measure of the cloth against a value: nm, g/m², per cent or marks."""

    measure: str
    sign: str
    value: float


@dataclass(frozen=True, slots=True)
class Word:
    """Text to find, and the fibre it is another name of, if it is one (spandex: elastane)."""

    text: str
    fibre: str = ""


@dataclass(frozen=True, slots=True)
class Query:
    """What is asked of a cloth; all of it must hold. An empty query holds for every cloth."""

    words: tuple[Word, ...] = ()
    comparisons: tuple[Comparison, ...] = ()
    qualities: tuple[str, ...] = ()
    states: tuple[ClothState, ...] = ()
    """One of these, if any are given."""
    shades: tuple[Lab, ...] = ()
    """CIELAB; the cloth is near all of them."""


_SIGNS: dict[str, Callable[[float, float], bool]] = {
    ">=": operator.ge,
    "<=": operator.le,
    ">": operator.gt,
    "<": operator.lt,
}

_READ: dict[str, Callable[[str], float]] = {
    "width": lambda text: parse_width(text).nm,
    "length": lambda text: parse_length(text).nm,
    "free": lambda text: parse_length(text).nm,
    "weight": lambda text: float(text) if text.isdecimal() else parse_weight(text),
    "stretch": parse_percent,
    "loved": lambda text: float(read_number(text)),
}

_STATES = {"cut": ClothState.CUT_INTO} | {str(state): state for state in ClothState}

_QUALITIES: dict[str, Callable[[Cloth], bool]] = {
    "nap": lambda cloth: cloth.nap,
    "raised": lambda cloth: cloth.raised,
    "sheer": lambda cloth: cloth.sheer,
    "washed": lambda cloth: cloth.washed,
    "flawed": lambda cloth: bool(cloth.flaws),
    "remnant": lambda cloth: bool(cloth.outline),
    "again": lambda cloth: cloth.again,
}

_TERM = re.compile(r'([^\s<>=:"]+)(>=|<=|>|<|:|=)("[^"]*"|\S*)|"([^"]*)"|(\S+)')
_HINT = (
    "Search with words, width>=140cm, length>2m, free>1m, weight<200, stretch>30, loved<3,"
    " is:knit, is:nap, state:free or colour:#1f2948."
)


def parse_query(text: str) -> Query:
    """Read a search. Words are looked for in name, fibres, colour, print and place.

    Raises:
        BadInputError: a term that is neither a word nor one of the forms above.
    """
    words: list[Word] = []
    comparisons: list[Comparison] = []
    qualities: list[str] = []
    states: list[ClothState] = []
    shades: list[Lab] = []
    for key, sign, quoted, phrase, word in _TERM.findall(text.lower()):
        value = quoted.strip('"') if quoted.startswith('"') else quoted
        if not sign:
            if phrase or word:
                words.append(_word(phrase or word))
        elif key == "is" and sign == ":":
            qualities.append(_one_of(value, [*_QUALITIES, *Structure, *_hands()], "is"))
        elif key == "state" and sign == ":":
            states.append(_STATES[_one_of(value, list(_STATES), "state")])
        elif key == "colour" and sign == ":":
            shades.append(lab_of(value))
        elif key in _READ and sign in _SIGNS:
            comparisons.append(Comparison(key, sign, _READ[key](value)))
        else:
            raise BadInputError(f"{key + sign + quoted!r} is no way to search.", _HINT)
    return Query(tuple(words), tuple(comparisons), tuple(qualities), tuple(states), tuple(shades))


def matches(query: Query, cloth: Cloth, promised: Length = ZERO) -> bool:
    """`cloth`, of which `promised` is held for makes, answers the query.

    What nobody measured answers no comparison.
    """
    return (
        (not query.states or state_of(cloth, promised) in query.states)
        and all(_has_quality(cloth, quality) for quality in query.qualities)
        and all(_compares(cloth, promised, asked) for asked in query.comparisons)
        and _has_words(cloth, query.words)
        and all(_is_near(cloth, shade) for shade in query.shades)
    )


def _has_words(cloth: Cloth, words: tuple[Word, ...]) -> bool:
    if not words:
        return True
    fibres = [share.fibre for share in cloth.fibres]
    told = [cloth.name, *fibres, cloth.structure, cloth.colour_name, cloth.print, cloth.place]
    text = "\n".join(told).lower()
    return all(word.text in text or word.fibre in fibres for word in words)


def _word(text: str) -> Word:
    try:
        return Word(text, find_fibre(text))
    except BadInputError:
        return Word(text)


def _has_quality(cloth: Cloth, quality: str) -> bool:
    if quality in _QUALITIES:
        return _QUALITIES[quality](cloth)
    if quality in _hands():
        return hand_of(cloth)[0] is Hand[quality.upper()]
    return cloth.structure == quality


def _compares(cloth: Cloth, promised: Length, asked: Comparison) -> bool:
    measured: dict[str, float | None] = {
        "width": cloth.width.nm,
        "length": cloth.left.nm,
        "free": (cloth.left - promised).nm,
        "weight": cloth.weight,
        "stretch": cloth.stretch_across,
        "loved": cloth.loved,
    }
    value = measured[asked.measure]
    return value is not None and _SIGNS[asked.sign](value, asked.value)


def _is_near(cloth: Cloth, shade: Lab) -> bool:
    return shade_difference(lab_of(cloth.colour), shade) < NEAR


def _hands() -> list[str]:
    return [hand.name.lower() for hand in Hand]


def _one_of(value: str, known: list[str], key: str) -> str:
    if value in known:
        return value
    raise BadInputError(f"{key}:{value} is not known.", f"Type {key}: with {', '.join(known)}.")
