"""Reading the single words of a row or table: yes and no, steps, dates, numbers."""

from __future__ import annotations

import difflib
from datetime import date
from decimal import Decimal, InvalidOperation
from typing import TYPE_CHECKING, TypeVar

from stash.cloth.record import Hand
from stash.errors import BadInputError

if TYPE_CHECKING:
    from collections.abc import Iterable
    from enum import StrEnum

S = TypeVar("S", bound="StrEnum")


def read_flag(text: str) -> bool:
    """`yes` or `no`."""
    word = text.lower()
    if word in ("yes", "no"):
        return word == "yes"
    raise BadInputError(f"'{text}' is neither yes nor no.", "Write yes or no.")


def read_choice(kind: type[S], text: str) -> S:
    """A member of `kind` by its value."""
    word = " ".join(text.lower().split())
    if word in tuple(kind):
        return kind(word)
    raise BadInputError(f"'{text}' is not one of the choices.", f"Use: {', '.join(kind)}.")


def read_hand(text: str) -> Hand:
    """A step of hand by its word."""
    words = {step.name.lower(): step for step in Hand}
    if text.lower() in words:
        return words[text.lower()]
    raise BadInputError(f"'{text}' is not a hand.", f"Use: {', '.join(words)}.")


def read_step(text: str) -> int:
    """A whole number from 1 to 5."""
    if text in ("1", "2", "3", "4", "5"):
        return int(text)
    raise BadInputError(f"'{text}' is not a step.", "Use 1, 2, 3, 4 or 5.")


def read_day(text: str) -> date:
    """A date as 2026-11-25."""
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise BadInputError(f"'{text}' is not a date.", "Write it like 2026-11-25.") from error


def read_price(text: str) -> Decimal:
    """An amount of money without its currency: `12.50` or `12,50`."""
    try:
        price = Decimal(text.replace(",", "."))
    except InvalidOperation:
        price = Decimal(-1)
    if not price.is_finite() or price < 0:
        raise BadInputError(f"'{text}' is not a price.", "Write it like 12.50.")
    return price


def unknown(what: str, word: str, known: Iterable[str]) -> BadInputError:
    """The error for a name nothing answers to, with near ones in the hint."""
    names = sorted(known)
    near = difflib.get_close_matches(word, names, n=3, cutoff=0.5) or names[:8]
    hint = f"Is it one of these: {', '.join(near)}?" if near else f"There is no {what} yet."
    return BadInputError(f"there is no {what} called '{word}'.", hint)
