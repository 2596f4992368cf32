"""Settings as a person types them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.config import (
    HEAVIEST,
    LIMITS,
    LONGEST_CURRENCY,
    SUIT_WEIGHTS,
    Settings,
    System,
    is_currency,
)
from stash.errors import BadInputError
from stash.services import readers as r
from stash.services.fields import Context, Field, read_record, texts_of
from stash.units.length import Length
from stash.units.number import read_number
from stash.units.percent import parse_share

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from stash.services.stash import Stash

USUAL = Settings()


def _read_system(text: str, _: Context) -> System:
    words = {"cm": System.METRIC, "m": System.METRIC, "inch": System.IMPERIAL}
    return words.get(text.lower()) or r.choice(System)(text, _)


def _read_currency(text: str, _: Context) -> str:
    if not is_currency(text):
        raise BadInputError(
            f"{text!r} is not a currency.",
            f"Type a sign or a word of up to {LONGEST_CURRENCY} letters: EUR, GBP, $.",
        )
    return text


def _read_mm(name: str) -> Callable[[str, Context], float]:
    """A reader of a length within the limits of the setting `name`."""

    def read(text: str, context: Context) -> float:
        length = r.read_any_length(text, context).mm
        low, high = LIMITS[name]
        if not low <= length <= high:
            raise BadInputError(f"{text!r} is not from {low} mm to {high // 1000} m.")
        return length

    return read


def _read_share(text: str, _: Context) -> float:
    share = parse_share(text)
    low, high = LIMITS["margin_percent"]
    if not low <= share <= high:
        raise BadInputError(f"{text!r} is not from {low} to {high} %.")
    return share


def _show_mm(value: float | None, context: Context) -> str:
    """As it was typed, to the last digit; nothing at all is a length too."""
    from stash.units.format_length import Measure, show_length

    if value is None:
        return ""
    return show_length(Length.from_mm(value), context.settings.system, Measure.EXACT)


def _read_weights(text: str, _: Context) -> tuple[tuple[str, float], ...]:
    found: dict[str, float] = {}
    for part in text.split(","):
        name, _space, number = " ".join(part.lower().split()).rpartition(" ")
        if name not in SUIT_WEIGHTS:
            raise BadInputError(
                f"{part.strip()!r} does not weigh a factor.",
                f"Type hand 3, season 0. The factors are {', '.join(SUIT_WEIGHTS)}.",
            )
        weight = float(read_number(number))
        if not 0 <= weight <= HEAVIEST:
            raise BadInputError(f"{part.strip()!r} is not from 0 to {HEAVIEST}.")
        found[name] = weight
    return tuple(
        (n, found[n]) for n in SUIT_WEIGHTS if found.get(n, SUIT_WEIGHTS[n]) != SUIT_WEIGHTS[n]
    )


def _show_weights(value: tuple[tuple[str, float], ...], _: Context) -> str:
    return ", ".join(f"{n} {weight:g}" for n, weight in (SUIT_WEIGHTS | dict(value)).items())


SETTING_FIELDS: tuple[Field, ...] = (
    Field(
        key="units",
        label="Units",
        hint="metric or imperial; what you type is understood in both",
        read=_read_system,
        show=r.show_text,
        name="system",
        empty=USUAL.system,
        choices=tuple(System),
    ),
    Field(
        key="currency",
        label="Currency",
        hint="EUR, GBP, $",
        read=_read_currency,
        show=r.show_text,
        empty=USUAL.currency,
    ),
    Field(
        key="margin",
        label="Margin",
        hint="Spare length below which a fit is called close: 5 cm, 2 in",
        read=_read_mm("margin_mm"),
        show=_show_mm,
        name="margin_mm",
        empty=USUAL.margin_mm,
    ),
    Field(
        key="margin_percent",
        label="Margin as a share",
        hint="The same as a share of what is needed; the larger counts: 3 %",
        read=_read_share,
        show=r.show_percent,
        empty=USUAL.margin_percent,
    ),
    Field(
        key="shop_step",
        label="Shop step",
        hint="Smallest step the shop cuts by: 10 cm, 1/8 yd; empty: the usual one",
        read=_read_mm("shop_step_mm"),
        show=_show_mm,
        name="shop_step_mm",
    ),
    Field(
        key="budget",
        label="Budget",
        hint="Most to spend on the buying list; empty: no limit",
        read=r.read_money,
        show=r.show_text,
    ),
    Field(
        key="seed",
        label="Seed",
        hint="Of every search, so that the same question has the same answer: 1",
        read=r.whole(*LIMITS["seed"]),
        show=r.show_text,
        empty=USUAL.seed,
    ),
    Field(
        key="suit_weights",
        label="Weights of the suit",
        hint="What counts how much, 0 to 10: hand 3, season 0; those not named are as usual",
        read=_read_weights,
        show=_show_weights,
        empty=(),
    ),
)
"""In the order they are shown."""


class _NoNames:
    """Settings refer to no record."""

    def id_of(self, noun: str, ref: str) -> int:
        raise LookupError(f"{noun} {ref}")

    def name_of(self, noun: str, record_id: int) -> str:
        raise LookupError(f"{noun} {record_id}")


def setting_field(key: str) -> Field:
    """The setting called so when it is typed, or in its file.

    Raises:
        BadInputError: There is none.
    """
    wanted = key.replace("-", "_")
    for field in SETTING_FIELDS:
        if wanted in (field.key, field.attribute):
            return field
    known = ", ".join(field.key for field in SETTING_FIELDS)
    raise BadInputError(f"There is no setting called {key!r}.", f"There are: {known}.")


def setting_texts(stash: Stash) -> dict[str, str]:
    """Every setting as text, by key."""
    return texts_of(SETTING_FIELDS, stash.settings, Context(stash.settings, _NoNames()))


def change_settings(stash: Stash, texts: Mapping[str, str]) -> Settings:
    """Change the settings that were typed and keep them; BadInputError changes nothing."""
    context = Context(stash.settings, _NoNames())
    settings = read_record(SETTING_FIELDS, texts, stash.settings, Settings, context)
    stash.keep_settings(settings)
    return settings
