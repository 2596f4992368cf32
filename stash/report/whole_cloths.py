"""The shelf as a table, every field of every cloth, for the folder of a whole stash."""

from __future__ import annotations

import csv
import io
from dataclasses import fields
from typing import TYPE_CHECKING, Any

from stash.cloth.record import Cloth
from stash.report.shape_text import exact_flaws
from stash.report.written import number, written

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from stash.cloth.record import FibreShare


def cloths_csv(cloths: Iterable[Cloth]) -> str:
    """`cloths.csv`: a heading for every field, a row for every cloth."""
    names = [field.name for field in fields(Cloth) if field.name not in ("id", "version")]
    text = io.StringIO()
    table = csv.writer(text)
    table.writerow(["number", *(name.replace("_", " ") for name in names)])
    for cloth in cloths:
        table.writerow([cloth.id, *(_cell(name, getattr(cloth, name)) for name in names)])
    return text.getvalue()


def _cell(name: str, value: Any) -> str:
    if value is None or value == ():
        return ""
    return _SPECIAL[name](value) if name in _SPECIAL else written(value)


def _fibres(shares: tuple[FibreShare, ...]) -> str:
    return " ".join(f"{number(share.percent)}% {share.fibre}" for share in shares)


def _percent(value: float) -> str:
    return f"{number(value)} %"


_SPECIAL: dict[str, Callable[[Any], str]] = {
    "fibres": _fibres,
    "flaws": exact_flaws,
    "weight": lambda value: f"{number(value)} gsm",
    "bending_length": lambda value: f"{number(value)} mm",
    **dict.fromkeys(
        ("shrink_length", "shrink_width", "stretch_across", "stretch_along", "recovery", "drape"),
        _percent,
    ),
}
"""Fields whose numbers carry a unit, or that are several."""
