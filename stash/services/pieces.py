"""Pieces drafted from a few measures: the families, their fields, and the drafting."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.garment.draft.family import Family
from stash.garment.draft.piece import FAMILIES, doubts_about, draft_piece, find_family
from stash.garment.pattern import Grain, Role
from stash.services import readers as r
from stash.services import ready_fields as ready
from stash.services.fields import REQUIRED, Context, Field, read_values, texts_of
from stash.services.known import known_size, known_view
from stash.services.piece_match import refuse_match_beside

if TYPE_CHECKING:
    from collections.abc import Mapping

    from stash.garment.draft.family import Measure
    from stash.garment.pattern import Pattern, Piece


@dataclass(frozen=True, slots=True)
class FamilyForm:
    """A family of shapes and everything its form asks."""

    key: str
    help: str
    fields: tuple[Field, ...]
    """The name, the measures, then how the piece is cut."""


def families() -> tuple[FamilyForm, ...]:
    """Every family a piece can be drafted from, plain shapes first."""
    return tuple(family_form(key) for key in FAMILIES)


def family_form(key: str) -> FamilyForm:
    """One family; BadInputError names near ones."""
    family = find_family(key)
    return FamilyForm(family.key, family.help, _fields(family))


def draft(pattern: Pattern, family: str, texts: Mapping[str, str], context: Context) -> Piece:
    """A piece of `family` for `pattern` from typed measures.

    Raises:
        BadInputError: A measure is missing or no length, they make no shape, or the match point
            lies outside it.
    """
    shape = find_family(family)
    values = read_values(_fields(shape), texts, context, only_given=False)
    known_size(pattern, values["size"])
    for view in values["views"]:
        known_view(pattern, view)
    keys = {measure.key for measure in shape.measures}
    measures = {key: value for key, value in values.items() if key in keys and value is not None}
    cut = {key: value for key, value in values.items() if key not in keys and key != "name"}
    typed = tuple(f"{k}={text.strip()}" for k, text in texts.items() if k in keys and text.strip())
    piece = draft_piece(shape.key, values["name"], measures, typed=typed, **cut)
    refuse_match_beside(piece, context.settings.system)
    return piece


def piece_fields(piece: Piece) -> tuple[Field, ...]:
    """What may be changed of a piece: of a drawn one its name and how it is cut."""
    if piece.family in FAMILIES:
        return _fields(FAMILIES[piece.family])
    return (_NAME, *_cutting_fields(_DRAWN))


def piece_texts(piece: Piece, context: Context) -> dict[str, str]:
    """The texts of `piece_fields`, its measures as they were typed."""
    family = FAMILIES.get(piece.family, _DRAWN)
    measures = dict.fromkeys((measure.key for measure in family.measures), "")
    measures |= dict(word.partition("=")[::2] for word in piece.typed)
    fields = [field for field in piece_fields(piece) if field.key not in measures]
    return measures | texts_of(fields, piece, context)


def changed_piece(
    pattern: Pattern, piece: Piece, texts: Mapping[str, str], context: Context
) -> Piece:
    """The piece with what was typed changed; drafted anew where it was drafted.

    Raises:
        BadInputError: As `draft`.
    """
    fields = piece_fields(piece)
    whole = {**piece_texts(piece, context), **texts}
    if piece.family in FAMILIES:
        return draft(pattern, piece.family, whole, context)
    values = read_values(fields, whole, context, only_given=False)
    known_size(pattern, values["size"])
    for view in values["views"]:
        known_view(pattern, view)
    changed = replace(piece, **values)
    refuse_match_beside(changed, context.settings.system)
    return changed


def doubts(piece: Piece, context: Context) -> tuple[str, ...]:
    """What to ask about the measures a piece was drafted from."""
    if piece.family not in FAMILIES:
        return ()
    typed = (word.partition("=")[::2] for word in piece.typed)
    measures = {key: r.read_any_length(text, context) for key, text in typed}
    return doubts_about(piece.family, measures)


def _read_name(text: str, _: Context) -> str:
    if "|" in text:
        raise BadInputError(
            f"{text!r} is no name of a piece: in a drawing of it an upright bar ends the name.",
            "Leave the bar out.",
        )
    return text


_NAME = Field(
    key="name",
    label="Piece",
    hint="Front, back, sleeve …",
    read=_read_name,
    show=r.show_text,
    empty=REQUIRED,
    group="The piece",
)
_DRAWN = Family("drawn", "A piece somebody drew.", (), lambda _: ())
"""Stands for no family: how a drawn piece is cut may be changed, its outline not."""


def _fields(family: Family) -> tuple[Field, ...]:
    return (
        _NAME,
        *(_measure_field(measure, first=not i) for i, measure in enumerate(family.measures)),
        *_cutting_fields(family),
    )


def _read_point(text: str, context: Context) -> tuple[float, float]:
    parts = text.split(",")
    if len(parts) != 2:
        raise BadInputError(f"{text!r} is no point.", "Type it as 12 cm, 1.5 cm.")
    x, y = (r.read_any_length(part.strip(), context).mm for part in parts)
    return x, y


def _show_point(value: tuple[float, float] | None, _: Context) -> str:
    return "" if value is None else f"{value[0]:g} mm, {value[1]:g} mm"


def _measure_field(measure: Measure, *, first: bool) -> Field:
    usual = "" if measure.default is None else f"; usually {measure.default.mm / 10:g} cm"
    return Field(
        key=measure.key,
        label=measure.key.replace("_", " ").capitalize(),
        hint=f"{measure.help[:1].upper()}{measure.help[1:]}{usual}",
        read=r.read_any_length,
        show=r.show_as("WIDTH"),
        empty=REQUIRED if measure.required and measure.default is None else measure.default,
        group="Measures" if first else "",
    )


def _cutting_fields(family: Family) -> tuple[Field, ...]:
    return (
        Field(
            key="copies",
            label="Cut",
            hint="How many",
            read=r.whole(1, 99),
            show=r.show_text,
            empty=family.copies,
            group="How it is cut",
        ),
        ready.flag(
            "on_fold",
            "On the fold",
            "yes if half of it is drafted and cut on a fold",
            usual=family.on_fold,
        ),
        ready.flag(
            "mirrored",
            "In pairs",
            "yes if every second one is the mirror image",
            usual=family.mirrored,
        ),
        ready.one_of(
            Grain, "grain", "Grain", "lengthwise, crosswise, either or bias", empty=family.grain
        ),
        Field(
            key="tolerance",
            label="Off grain",
            hint="Whole degrees it may lie off grain, 0 to 45; empty: none",
            read=r.whole(0, 45),
            show=r.show_text,
            empty=0,
        ),
        Field(
            key="match",
            label="Match point",
            hint="Along and across from its lower left: 12 cm, 1.5 cm; empty: need not match",
            read=_read_point,
            show=_show_point,
        ),
        ready.one_of(
            Role,
            "role",
            "Role",
            "Cut from: main, contrast, lining, interfacing or rib",
            empty=Role.MAIN,
        ),
        ready.text("size", "Size", "One of the pattern's sizes; empty: the same in every size"),
        Field(
            key="views",
            label="Views",
            hint="With commas between; empty: in every view",
            read=r.words,
            show=r.show_words,
            empty=(),
        ),
    )
