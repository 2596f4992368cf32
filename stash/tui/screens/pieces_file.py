"""What the Patterns room asks of a file with drawn pieces, and shows of it before it is taken."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from stash.services.fields import REQUIRED, Field
from stash.services.readers import read_text, show_text

if TYPE_CHECKING:
    from collections.abc import Mapping

    from stash.config import System
    from stash.garment.pattern import Pattern
    from stash.services.pattern_import import Look

MOST_LINES = 12
"""Lines of pieces and of remarks that a small screen can show."""


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
    _field("size", "Drawn size", "Only this of the sizes drawn in layers; empty: all of them"),
    _field("keep_as", "Keep as", "The pattern's size these pieces are; empty: as drawn"),
    _field("pick", "Pick", "Numbers of the pieces: 1,3-5; empty: all that look like pieces"),
    _field("square", "Test square", "Its side, if the file does not say it: 5 cm", group="Scale"),
    _field("grain", "Grain", "up or across the sheet, where no line shows it"),
    _field("seam", "Seam", "Added outside every outline, if it is drawn without: 15 mm"),
    _field("unit", "Unit", "mm, cm or in, if a DXF does not say it"),
    _field("tiles", "Pages", "Rows x columns of a PDF: 3x4; empty: found out", group="Pages"),
    _field("margin", "Margin", "Cut off every edge of a page: 10 mm"),
    _field("overlap", "Overlap", "Shown by two neighbouring pages: 5 mm"),
)


def read_look(texts: Mapping[str, str], pattern: Pattern) -> Look:
    """The file as it was asked for; called in a worker."""
    # Reading drawings loads the geometry library, so only once somebody asks for it.
    from stash.services.pattern_import import Said, look_at

    words = {field.key: texts.get(field.key, "").strip() for field in FILE_FIELDS}
    file = Path(words.pop("file")).expanduser()
    pick = words.pop("pick")
    words.pop("keep_as")
    return look_at(file, Said(**words), pick, pattern=pattern)


def preview(look: Look, system: System, columns: int) -> str:
    """The pieces that would be taken, what was guessed and what is wrong."""
    from stash.report.columns import wrapped
    from stash.report.drawn_text import drawn_remarks, drawn_table

    found, notes = look.sheet.found, look.sheet.notes
    lines = drawn_table(found, look.picked, system, columns).splitlines()
    remarks = "\n".join(
        [
            *drawn_remarks(found, look.picked, columns),
            *(wrapped(f"{note}.", columns) for note in notes),
        ]
    ).splitlines()
    room = MOST_LINES - min(len(lines), MOST_LINES // 2)
    return "\n".join([*_some(lines, MOST_LINES - min(len(remarks), room)), *_some(remarks, room)])


def _some(lines: list[str], most: int) -> list[str]:
    if len(lines) <= most:
        return lines
    return [*lines[: most - 1], f"… and {len(lines) - most + 1} lines more"]
