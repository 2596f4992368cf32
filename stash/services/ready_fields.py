"""Ready-made fields of the kinds that many records have."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stash.services import readers as r
from stash.services.fields import REQUIRED, Field

if TYPE_CHECKING:
    from enum import IntEnum, StrEnum

ONE_TO_FIVE = ("1", "2", "3", "4", "5")


def text(
    key: str,
    label: str,
    hint: str,
    *,
    empty: Any = "",
    choices: tuple[str, ...] = (),
    group: str = "",
) -> Field:
    """A field of any words."""
    return Field(
        key=key,
        label=label,
        hint=hint,
        read=r.read_text,
        show=r.show_text,
        empty=empty,
        choices=choices,
        group=group,
    )


def name(noun: str, hint: str, *, group: str = "") -> Field:
    """What a record is called."""
    return Field(
        key="name",
        label="Name",
        hint=hint,
        read=r.name_of_a(noun),
        show=r.show_text,
        empty=REQUIRED,
        group=group,
    )


def notes() -> Field:
    """Room for anything else there is to say."""
    return text("notes", "Notes", "Anything else")


def flag(key: str, label: str, hint: str, *, usual: bool = False, group: str = "") -> Field:
    """A field that is yes or no."""
    return Field(
        key=key,
        label=label,
        hint=hint,
        read=r.read_flag,
        show=r.show_flag,
        empty=usual,
        choices=("yes", "no"),
        group=group,
    )


def one_of(
    kind: type[StrEnum], key: str, label: str, hint: str, *, empty: Any, group: str = ""
) -> Field:
    """A field that takes one word out of a few."""
    return Field(
        key=key,
        label=label,
        hint=hint,
        read=r.choice(kind),
        show=r.show_text,
        empty=empty,
        choices=tuple(kind),
        group=group,
    )


def steps(kind: type[IntEnum], key: str, label: str, hint: str) -> Field:
    """A field that takes one step of a scale, by its word or its number."""
    return Field(
        key=key,
        label=label,
        hint=hint,
        read=r.level(kind),
        show=r.show_level,
        choices=tuple(step.name.lower() for step in kind),
    )


def marks(key: str, label: str, hint: str, *, group: str = "") -> Field:
    """A field of 1 to 5; nothing said is in the middle."""
    return Field(
        key=key,
        label=label,
        hint=hint,
        read=r.whole(1, 5),
        show=r.show_text,
        empty=3,
        choices=ONE_TO_FIVE,
        group=group,
    )


def percent(key: str, label: str, hint: str, *, empty: float | None = None) -> Field:
    """A percentage, or from one length to another."""
    return Field(
        key=key, label=label, hint=hint, read=r.read_percent, show=r.show_percent, empty=empty
    )


def weight(key: str, label: str, hint: str) -> Field:
    """A weight of cloth."""
    return Field(key=key, label=label, hint=hint, read=r.read_weight, show=r.show_weight)


def day(key: str, label: str, hint: str) -> Field:
    """A day of the calendar."""
    return Field(key=key, label=label, hint=hint, read=r.read_day, show=r.show_text)


def record(
    noun: str, key: str, label: str, hint: str, *, name: str = "", empty: Any = None
) -> Field:
    """Another record, by its name or number."""
    return Field(
        key=key,
        label=label,
        hint=hint,
        read=r.reference(noun),
        show=r.show_reference(noun),
        name=name,
        empty=empty,
    )
