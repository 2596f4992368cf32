"""Tables of the stash for other programs, in the person's units, which read back equal."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

from stash.config import System
from stash.intake.cells import PERCENTS
from stash.report.shape_text import exact_flaws, exact_outline
from stash.report.sheet_out import sheet_bytes, write_bytes
from stash.services.names import context
from stash.services.sheet_kinds import sheet_kind
from stash.units.format_length import Measure, show_length
from stash.units.length import Length
from stash.units.weight import GSM_PER_OUNCE, parse_weight

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from stash.services.fields import Context, Field
    from stash.services.stash import Stash


def export_sheet(stash: Stash, path: Path, what: str = "cloths") -> int:
    """Write all cloths, makes, charts or the diary to `.csv` or `.xlsx`; returns the rows.

    Raises:
        BadInputError: There is no such kind of table or file, or it cannot be written.
    """
    kind = sheet_kind(what)
    with stash.read() as session:
        known = context(stash, session)
        rows = [
            [exact_text(field, values[field.attribute], known) for field in kind.fields]
            for values in kind.kept(session)
        ]
    write_bytes(path, sheet_bytes(path, [field.label for field in kind.fields], rows))
    return len(rows)


def exact_text(field: Field, value: Any, known: Context) -> str:
    """A value in the person's units, as the plainest text that reads back the very same."""
    if isinstance(value, Length):
        return show_length(value, known.settings.system, Measure.EXACT)
    if field.key == "fibres":
        return " ".join(f"{_digits(share.percent)}% {share.fibre}" for share in value)
    if field.key in _SHAPES:
        return _SHAPES[field.key](value)
    if isinstance(value, float):
        if field.key == "weight":
            return _weight(value, known.settings.system)
        return f"{_digits(value)} %" if field.key in PERCENTS else _digits(value)
    return field.show(value, known)


_SHAPES: dict[str, Callable[[Any], str]] = {"flaws": exact_flaws, "outline": exact_outline}


def _digits(value: float) -> str:
    """Every digit of a number, without an exponent."""
    text = f"{Decimal(repr(value)):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _weight(gsm: float, system: System) -> str:
    """Ounces where some number of them is this very weight, else grams."""
    if system is System.IMPERIAL:
        for digits in range(1, 18):
            text = f"{Decimal(f'{gsm / float(GSM_PER_OUNCE):.{digits}g}'):f} oz/yd²"
            if parse_weight(text) == gsm:
                return text
    return f"{_digits(gsm)} g/m²"
