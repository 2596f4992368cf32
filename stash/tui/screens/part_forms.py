"""The forms that add something to a pattern, or change it; both rooms of patterns open them."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from stash.garment.pattern import Piece
from stash.services import pattern_parts, patterns
from stash.services.pattern_fields import (
    ASKS_FIELDS,
    CHART_FIELDS,
    NOTION_FIELDS,
    SIZE_FIELDS,
)
from stash.services.pattern_parts import PartKind
from stash.tui.screens.form import Form, FormScreen
from stash.tui.screens.piece_form import PieceFormScreen

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from stash.garment.pattern import Pattern
    from stash.services.fields import Field
    from stash.services.pattern_parts import Part
    from stash.services.pieces import FamilyForm
    from stash.services.stash import Stash

ADDING: dict[PartKind, tuple[str, tuple[Field, ...], Callable[..., Pattern]]] = {
    PartKind.SIZE: ("A size of", SIZE_FIELDS, patterns.add_size),
    PartKind.CHART: ("A line of the chart of", CHART_FIELDS, patterns.add_chart_row),
    PartKind.ASKS: ("What a role asks, for", ASKS_FIELDS, patterns.set_asks),
    PartKind.NOTION: ("A notion for", NOTION_FIELDS, patterns.add_notion),
}
"""Title, fields and what keeps it, of all that is added by a plain form."""


def adding(stash: Stash, pattern: Pattern, kind: PartKind) -> FormScreen:
    """An empty form for a part that is no piece."""
    title, fields, keep = ADDING[kind]
    return FormScreen(
        Form(
            title=f"{title} {pattern.name}",
            fields=fields,
            suggest=partial(suggest, pattern),
            save=lambda texts: keep(stash, str(pattern.id), _typed(kind, texts)),
        )
    )


def _typed(kind: PartKind, texts: dict[str, str]) -> dict[str, str]:
    """Asks begin with what is usual, so a field left empty there asks for no change."""
    if kind is not PartKind.ASKS:
        return texts
    return {key: text for key, text in texts.items() if text.strip()}


def adding_piece(stash: Stash, pattern: Pattern, family: FamilyForm) -> FormScreen:
    """An empty form for a piece of a family, drawn while it is typed."""
    form = Form(
        title=f"{family.key.capitalize()} for {pattern.name}",
        fields=family.fields,
        suggest=partial(suggest, pattern),
        save=lambda texts: patterns.add_piece(stash, str(pattern.id), family.key, texts),
    )
    return PieceFormScreen(form, pattern, family.key)


def changing(stash: Stash, pattern: Pattern, part: Part) -> FormScreen:
    """A form on a part as it is now; reads the stash, so it is called in a worker."""
    form = Form(
        title=f"{part.kind.value.capitalize()} {part.title} of {pattern.name}",
        fields=pattern_parts.part_fields(part),
        texts=pattern_parts.part_texts(stash, part),
        changing=True,
        suggest=partial(suggest, pattern),
        save=lambda texts: pattern_parts.edit_part(
            stash, str(pattern.id), part, texts, base=pattern
        ),
    )
    if isinstance(part.value, Piece) and part.value.family:
        return PieceFormScreen(form, pattern, part.value.family)
    return FormScreen(form)


def suggest(pattern: Pattern, key: str, texts: Mapping[str, str]) -> Sequence[str]:
    """Sizes and views of the pattern, where they may be typed."""
    del texts
    if key == "size":
        return [size.label for size in pattern.sizes]
    return pattern.views if key in ("view", "views") else ()
