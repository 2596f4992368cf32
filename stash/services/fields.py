"""What a person may say about a record: one description for commands, forms and tables.

A `Field` reads one typed text and shows one value. A record is read from the texts of all
its fields at once, so that every problem is told at once and nothing is half changed.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from dataclasses import field as attribute
from typing import TYPE_CHECKING, Any, Protocol, TypeVar

from stash.errors import BadInputError, StashError

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from stash.config import Settings

Record = TypeVar("Record")


class Names(Protocol):
    """Turns a typed name or id into the id of a record, and back.

    Nouns are `cloth`, `pattern`, `make` and `person`.
    """

    def id_of(self, noun: str, ref: str) -> int:
        """The id of the record meant by `ref`; NotFoundError if there is none or several."""

    def name_of(self, noun: str, record_id: int) -> str:
        """Its name, or an empty text if it is gone."""


@dataclass(frozen=True, slots=True)
class Context:
    """What a field needs to know to read or show a value."""

    settings: Settings
    names: Names
    texts: Mapping[str, str] = attribute(default_factory=dict)
    """The texts of the whole record: a weight per running metre needs the width."""


class _Required:
    """Marks a field that must not be empty."""


REQUIRED = _Required()


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One thing that may be said about a record."""

    key: str
    """Its name in commands (`--key`, with `-` for `_`), forms and JSON."""
    label: str
    hint: str
    """What to type, with an example."""
    read: Callable[[str, Context], Any]
    """The value of the attribute from a text that is not empty."""
    show: Callable[[Any, Context], str]
    """The text of a value, fit to be read back; empty when not known."""
    name: str = ""
    """Attribute of the record; empty: the same as `key`."""
    empty: Any = None
    """The value an empty text stands for; `REQUIRED`: it must not be empty."""
    choices: tuple[str, ...] = ()
    """The texts that are understood, when they are few."""
    group: str = ""
    """Heading over the field in a form; empty: it goes on under the one before."""

    @property
    def required(self) -> bool:
        """A record cannot be made without it."""
        return self.empty is REQUIRED

    @property
    def attribute(self) -> str:
        """The attribute of the record it fills."""
        return self.name or self.key

    def read_text(self, text: str, context: Context) -> Any:
        """The value of a typed text, empty or not; BadInputError names the field."""
        text = text.strip()
        if not text:
            if self.required:
                raise BadInputError(
                    f"{self.label} is missing: {self.hint[:1].lower()}{self.hint[1:]}."
                )
            return self.empty
        try:
            return self.read(text, context)
        except StashError as error:
            raise type(error)(f"{self.label}: {error.message}", error.hint or self.hint) from error


def texts_of(fields: Sequence[Field], record: object, context: Context) -> dict[str, str]:
    """What to put into a form, and what `show` prints: the text of every field."""
    return {f.key: f.show(getattr(record, f.attribute), context) for f in fields}


def read_values(
    fields: Sequence[Field], texts: Mapping[str, str], context: Context, *, only_given: bool
) -> dict[str, Any]:
    """The values of typed texts, by attribute.

    Args:
        fields: The fields of the record.
        texts: What was typed, by field key.
        context: Settings and names.
        only_given: Leave out fields nobody typed (editing); else they are empty (adding).

    Raises:
        BadInputError: With every problem, a line each.
    """
    unknown = sorted(set(texts) - {f.key for f in fields})
    if unknown:
        known = ", ".join(f.key for f in fields)
        raise BadInputError(f"There is no field called {unknown[0]!r}.", f"Fields are: {known}.")
    full = replace(context, texts={**context.texts, **texts})
    values: dict[str, Any] = {}
    problems: list[StashError] = []
    for f in fields:
        if only_given and f.key not in texts:
            continue
        try:
            values[f.attribute] = f.read_text(texts.get(f.key, ""), full)
        except StashError as error:
            problems.append(error)
    if len(problems) == 1:
        raise problems[0]
    if problems:
        raise BadInputError("\n".join(str(p) for p in problems))
    return values


def read_record(
    fields: Sequence[Field],
    texts: Mapping[str, str],
    base: Record | None,
    make: Callable[..., Record],
    context: Context,
) -> Record:
    """A new record from texts, or `base` with what was typed changed.

    A text left as it was shown changes nothing, so a rounded length is not rounded for good.

    Raises:
        BadInputError: With every problem, a line each.
    """
    if base is None:
        return make(**read_values(fields, texts, context, only_given=False))
    shown = texts_of(fields, base, context)
    changed = {key: text for key, text in texts.items() if text.strip() != shown.get(key)}
    values = read_values(fields, changed, replace(context, texts=shown), only_given=True)
    return replace(base, **values)  # type: ignore[type-var]
