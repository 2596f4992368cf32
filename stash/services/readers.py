"""Ready-made ways to read and show the values of fields."""

from __future__ import annotations

import re
from datetime import date
from typing import TYPE_CHECKING, Any, TypeVar

from stash.errors import BadInputError

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from decimal import Decimal
    from enum import Enum, IntEnum, StrEnum

    from stash.services.fields import Context
    from stash.units.length import Length

E = TypeVar("E", bound="StrEnum")
I = TypeVar("I", bound="IntEnum")  # noqa: E741

YES = ("yes", "y", "true", "1", "on")
NO = ("no", "n", "false", "0", "off")


def read_text(text: str, _: Context) -> str:
    """The text as it is."""
    return text


def name_of_a(noun: str) -> Callable[[str, Context], str]:
    """A reader of the name of a record: not a number, which would mean the one kept under it."""

    def read(text: str, _: Context) -> str:
        if text.isascii() and text.isdigit():
            raise BadInputError(
                f"{text!r} is only a number, and a number means the {noun} kept under it.",
                f"Add a word to it: {noun} {text}.",
            )
        return text

    return read


def show_text(value: object, _: Context) -> str:
    """Any value as Python writes it; nothing for None."""
    return "" if value is None else str(value)


def read_flag(text: str, _: Context) -> bool:
    """`yes` or `no`."""
    if text.lower() in YES:
        return True
    if text.lower() in NO:
        return False
    raise BadInputError(f"{text!r} is neither yes nor no.", "Type yes or no.")


def show_flag(value: bool, _: Context) -> str:
    """`yes` or `no`."""
    return "yes" if value else "no"


def choice(kind: type[E]) -> Callable[[str, Context], E]:
    """A reader of one word out of a few; any unambiguous beginning will do."""
    return lambda text, _: _choose(text, {member.value: member for member in kind})


def word_of(words: Sequence[str]) -> Callable[[str, Context], str]:
    """A reader of one plain word out of a few; any unambiguous beginning will do."""
    return lambda text, _: str(_choose(text, {word: word for word in words}))


def level(kind: type[I]) -> Callable[[str, Context], I]:
    """A reader of a step, by its word or its number."""

    def read(text: str, _: Context) -> I:
        words = {member.name.lower(): member for member in kind}
        numbers = {str(member.value): member for member in kind}
        return numbers[text] if text in numbers else _choose(text, words)

    return read


def _choose(text: str, words: dict[str, Any]) -> Any:
    wanted = text.strip().lower()
    if wanted in words:
        return words[wanted]
    begun = [word for word in words if word.startswith(wanted)]
    if len(begun) == 1:
        return words[begun[0]]
    raise BadInputError(f"{text!r} is not one of the choices.", f"Choose from: {', '.join(words)}.")


def show_level(value: Enum | None, _: Context) -> str:
    """The word of a step."""
    return "" if value is None else value.name.lower()


def whole(low: int, high: int) -> Callable[[str, Context], int]:
    """A reader of a whole number in a range."""

    def read(text: str, _: Context) -> int:
        if re.fullmatch(rf"\d{{1,{len(str(high))}}}", text) and low <= int(text) <= high:
            return int(text)
        raise BadInputError(f"{text!r} is not a whole number from {low} to {high}.")

    return read


def number(low: float, high: float) -> Callable[[str, Context], float]:
    """A reader of a number in a range: `1.5`, `1,5`, `1 1/2`."""

    def read(text: str, _: Context) -> float:
        from stash.units.number import read_number

        value = float(read_number(text))
        if not low <= value <= high:
            raise BadInputError(f"{text!r} is not between {low:g} and {high:g}.")
        return value

    return read


def show_number(value: float | None, _: Context) -> str:
    """A number without needless digits."""
    return "" if value is None else f"{value:g}"


def read_day(text: str, _: Context) -> date:
    """A day as year-month-day."""
    return parse_day(text)


def parse_day(text: str) -> date:
    """The same where there is no record around it."""
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise BadInputError(f"{text!r} is not a day.", "Type it as 2026-10-31.") from error


def read_positive_length(text: str, _: Context) -> Length:
    """A length above nothing."""
    from stash.units.parse_length import parse_length

    length = parse_length(text)
    if length.nm <= 0:
        raise BadInputError(f"{text!r} is no length at all.", "Type a length such as 2.4 m.")
    return length


def read_printed_amount(text: str, _: Context) -> Length:
    """An amount above nothing, as an envelope prints it: in yards, in metres or in both."""
    from stash.units.printed import parse_printed

    amount = parse_printed(text)
    if amount.nm <= 0:
        raise BadInputError(f"{text!r} is no length at all.", "Type a length such as 2.4 m.")
    return amount


def read_any_length(text: str, _: Context) -> Length:
    """A length; `0` needs no unit."""
    from stash.units.length import ZERO
    from stash.units.parse_length import parse_length

    return ZERO if text == "0" else parse_length(text)


def read_width(text: str, _: Context) -> Length:
    """A width above nothing; of a range such as `58/60"` the narrower."""
    from stash.units.parse_length import parse_width

    width = parse_width(text)
    if width.nm <= 0:
        raise BadInputError(f"{text!r} is no width at all.", 'Type a width such as 140 cm or 58".')
    return width


def show_as(kind: str) -> Callable[[Length | None, Context], str]:
    """A shower of lengths in the person's units; `kind` names a `Measure`."""

    def show(value: Length | None, context: Context) -> str:
        from stash.units.format_length import Measure, show_length

        if value is None or not value:
            return ""
        return show_length(value, context.settings.system, Measure[kind])

    return show


def read_weight(text: str, context: Context) -> float:
    """Grams per square metre; a weight per running metre needs the width of the same record."""
    from stash.units.weight import parse_weight

    return parse_weight(text, _width_beside(context))


def _width_beside(context: Context) -> Length | None:
    """The width typed in the same record; None if it is not understood, which it says itself."""
    from stash.units.parse_length import parse_width

    try:
        return parse_width(context.texts.get("width", ""))
    except BadInputError:
        return None


def show_weight(value: float | None, context: Context) -> str:
    """A weight in the person's units."""
    from stash.units.weight import show_weight

    return "" if value is None else show_weight(value, context.settings.system)


def read_percent(text: str, _: Context) -> float:
    """Per cent, or from one length to another."""
    from stash.units.percent import parse_percent

    return parse_percent(text)


def read_loss(text: str, _: Context) -> float:
    """Per cent lost, or from one length to a shorter one."""
    from stash.units.percent import parse_loss

    return parse_loss(text)


def read_recovery(text: str, _: Context) -> float:
    """Per cent, or lengths at rest, stretched and let go."""
    from stash.units.percent import parse_recovery

    return parse_recovery(text)


def read_drape(text: str, _: Context) -> float:
    """A drape coefficient, or the shadow it comes from."""
    from stash.trade.hand import parse_drape

    return parse_drape(text)


def show_percent(value: float | None, _: Context) -> str:
    """Per cent with its sign."""
    from stash.units.percent import show_percent

    return "" if value is None else show_percent(value)


def read_measures(text: str, _: Context) -> tuple[tuple[str, Length], ...]:
    """Named measures: `waist = 78 cm; hip = 102 cm`."""
    from stash.units.parse_length import parse_length

    measures = []
    for part in (p.strip() for p in text.split(";")):
        name, equals, amount = part.partition("=")
        if not part:
            continue
        if not equals or not name.strip():
            raise BadInputError(f"{part!r} is not a measure.", "Type: waist = 78 cm; hip = 102 cm")
        measures.append((name.strip().lower(), parse_length(amount.strip())))
    return tuple(measures)


def show_measures(value: tuple[tuple[str, Length], ...], context: Context) -> str:
    """Named measures in the person's units."""
    show = show_as("WIDTH")
    return "; ".join(f"{name} = {show(length, context)}" for name, length in value)


def read_money(text: str, context: Context) -> Decimal:
    """An amount in the currency of the settings."""
    from stash.units.money import parse_money

    return parse_money(text, context.settings.currency)


def read_price(text: str, context: Context) -> Decimal:
    """A price per metre; one per yard is turned into it."""
    from stash.units.money import parse_price

    return parse_price(text, context.settings.currency)


def read_colour(text: str, _: Context) -> str:
    """A colour as #rrggbb."""
    from stash.trade.colour import parse_colour

    return parse_colour(text)


def read_fibre_names(text: str, context: Context) -> tuple[str, ...]:
    """Fibres by their plain names, with commas between: `cotton, linen`."""
    from stash.trade.fibres import find_fibre

    return tuple(dict.fromkeys(find_fibre(word) for word in words(text, context)))


def words(text: str, _: Context) -> tuple[str, ...]:
    """Several words, with commas between."""
    found = tuple(word.strip() for word in text.split(",") if word.strip())
    if len({word.lower() for word in found}) < len(found):
        raise BadInputError(f"{text!r} names the same thing twice.")
    return found


def show_words(value: tuple[str, ...], _: Context) -> str:
    """Words with commas between."""
    return ", ".join(value)


def reference(noun: str) -> Callable[[str, Context], int]:
    """A reader of another record's name or number."""
    return lambda text, context: context.names.id_of(noun, text)


def show_reference(noun: str) -> Callable[[int | None, Context], str]:
    """A shower of another record's name."""
    return lambda value, context: "" if value is None else context.names.name_of(noun, value)
