"""What may be said about a pattern, and about the rows of its tables."""

from __future__ import annotations

from stash.cloth.record import Hand, Structure
from stash.errors import BadInputError
from stash.garment.pattern import Form, Kind, Role, Size
from stash.services import readers as r
from stash.services import ready_fields as ready
from stash.services.fields import REQUIRED, Context, Field
from stash.units.length import ZERO

FORMS = tuple(form.value for form in Form)


def _read_sizes(text: str, context: Context) -> tuple[Size, ...]:
    return tuple(Size(label=label) for label in r.words(text, context))


def _show_sizes(value: tuple[Size, ...], context: Context) -> str:
    return r.show_words(tuple(size.label for size in value), context)


def _read_structures(text: str, context: Context) -> tuple[Structure, ...]:
    read = r.choice(Structure)
    return tuple(read(word, context) for word in r.words(text, context))


def read_role(text: str | Role) -> Role:
    """A role from its word; BadInputError names the choices."""
    words = {role.value: role for role in Role}
    try:
        return words[text.strip().lower()]
    except KeyError as error:
        raise BadInputError(
            f"{text!r} is not a role of a pattern.", f"Choose from: {', '.join(words)}."
        ) from error


def _role() -> Field:
    hint = "main, contrast, lining, interfacing or rib"
    return ready.one_of(Role, "role", "Role", hint, empty=Role.MAIN)


PATTERN_FIELDS: tuple[Field, ...] = (
    ready.name("pattern", "What you call it"),
    ready.one_of(
        Kind,
        "kind",
        "Kind",
        "What garment it is: shirt, flared skirt, elastic trousers",
        empty=REQUIRED,
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
        read=r.word_of(FORMS),
        show=r.show_text,
        empty=FORMS[0],
        choices=FORMS,
    ),
    ready.text("kept_in", "Kept in", "Binder, drawer, or path of the file"),
    ready.text("picture", "Picture", "Path of a photo or line drawing"),
    Field(
        key="traced",
        label="Traced",
        hint="Sizes you have traced or printed, with commas between: 38, 40",
        read=r.words,
        show=r.show_words,
        empty=(),
    ),
    Field(
        key="fullness",
        label="Fullness",
        hint="Cloth over finished width at the fullest gathered seam: 1.5; 1 is none",
        read=r.number(1, 6),
        show=r.show_number,
        empty=1.0,
    ),
    ready.flag("child", "For a child", "yes or no"),
    ready.flag("tested", "Tested", "yes once it was sewn and fitted"),
    ready.marks("liked", "Liked", "1 to 5"),
    ready.notes(),
)
"""The header of a pattern, in the order of a form."""

SIZE_FIELDS: tuple[Field, ...] = (
    ready.text("label", "Size", "What it is called: 42, M, 3-4 years", empty=REQUIRED),
    Field(
        key="body",
        label="Body measures",
        hint="Of the body it is for: waist girth = 78 cm; hip girth = 102 cm",
        read=r.read_measures,
        show=r.show_measures,
        empty=(),
    ),
    Field(
        key="finished",
        label="Finished measures",
        hint="Of the garment: hip girth = 110 cm; length = 104 cm",
        read=r.read_measures,
        show=r.show_measures,
        empty=(),
    ),
)
"""A row of the size table."""

CHART_FIELDS: tuple[Field, ...] = (
    ready.text("size", "Size", "One of the pattern's sizes", empty=REQUIRED),
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
        hint="As the chart prints it: 2 5/8 yd, 2.4 m, or both: 2 5/8 yd (2.4 m)",
        read=r.read_printed_amount,
        show=r.show_as("NEED"),
        empty=REQUIRED,
    ),
    ready.text("view", "View", "Empty: every view"),
    _role(),
    ready.flag(
        "with_nap",
        "With nap",
        "yes if the chart says it is enough for cloth with nap; else 1/4 yd is added for such",
    ),
    ready.flag(
        "rounded",
        "Rounded",
        "yes if metres are rounded to 0.1 m, as beside yards: 5 cm are added to be sure",
    ),
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
    ready.percent("stretch_across", "Stretch across at least", "25 %; empty: none needed"),
    ready.percent("stretch_along", "Stretch along at least", "10 %; empty: none needed"),
    Field(
        key="recovery",
        label="Recovery at least",
        hint="85 %; empty: not asked",
        read=r.read_recovery,
        show=r.show_percent,
    ),
    ready.weight("weight_low", "Weight from", "120 gsm, 4 oz"),
    ready.weight("weight_high", "Weight to", "200 gsm, 6 oz"),
    ready.steps(Hand, "hand_low", "Hand from", "fluid, soft, medium, firm or crisp"),
    ready.steps(Hand, "hand_high", "Hand to", "fluid, soft, medium, firm or crisp"),
    ready.flag("nap_allowed", "Nap allowed", "no if the pieces cannot all lie one way", usual=True),
    Field(
        key="fibres",
        label="Fibres",
        hint="Recommended, with commas between: cotton, linen; empty: any",
        read=r.read_fibre_names,
        show=r.show_words,
        empty=(),
    ),
    Field(
        key="avoid",
        label="Avoid",
        hint="What it advises against, with commas between: velvet, stripes",
        read=r.words,
        show=r.show_words,
        empty=(),
    ),
)
"""What one role asks of its cloth."""

NOTION_FIELDS: tuple[Field, ...] = (
    ready.text("name", "Notion", "elastic 30 mm, zip, button 15 mm", empty=REQUIRED),
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
        show=r.show_as("EXTENT"),
        empty=ZERO,
    ),
    ready.text("view", "View", "Empty: every view"),
    ready.text("size", "Size", "Empty: every size"),
    ready.text("note", "Note", "Anything else"),
)
"""Something small to have ready."""
