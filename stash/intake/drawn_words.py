"""What the writing on and in a drawn piece says: `cut 1 on fold`, `2x zuschneiden`, `taille 40`."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.errors import StashError
from stash.garment.pattern import Role
from stash.intake.svg_titles import Cut, Said, read_cut, read_word
from stash.trade import pattern_words as words
from stash.units.letters import bare_letters
from stash.units.parse_length import parse_length

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence


def _any(texts: Iterable[str]) -> str:
    """A regular expression for any of the words, the longest first."""
    ordered = sorted(dict.fromkeys(texts), key=lambda text: (-len(text), text))
    return "|".join(re.escape(text).replace(r"\ ", r"\s+") for text in ordered)


def _whole(pattern: str) -> re.Pattern[str]:
    return re.compile(rf"(?<![^\W_])(?:{pattern})(?![^\W_])", re.IGNORECASE)


_CUT, _TIMES, _PAIR = _any(words.CUT_WORDS), _any(words.TIMES_WORDS), _any(words.PAIR_WORDS)
_COUNT = r"(\d{1,2})"
_COUNTS = (
    _whole(rf"(?:{_CUT})\s*[:.]?\s*{_COUNT}\s*(?:(?:{_TIMES})|({_PAIR}))?"),
    _whole(rf"{_COUNT}\s*(?:{_TIMES})?\s*({_PAIR})?\s*(?:{_CUT})"),
    _whole(rf"{_COUNT}\s*(?:{_TIMES})"),
    _whole(rf"[x×]\s*{_COUNT}"),
)
_FOLD = _whole(_any(words.FOLD_WORDS))
_NO_FOLD = _whole(
    rf"(?:{_any(words.NOT_WORDS)})\s+(?:(?:{_CUT})\s+)?"
    rf"(?:{_any((*words.FOLD_WORDS, *words.FOLD_LINE_WORDS))})"
)
_ALIKE = _whole(_any(words.ALIKE_WORDS))
_JUST_CUT = _whole(_CUT)
_ROLES = {Role(role): _whole(_any(texts)) for role, texts in words.ROLE_WORDS.items()}
_SIZE = _whole(rf"(?:{_any(words.SIZE_WORDS)})\s*[:.]?\s*([\w/+-]{{1,12}})")
_LETTERS = _any(words.LETTER_SIZES)
_BARE_SIZE = re.compile(rf"(?:(?:EU|UK|US|DE|FR|IT|ES)\s*)?(\d{{1,3}}|{_LETTERS})", re.IGNORECASE)
_SQUARE = _whole(_any(words.SQUARE_WORDS))
_GRAIN = _whole(_any(words.GRAIN_WORDS))
_LENGTH = re.compile(
    r"(\d+(?:[.,]\d+)?(?:\s+\d+/\d+)?)\s*(mm|cm|inch|inches|in|\"|″|”|zoll|pouces?)(?![^\W_])?",
    re.IGNORECASE,
)
_BREAK = re.compile(r"[|\n;]")
_MARKS = " -–—:;,."
_EMPTY = re.compile(rf"[(\[][{re.escape(_MARKS)}]*[)\]]")
_BRACKETED = re.compile(r"[(\[]([^()\[\]]*)[)\]]")
_NAMELESS = re.compile(
    r"(?:path|rect|circle|ellipse|polygon|polyline|line|shape|curve|compound path|contour|"
    r"g|group|groupe|gruppe|grupo|use|svg|text|layer|ebene|calque|capa|livello|laag|piece|0|"
    r"objet|object|objekt)?[\s_.-]*\d*(?:[\s_.-]+\d+)*",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Heard:
    """What was made out of some writing."""

    said: Said
    names: tuple[str, ...] = ()
    """What is left and may be a name."""
    counts: tuple[int, ...] = ()
    """How many are cut, every time it says so."""
    folds: tuple[bool, ...] = ()
    """Whether it is cut on the fold, every time it says so."""
    unread: tuple[str, ...] = ()
    """Words after the name of a title with bars that say nothing we know."""

    @property
    def counted(self) -> bool:
        """It says how many are cut; on the fold, without a number, is one."""
        return bool(self.counts) or True in self.folds


def read_writing(texts: Sequence[str], said: Said) -> Heard:
    """`said` with the words of some texts added; what is not understood may be a name.

    Count and fold are independent and come in any order. A fold that is said and denied is one:
    then too much cloth is taken, not half of what is needed.
    """
    names: list[str] = []
    unread: list[str] = []
    counts: list[int] = []
    folds: list[bool] = []
    on_fold = said.on_fold
    for text in texts:
        # The name before the first bar is one, whatever stands in it.
        name, bar, rest = text.partition("|")
        ours = bool(bar)
        parts = [name, *_BREAK.split(rest)] if ours else _BREAK.split(text)
        for number, part in enumerate(parts):
            heard = _part(" ".join(part.split()), said, ours)
            said = heard.said
            counts += heard.counts
            folds += heard.folds
            names += heard.names
            if ours and number and heard.names:
                unread += [part.strip()]
    said = replace(said, on_fold=True in folds or (on_fold and not folds))
    return Heard(said, tuple(names), tuple(counts), tuple(folds), tuple(unread))


def _part(part: str, said: Said, ours: bool) -> Heard:
    # In a title with bars a size may be several words: `size 3-4 years`.
    own = read_word(part, said) if ours or not _SIZE.match(part) else None
    if own is not None:
        cut = read_cut(part) or Cut()
        return Heard(
            own,
            counts=() if cut.copies is None else (cut.copies,),
            folds=() if cut.on_fold is None else (cut.on_fold,),
        )
    left, folds = _folds_in(part)
    counts: tuple[int, ...] = ()
    for pattern in _COUNTS:
        if found := pattern.search(left):
            pair = any(found.groups()[1:])
            copies = int(found[1]) * (2 if pair else 1)
            if copies:
                said, counts = replace(said, copies=copies), (copies,)
                left = f"{left[: found.start()]} {left[found.end() :]}"
                break
    if _ALIKE.search(left):
        said, left = replace(said, mirrored=False), _ALIKE.sub(" ", left)
    if found := _SIZE.search(left):
        said, left = replace(said, size=found[1]), _SIZE.sub(" ", left)
    cutting = bool(counts or folds)
    for role, pattern in _ROLES.items():
        # "Lining" alone may be the name of a piece; beside a count it is what it is cut from.
        if pattern.search(left) and (cutting or pattern.fullmatch(left.strip())):
            said, left = replace(said, role=role), pattern.sub(" ", left)
            break
    left = _JUST_CUT.sub(" ", left) if cutting else left
    left = _tidied(left)
    return Heard(said, (left,) if is_name(left) else (), counts, folds)


def _tidied(left: str) -> str:
    """What is left of a text, without the marks and brackets that lost what stood in them."""
    left = _EMPTY.sub(" ", left).strip(_MARKS).rstrip(_MARKS + "([").lstrip(_MARKS + ")]")
    if whole := _BRACKETED.fullmatch(left):
        left = whole[1].strip(_MARKS)
    return " ".join(left.split())


def _folds_in(text: str) -> tuple[str, tuple[bool, ...]]:
    """The text without the words of a fold, and whether they say that there is one."""
    folds: tuple[bool, ...] = ()
    for pattern, on_fold in ((_NO_FOLD, False), (_FOLD, True)):
        if pattern.search(text):
            text, folds = pattern.sub(" ", text), (*folds, on_fold)
    return text, folds


def is_name(text: str) -> bool:
    """Somebody may have given a piece this name: it is no number and no program's own name."""
    letters = sum(c.isalpha() for c in text)
    return letters >= 2 and len(text) <= 60 and not _NAMELESS.fullmatch(text.strip())


def is_grain(text: str) -> bool:
    """It names a grain line; a title with bars is that of a piece."""
    return "|" not in text and bool(_GRAIN.search(text))


def is_fold(text: str) -> bool:
    """It names the line of a fold."""
    return bare_letters(text) in words.FOLD_LINE_WORDS or bool(_FOLD.search(text))


def is_fold_mark(text: str) -> bool:
    """Alone on a piece, it names the edge on the fold rather than a line to turn later."""
    return bare_letters(text) in words.FOLD_MARK_WORDS


def is_aside(text: str) -> bool:
    """A layer of this name holds no pieces."""
    return bare_letters(text) in words.ASIDE_WORDS


def is_square(text: str) -> bool:
    """It names the square that checks the scale."""
    return bool(_SQUARE.search(text))


def side_of(text: str) -> float | None:
    """The first length a text speaks of, in mm: the side of a test square."""
    found = _LENGTH.search(text)
    if found is None:
        return None
    unit = found[2].lower()
    unit = unit if unit in ("mm", "cm") else "in"
    try:
        return parse_length(f"{found[1]} {unit}").mm
    except StashError:
        return None


def size_of_layer(layer: str, known: Sequence[str] = ()) -> str:
    """The size a layer is of: `size M`, `taille 40`, `EU 38`, `XL`; empty when it is of none."""
    for label in known:
        if layer.strip().lower() == label.lower():
            return label
    if found := _SIZE.search(layer):
        return found[1]
    bare = _BARE_SIZE.fullmatch(layer.strip())
    return bare[1].upper() if bare else ""
