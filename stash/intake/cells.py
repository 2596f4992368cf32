"""Cells as people fill them, put into the words our own fields read, or refused.

Nothing is read here for good: every text that comes out still goes through the field's own
exact parser. What a cell says beyond that comes out beside it, as a remark.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.intake import cell_words as words
from stash.intake.cell_amounts import read_amount, read_money, read_weight_cell
from stash.intake.cell_dates import read_date
from stash.trade.fibre_words import label_in_english, unshared_fibres
from stash.units.letters import bare_letters

if TYPE_CHECKING:
    from collections.abc import Callable

LENGTHS = ("length", "bought", "selvedge", "repeat_length", "repeat_width", "amount")
PERCENTS = ("stretch_across", "stretch_along", "recovery", "shrink_length", "shrink_width")
FLAGS = ("nap", "raised", "sheer", "washed", "again", "muslin", "with_nap")
DAYS = ("got", "due", "day")
FREE = ("name", "notes", "text", "size", "view", "print", "place", "care", "colour_name")
"""Fields of any words: `-` and `unknown` are words too."""


@dataclass(frozen=True, slots=True)
class Hints:
    """What a column says of all its cells."""

    unit: str = ""
    """Of bare numbers; empty: a bare number is refused where it needs one."""
    day_first: bool | None = None
    today: date = date.max


@dataclass(frozen=True, slots=True)
class Cell:
    """What a cell says, for the field to read; empty: nobody knows."""

    text: str
    remark: str = ""
    """What the field has no room for, in the cell's own words: `approx 2m`."""


def read_cell(key: str, text: str, hints: Hints) -> Cell:
    """What a cell says for the field `key`.

    Raises:
        BadInputError: It may mean two things, or says something else than the field asks.
    """
    text = undone(text)
    if key in FREE:
        return Cell(text)
    if bare_letters(text) in words.NOT_KNOWN or not text.strip():
        return Cell("")
    reader = _reader(key)
    return Cell(text) if reader is _plain else reader(key, " ".join(text.split()), hints)


def undone(text: str) -> str:
    """A text without the apostrophe that keeps a sheet from taking it for a formula."""
    return text[1:] if re.match(r"'+[=+\-@\t\r]", text) else text


def _reader(key: str) -> Callable[[str, str, Hints], Cell]:
    if key == "width" or key in LENGTHS:
        return _length
    if key in PERCENTS:
        return _percent
    if key in FLAGS:
        return _flag
    if key in DAYS:
        return _day
    if key in words.CHOICES:
        return _choice
    others = {"fibres": _fibres, "weight": _weight, "price": _price}
    return others.get(key, _step if key in ("loved", "priority") else _plain)


def _plain(_: str, text: str, __: Hints) -> Cell:
    return Cell(text)


def _length(key: str, text: str, hints: Hints) -> Cell:
    if bare_letters(text) in words.GONE and key == "length":
        return Cell("0", text)
    return Cell(*read_amount(text, hints.unit))


def _weight(_: str, text: str, hints: Hints) -> Cell:
    return Cell(*read_weight_cell(text, hints.unit))


def _price(_: str, text: str, hints: Hints) -> Cell:
    if bare_letters(text) in words.GIFTS:
        return Cell("", text)
    return Cell(*read_money(text, hints.unit))


def _percent(_: str, text: str, __: Hints) -> Cell:
    return Cell("0 %" if bare_letters(text) in ("none", "no", "kein", "keine", "non") else text)


def _flag(_: str, text: str, __: Hints) -> Cell:
    said, remark = _without_brackets(text)
    word = bare_letters(said).rstrip("!.")
    for known, flag in ((words.YES, "yes"), (words.NO, "no")):
        if word in known:
            return Cell(flag, remark and text)
    raise BadInputError(f"{text[:40]!r} is neither yes nor no.", "Type yes or no.")


def _day(_: str, text: str, hints: Hints) -> Cell:
    day, exact = read_date(text, hints.day_first, hints.today)
    return Cell(day.isoformat(), "" if exact else text)


def _choice(key: str, text: str, _: Hints) -> Cell:
    word = bare_letters(text).replace("-", " ")
    for choice, others in words.CHOICES[key].items():
        if word.replace(" ", "_") in others.split():
            return Cell(choice)
    return Cell(text)


def _step(_: str, text: str, __: Hints) -> Cell:
    if stars := re.fullmatch(r"([★*⭐♥❤]\ufe0f?)+[☆♡]*", text):
        return Cell(str(len(re.findall(r"[★*⭐♥❤]", stars[0]))))
    return Cell(re.sub(r"\s*/\s*5$", "", text))


def _fibres(_: str, text: str, __: Hints) -> Cell:
    said, remark = _without_brackets(text)
    label = label_in_english(said)
    if names := unshared_fibres(label):
        raise BadInputError(
            f"{text[:60]!r} names {' and '.join(names)}, but not how much of each.",
            f"Type the shares, like 95% {names[0]} 5% {names[1]}.",
        )
    return Cell(label, remark and text)


def _without_brackets(text: str) -> tuple[str, str]:
    """A text without what stands in brackets at its end, and that."""
    found = re.fullmatch(r"([^(\[]+?)\s*([(\[][^()\[\]]*[)\]])", text)
    return (found[1], found[2]) if found else (text, "")
