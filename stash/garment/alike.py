"""Names that are the same, or so much alike that one thing may stand there twice."""

from __future__ import annotations

import difflib
import re
from typing import TYPE_CHECKING

from stash.units.letters import bare_letters

if TYPE_CHECKING:
    from collections.abc import Iterable

NEAR = 0.85
"""Share of letters two names have in common to be called alike (house rule)."""
_WORDS = re.compile(r"[^\W_]+")


def same_name(one: str, other: str) -> bool:
    """The same words in the same order, whatever case, accents and punctuation."""
    return _words(one) == _words(other)


def near_names(name: str, others: Iterable[str]) -> tuple[str, ...]:
    """Those of `others` that are much like `name`: the same words in another order, or a slip.

    Names that differ in a number are told apart by it: `coat 1042` and `coat 1043`.
    """
    return tuple(other for other in others if _near(_words(name), _words(other)))


def _near(one: list[str], other: list[str]) -> bool:
    if _numbers(one) != _numbers(other):
        return False
    if sorted(one) == sorted(other):
        return True
    alike = difflib.SequenceMatcher(None, " ".join(one), " ".join(other), autojunk=False)
    return alike.ratio() >= NEAR


def _words(name: str) -> list[str]:
    return _WORDS.findall(bare_letters(name))


def _numbers(words: list[str]) -> list[str]:
    return sorted(word for word in words if any(letter.isdigit() for letter in word))
