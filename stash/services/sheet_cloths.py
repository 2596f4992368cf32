"""The shelf as a table, one cloth a row."""

from __future__ import annotations

from dataclasses import fields as attributes
from typing import TYPE_CHECKING, Any

from stash.cloth.record import Cloth
from stash.services.cloth_fields import CLOTH_FIELDS
from stash.services.cloths import checked, new_cloth
from stash.services.sheet_kind import SheetKind, Values
from stash.store import cloths as store

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from sqlalchemy.orm import Session


class ClothSheet(SheetKind):
    """One cloth a row."""

    key, noun, records = "cloths", "cloth", "cloth"
    fields = CLOTH_FIELDS
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
        from stash.cloth.sums import ends_early, more_than, reach

        cloth = _record(values)
        sides = zip(("length", "width"), reach(cloth), (cloth.left, cloth.width), strict=True)
        found = [
            f"the outline reaches {far.mm:g} mm, beyond the {side} of {most.mm:g} mm"
            for side, far, most in sides
            if more_than(far, most)
        ]
        if cloth.outline and ends_early(cloth):
            found.append(
                f"the outline ends at {reach(cloth)[0].mm:g} mm, but {cloth.left.mm:g} mm is left"
            )
        if more_than(cloth.left, cloth.bought):
            found.append("more is left than was bought")
        return tuple(found)

    def keep(self, session: Session, rows: Sequence[Values]) -> None:
        """All of them onto the shelf."""
        store.insert_cloths(session, [_record(values) for values in rows])


def _record(values: dict[str, Any]) -> Cloth:
    return checked(new_cloth(**values))
