"""What the Patterns room asks of a file with drawn pieces, and how the answers read it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from stash.services.fields import REQUIRED, Field
from stash.services.readers import read_text, show_text

if TYPE_CHECKING:
    from collections.abc import Mapping

    from stash.garment.pattern import Pattern
    from stash.services.pattern_import import Look


def _field(key: str, label: str, hint: str, *, needed: bool = False, group: str = "") -> Field:
    return Field(
        key=key,
        label=label,
        hint=hint,
        read=read_text,
        show=show_text,
        empty=REQUIRED if needed else "",
        group=group,
    )


FILE_FIELDS = (
    _field("file", "File", "SVG, DXF or PDF: ~/patterns/trousers.svg", needed=True),
    _field("square", "Test square", "Its side, if the file does not say it: 5 cm", group="Scale"),
    _field("unit", "Unit", "mm, cm or in, if a DXF does not say it"),
    _field("grain", "Grain", "up or across the sheet, where no line shows it", group="Pieces"),
    _field("seam", "Seam", "Added outside every outline, if it is drawn without: 15 mm"),
    _field("tiles", "Pages", "Rows x columns of a PDF: 3x4; empty: found out", group="Pages"),
    _field("margin", "Margin", "Cut off every edge of a page: 10 mm"),
    _field("overlap", "Overlap", "Shown by two neighbouring pages: 5 mm"),
)

READING = "Reading the file …"


def read_look(texts: Mapping[str, str], pattern: Pattern, size: str = "") -> Look:
    """The file as it was asked for, all sizes or one; called in a worker."""
    # Reading drawings loads the geometry library, so only once somebody asks for it.
    from stash.services.pattern_import import Said, look_at

    words = {field.key: texts.get(field.key, "").strip() for field in FILE_FIELDS}
    file = Path(words.pop("file")).expanduser()
    return look_at(file, Said(size=size, **words), pattern=pattern)
