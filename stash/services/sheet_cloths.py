"""The shelf as a table, one cloth a row."""

from __future__ import annotations

import json
from dataclasses import fields as attributes
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from stash.cloth.record import Cloth, Flaw
from stash.services.cloth_fields import CLOTH_FIELDS
from stash.services.cloths import checked, new_cloth
from stash.services.fields import Context, Field
from stash.services.sheet_kind import SheetKind, Values
from stash.store import cloths as store

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from sqlalchemy.orm import Session

Outline = tuple[tuple[float, float], ...]


def _read_flaws(text: str, _: Context) -> tuple[Flaw, ...]:
    from stash.intake.shape_words import read_flaws

    return read_flaws(text)


def _show_flaws(value: tuple[Flaw, ...], context: Context) -> str:
    return "; ".join(f"{_place(flaw, context)}: {json.dumps(flaw.what)}" for flaw in value)


def _place(flaw: Flaw, context: Context) -> str:
    if flaw.points:
        return f"corners {_show_outline(flaw.points, context)}"
    return f"{_mm(flaw.x)} along, {_mm(flaw.y)} across, {_mm(flaw.radius)}"


def _mm(number: float) -> str:
    return f"{Decimal(repr(number)):f} mm"


def _read_outline(text: str, _: Context) -> Outline:
    from stash.intake.shape_words import read_outline

    return read_outline(text)


def _show_outline(value: Outline, _: Context) -> str:
    return ", ".join(f"{x!r} {y!r}" for x, y in value)


_SHAPE_FIELDS = (
    Field(
        key="flaws",
        label="Flaws",
        hint="80 cm along, 40 cm across, 3 cm: ink; corners 0 0, 90 0, 90 60: tear",
        read=_read_flaws,
        show=_show_flaws,
        empty=(),
    ),
    Field(
        key="outline",
        label="Outline",
        hint="Corners of a remnant in mm: 0 0, 900 0, 900 600, 0 640",
        read=_read_outline,
        show=_show_outline,
        empty=(),
    ),
)


class ClothSheet(SheetKind):
    """One cloth a row."""

    key, noun, records = "cloths", "cloth", "cloth"
    fields = (*CLOTH_FIELDS, *_SHAPE_FIELDS)
    same = ("name", "width", "left")
    shown = ("name", "structure", "width", "length", "weight", "fibres")

    def kept(self, session: Session) -> Iterable[Values]:
        """Every cloth, by name."""
        names = [attribute.name for attribute in attributes(Cloth)]
        for cloth in store.all_cloths(session):
            yield {name: getattr(cloth, name) for name in names}

    def check(self, session: Session, values: Values) -> None:
        """Selvedges within the width, fibres within 100 %, an outline and flaws that are some."""
        from stash.intake.cloth_shapes import refuse_shapeless

        refuse_shapeless(_record(values))

    def doubts(self, values: Values) -> tuple[str, ...]:
        """Measures that cannot all be true: a shelf that was written out has to come back."""
        from stash.cloth.sums import more_than, reach

        cloth = _record(values)
        sides = zip(("length", "width"), reach(cloth), (cloth.left, cloth.width), strict=True)
        found = [
            f"the outline reaches {far.mm:g} mm, beyond the {side} of {most.mm:g} mm"
            for side, far, most in sides
            if more_than(far, most)
        ]
        if more_than(cloth.left, cloth.bought):
            found.append("more is left than was bought")
        return tuple(found)

    def keep(self, session: Session, rows: Sequence[Values]) -> None:
        """All of them onto the shelf."""
        store.insert_cloths(session, [_record(values) for values in rows])


def _record(values: dict[str, Any]) -> Cloth:
    return checked(new_cloth(**values))
