"""Every kind of table that comes in and goes out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.services.sheet_chart import ChartSheet
from stash.services.sheet_cloths import ClothSheet
from stash.services.sheet_diary import DiarySheet
from stash.services.sheet_makes import MakeSheet

if TYPE_CHECKING:
    from stash.services.sheet_kind import SheetKind

KINDS: dict[str, SheetKind] = {
    kind.key: kind for kind in (ClothSheet(), MakeSheet(), ChartSheet(), DiarySheet())
}


def sheet_kind(key: str) -> SheetKind:
    """The kind called `key`; BadInputError names the kinds."""
    if key not in KINDS:
        raise BadInputError(f"There is no kind of table {key!r}.", f"Say {', '.join(KINDS)}.")
    return KINDS[key]
