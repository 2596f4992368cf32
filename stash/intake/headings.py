"""Which column of a table says what: headings in people's own words, matched to fields."""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from stash.intake.heading_words import (
    BY_CONTENT,
    FILLERS,
    HEADING_WORDS,
    HINTED_NOTES,
    LEFT_OUT,
)
from stash.units.letters import bare_letters

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from stash.intake.sheet import Sheet

NOTES, LEAVE = "notes", "leave"
"""What a column may be besides a field: told in the notes, or left out on purpose."""
_NEAR = 0.8
"""Likeness from which a heading is taken for a slip of the fingers."""
_SHORTEST = 4
_MOST = 0.5
"""Share of its cells that a field has to read to be believed."""
_SEARCHED = 30
"""Rows looked at for the headings; titles and dates often stand above them."""
_UNITS = {
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters", "metros", "metri"), "m"),
    **dict.fromkeys(("cm", "mm", "gsm", "oz"), ""),
    **dict.fromkeys(("yd", "yds", "yard", "yards"), "yd"),
    **dict.fromkeys(("in", "ins", "inch", "inches", '"', "zoll", "pouces", "pulgadas"), "in"),
    **dict.fromkeys(("g/m2", "g/m²", "g/qm", "gr/m2"), "gsm"),
    **dict.fromkeys(("oz/yd2", "oz/yd²", "oz/sq yd"), "oz"),
}
_UNITS |= {word: word for word, unit in _UNITS.items() if not unit}
_BARE = frozenset({"metres", "meters", "metros", "metri", "yards", "gsm"})
"""Units that are a whole heading by themselves."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column: where it stands, what is written over it, what it is taken for."""

    place: int
    heading: str
    field: str = ""
    """Key of a field, `notes`, `leave`, or empty: nobody knows."""
    unit: str = ""
    """Unit said in the heading, for cells that are bare numbers."""
    near: str = ""
    """The word it was taken for when it was not quite the same."""
    label: str = ""
    """The heading, or where it stands if it has none or not alone."""
    own: bool = False
    """The heading is a word for the field itself, not only for what goes into it."""


def plain_heading(text: str) -> str:
    """A heading in lower case, without accents, brackets and marks."""
    letters = re.sub(r"[(\[].*?[)\]]", " ", bare_letters(text))
    return " ".join(re.findall(r"[^\W_]+", letters))


def heading_unit(text: str) -> str:
    """The unit a heading gives for its cells: `Length (m)`, `width in cm`, `Yards`; or none."""
    low = " ".join(text.casefold().split())
    for found in re.findall(r"[(\[]([^)\]]*)[)\]]", low):
        said = found.strip().removeprefix("in ").strip(" .")
        if said in _UNITS:
            return _UNITS[said]
    if low in _BARE:
        return _UNITS[low]
    last = re.split(r"\s|(?<!g)(?<!oz)(?<!gr)/", low)[1:][-1:]
    return _UNITS.get(last[0].strip("."), "") if last else ""


def find_headings(sheet: Sheet, kind: str, labels: Mapping[str, str]) -> int:
    """Number of the row that holds the headings: the one most of whose cells are known."""
    best, most = 1, 0
    for number, row in enumerate(sheet.rows[:_SEARCHED], 1):
        known = sum(bool(_known(kind, cell, labels)) for cell in row if cell)
        if known > most:
            best, most = number, known
    if most:
        return best
    return next((n for n, row in enumerate(sheet.rows, 1) if any(row)), 1)


def guess_kind(sheet: Sheet, labels: Mapping[str, Mapping[str, str]]) -> str:
    """What the table is about: the kind with most headings that are its own; else cloths."""
    scores = {}
    for kind, own in labels.items():
        row = sheet.rows[find_headings(sheet, kind, own) - 1] if sheet.rows else ()
        scores[kind] = len({key for cell in row if cell for key in _known(kind, cell, own)})
    best = max(scores.values())
    return "cloths" if scores["cloths"] == best else max(scores, key=lambda k: scores[k])


def match_headings(
    row: Sequence[str],
    kind: str,
    labels: Mapping[str, str],
    reads: Callable[[int, str], float],
) -> tuple[Column, ...]:
    """Every column with what it is taken for.

    Args:
        row: The headings.
        kind: What the table is about.
        labels: Label of each field, by key.
        reads: The share of a column's cells that a field can read, by place and key.
    """
    fields: dict[int, str] = {}
    nears: dict[int, str] = {}
    for place, heading in enumerate(row):
        free = _free(_known(kind, heading, labels), fields)
        believed = (key for key in free if len(free) == 1 or reads(place, key) >= _MOST)
        fields[place] = next(believed, free[-1] if free else "")
    # A slip of the fingers never takes a field from a heading that says it rightly.
    for place, heading in enumerate(row):
        word = "" if fields[place] else _near_word(kind, heading)
        for key in _free([_words(kind)[word]] if word else [], fields):
            if reads(place, key) >= _MOST:  # sheen is not sheer
                fields[place], nears[place] = key, word
    plain = [plain_heading(heading) for heading in row]
    return tuple(
        Column(
            place,
            heading,
            fields[place],
            heading_unit(heading),
            nears.get(place, ""),
            _label(place, heading, alone=plain.count(plain[place]) == 1),
            own=bool(fields[place]) and plain[place] not in HINTED_NOTES,
        )
        for place, heading in enumerate(row)
    )


def _free(keys: Sequence[str], fields: Mapping[int, str]) -> list[str]:
    """The fields no other column fills yet; notes may be told by many."""
    taken = set(fields.values()) - {NOTES, LEAVE}
    return [key for key in keys if key not in taken]


def _near_word(kind: str, heading: str) -> str:
    """The word a heading is nearly, or nothing; short words are near too many others."""
    plain = plain_heading(heading)
    if len(plain) < _SHORTEST:
        return ""
    near = difflib.get_close_matches(plain, _words(kind), n=1, cutoff=_NEAR)
    return near[0] if near else ""


def _label(place: int, heading: str, *, alone: bool) -> str:
    words = " ".join(heading.split())
    if alone and words:
        return words
    where = f"column {column_letters(place)}"
    return f"{words} ({where})" if words else where


def column_letters(place: int) -> str:
    """How sheets name the column at `place` (from 0): A, B … Z, AA."""
    letters, rest = "", place + 1
    while rest:
        rest, letter = divmod(rest - 1, 26)
        letters = chr(ord("A") + letter) + letters
    return letters


def _known(kind: str, heading: str, labels: Mapping[str, str]) -> list[str]:
    """The fields a heading means, best first; empty when it is no word for any."""
    plain = plain_heading(heading)
    if not plain:
        return []
    if plain in LEFT_OUT:
        return [LEAVE]
    own = [
        key for key, label in labels.items() if plain in (plain_heading(label), plain_heading(key))
    ]
    words = _words(kind)
    short = " ".join(_bare_words(plain))
    for word in (plain, short):
        if word in BY_CONTENT and kind == "cloths":
            return list(BY_CONTENT[word])
        if own:
            return own
        if word in words:
            key = words[word]
            return list(BY_CONTENT[key]) if kind == "cloths" and key in BY_CONTENT else [key]
        if word in HINTED_NOTES:
            return [NOTES]
    return []


def _bare_words(plain: str) -> list[str]:
    words = plain.split()
    if len(words) > 1 and words[-1] in _UNITS:
        words = words[:-1]
    kept = [word for word in words if word not in FILLERS]
    return kept or words


@cache
def _words(kind: str) -> dict[str, str]:
    """Field by word; of two fields with one word the first in the table keeps it."""
    found: dict[str, str] = {}
    for key, words in HEADING_WORDS[kind].items():
        for word in words.split():
            found.setdefault(word.replace("_", " "), key)
    return found
