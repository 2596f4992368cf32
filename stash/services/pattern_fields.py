"""What may be said about a pattern, and about the rows of its tables."""

from __future__ import annotations

from stash.cloth.record import Hand, Structure
from stash.errors import BadInputError
from stash.garment.pattern import Kind, Role, Size
from stash.services import readers as r
from stash.services.fields import REQUIRED, Context, Field
from stash.units.length import ZERO


def _read_sizes(text: str, context: Context) -> tuple[Size, ...]:
    return tuple(Size(label=label) for label in r.words(text, context))


def _show_sizes(value: tuple[Size, ...], context: Context) -> str:
    return r.show_words(tuple(size.label for size in value), context)


def _read_structures(text: str, context: Context) -> tuple[Structure, ...]:
    read = r.choice(Structure)
    return tuple(read(word, context) for word in r.words(text, context))


def _read_grams(text: str, _: Context) -> float:
    from stash.units.weight import parse_weight

    return parse_weight(text)


def _show_grams(value: float | None, context: Context) -> str:
    from stash.units.weight import show_weight

    return "" if value is None else show_weight(value, context.settings.system)


def _read_role(text: str, context: Context) -> Role:
    return r.choice(Role)(text, context)


def read_role(text: str | Role) -> Role:
    """A role from its word; BadInputError names the choices."""
    words = {role.value: role for role in Role}
    try:
        return words[text.strip().lower()]
    except KeyError as error:
        raise BadInputError(
            f"{text!r} is not a role of a pattern.", f"Choose from: {', '.join(words)}."
        ) from error


def _role(group: str = "") -> Field:
    return Field(
        key="role",
        label="Role",
        hint="main, contrast, lining, interfacing or rib",
        read=_read_role,
        show=r.show_text,
        empty=Role.MAIN,
        choices=tuple(Role),
        group=group,
    )


PATTERN_FIELDS: tuple[Field, ...] = (
    Field(
        key="name",
        label="Name",
        hint="What you call it",
        read=r.read_text,
        show=r.show_text,
        empty=REQUIRED,
    ),
    Field(
        key="kind",
        label="Kind",
        hint="What garment it is: shirt, skirt, elastic trousers",
        read=r.choice(Kind),
        show=r.show_text,
        empty=REQUIRED,
        choices=tuple(Kind),
    ),
    Field(
        key="sizes",
        label="Sizes",
        hint="With commas between: 38, 40, 42",
        read=_read_sizes,
        show=_show_sizes,
        empty=(),
    ),
    Field(
        key="views",
        label="Views",
        hint="With commas between: short, long; empty: only one",
        read=r.words,
        show=r.show_words,
        empty=(),
    ),
    Field(
        key="form",
        label="Form",
        hint="paper, file or book",
        read=r.read_text,
        show=r.show_text,
        empty="paper",
        choices=("paper", "file", "book"),
    ),
    Field(
        key="kept_in",
        label="Kept in",
        hint="Where it lies",
        read=r.read_text,
        show=r.show_text,
        empty="",
    ),
    Field(
        key="fullness",
        label="Fullness",
        hint="Cloth over finished width at the fullest gathered seam: 1.5; 1 is none",
        read=r.number(1, 6),
        show=r.show_number,
        empty=1.0,
    ),
    r.flag("child", "For a child", "yes or no"),
    r.flag("tested", "Tested", "yes once it was sewn and fitted"),
    Field(
        key="liked",
        label="Liked",
        hint="1 to 5",
        read=r.whole(1, 5),
        show=r.show_text,
        empty=3,
        choices=("1", "2", "3", "4", "5"),
    ),
    Field(
        key="notes",
        label="Notes",
        hint="Anything else",
        read=r.read_text,
        show=r.show_text,
        empty="",
    ),
)
"""The header of a pattern, in the order of a form."""

CHART_FIELDS: tuple[Field, ...] = (
    Field(
        key="size",
        label="Size",
        hint="One of the pattern's sizes",
        read=r.read_text,
        show=r.show_text,
        empty=REQUIRED,
    ),
    Field(
        key="width",
        label="Cloth width",
        hint='As the chart prints it: 115 cm, 45", 58/60"',
        read=r.read_width,
        show=r.show_as("WIDTH"),
        empty=REQUIRED,
    ),
    Field(
        key="amount",
        label="Amount",
        hint="As the chart prints it: 2 5/8 yd, 2.4 m",
        read=r.read_positive_length,
        show=r.show_as("AMOUNT"),
        empty=REQUIRED,
    ),
    Field(
        key="view",
        label="View",
        hint="Empty: every view",
        read=r.read_text,
        show=r.show_text,
        empty="",
    ),
    _role(),
    r.flag("with_nap", "With nap", "yes if the amount is enough for cloth with nap", usual=True),
)
"""A row of the envelope's table of amounts."""

ASKS_FIELDS: tuple[Field, ...] = (
    _role(),
    Field(
        key="structures",
        label="Structures",
        hint="woven, knit; empty: any",
        read=_read_structures,
        show=r.show_words,
        empty=(),
    ),
    Field(
        key="stretch_across",
        label="Stretch across at least",
        hint="25 %; empty: none needed",
        read=r.read_percent,
        show=r.show_percent,
    ),
    Field(
        key="stretch_along",
        label="Stretch along at least",
        hint="10 %; empty: none needed",
        read=r.read_percent,
        show=r.show_percent,
    ),
    Field(
        key="recovery",
        label="Recovery at least",
        hint="85 %; empty: not asked",
        read=r.read_recovery,
        show=r.show_percent,
    ),
    Field(
        key="weight_low",
        label="Weight from",
        hint="120 gsm, 4 oz",
        read=_read_grams,
        show=_show_grams,
    ),
    Field(
        key="weight_high",
        label="Weight to",
        hint="200 gsm, 6 oz",
        read=_read_grams,
        show=_show_grams,
    ),
    Field(
        key="hand_low",
        label="Hand from",
        hint="fluid, soft, medium, firm or crisp",
        read=r.level(Hand),
        show=r.show_level,
        choices=tuple(step.name.lower() for step in Hand),
    ),
    Field(
        key="hand_high",
        label="Hand to",
        hint="fluid, soft, medium, firm or crisp",
        read=r.level(Hand),
        show=r.show_level,
        choices=tuple(step.name.lower() for step in Hand),
    ),
    r.flag("nap_allowed", "Nap allowed", "no if the pieces cannot all lie one way", usual=True),
)
"""What one role asks of its cloth."""

NOTION_FIELDS: tuple[Field, ...] = (
    Field(
        key="name",
        label="Notion",
        hint="elastic 30 mm, zip, button 15 mm",
        read=r.read_text,
        show=r.show_text,
        empty=REQUIRED,
    ),
    Field(
        key="amount",
        label="How many",
        hint="7",
        read=r.whole(1, 999),
        show=r.show_text,
        empty=1,
    ),
    Field(
        key="length",
        label="Length of each",
        hint="75 cm; empty: counted only",
        read=r.read_any_length,
        show=r.show_as("WIDTH"),
        empty=ZERO,
    ),
    Field(
        key="view",
        label="View",
        hint="Empty: every view",
        read=r.read_text,
        show=r.show_text,
        empty="",
    ),
    Field(
        key="size",
        label="Size",
        hint="Empty: every size",
        read=r.read_text,
        show=r.show_text,
        empty="",
    ),
    Field(
        key="note",
        label="Note",
        hint="Anything else",
        read=r.read_text,
        show=r.show_text,
        empty="",
    ),
)
"""Something small to have ready."""
