"""Cloths from a comma-separated table, one row each, under fixed headings."""

from __future__ import annotations

import csv
import io
from dataclasses import fields
from functools import partial
from typing import TYPE_CHECKING, Any

from stash.cloth.record import Cloth, FibreShare
from stash.cloth.sums import more_than, reach
from stash.errors import BadInputError, StashError
from stash.intake import words
from stash.intake.cloth_shapes import refuse_shapeless
from stash.intake.file_bytes import file_text
from stash.intake.shape_words import read_flaws, read_mm, read_outline
from stash.intake.typed import READERS
from stash.trade.colour import parse_colour
from stash.trade.fibres import parse_fibres
from stash.trade.hand import parse_drape
from stash.units.parse_length import parse_width
from stash.units.percent import parse_loss, parse_percent, parse_recovery
from stash.units.weight import parse_weight

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from stash.intake.problems import Problems
    from stash.units.length import Length


def _fibres(text: str) -> tuple[FibreShare, ...]:
    return tuple(FibreShare(fibre, percent) for fibre, percent in parse_fibres(text))


def _readers() -> dict[str, Callable[[str], Any]]:
    """A reader for every field: by what it means, else by its type."""
    special: dict[str, Callable[[str], Any]] = {
        "fibres": _fibres,
        "width": parse_width,
        "shrink length": parse_loss,
        "shrink width": parse_loss,
        "weight": parse_weight,
        "stretch across": parse_percent,
        "stretch along": parse_percent,
        "recovery": parse_recovery,
        "bending length": read_mm,
        "drape": parse_drape,
        "colour": parse_colour,
        "flaws": partial(read_flaws, bare="mm"),
        "outline": partial(read_outline, bare="mm"),
        "loved": words.read_step,
    }
    found: dict[str, Callable[[str], Any]] = {"number": READERS["int"]}
    for field in fields(Cloth):
        heading = field.name.replace("_", " ")
        if heading not in ("id", "version"):
            found[heading] = special.get(heading) or READERS[str(field.type)]
    return found


COLUMNS = _readers()
"""Every heading and how its cells are read; an empty cell means nobody has said."""

NEEDED = ("name", "structure", "width", "left")


def read_cloths(path: Path, problems: Problems) -> tuple[Cloth, ...]:
    """The cloths of a table; what is wrong goes to `problems` with its line and heading."""
    try:
        rows = csv.DictReader(io.StringIO(file_text(path), newline=""), strict=True)
        headings = [heading.strip() for heading in rows.fieldnames or []]
        if not _headings_are_right(path.name, headings, problems):
            return ()
        rows.fieldnames = headings
        found = [_cloth(f"{path.name}, line {rows.line_num}", row, problems) for row in rows]
    except StashError as error:
        problems.note(path.name, error)
        return ()
    except (csv.Error, UnicodeDecodeError) as error:
        problems.add(path.name, f"it cannot be read as a table ({error}).", "Save it as UTF-8 CSV.")
        return ()
    return tuple(cloth for cloth in found if cloth is not None)


def _headings_are_right(name: str, headings: list[str], problems: Problems) -> bool:
    before = len(problems.found)
    for heading in headings:
        if heading not in COLUMNS:
            problems.note(f"{name}, line 1", words.unknown("column", heading, COLUMNS))
    for heading in NEEDED:
        if heading not in headings:
            problems.add(f"{name}, line 1", f"the column '{heading}' is missing.")
    if len(set(headings)) < len(headings):
        problems.add(f"{name}, line 1", "a column stands there twice.")
    return len(problems.found) == before


def _cloth(where: str, row: dict[str | Any, str | Any], problems: Problems) -> Cloth | None:
    before = len(problems.found)
    if None in row or None in row.values():
        problems.add(where, "the row has not as many cells as there are headings.")
        return None
    cells = {heading: text.strip() for heading, text in row.items() if text.strip()}
    where = f"{where} ({cells.get('name', 'no name')})"
    for heading in NEEDED:
        if heading not in cells:
            problems.add(where, f"the {heading} is missing.")
    values = {
        heading.replace(" ", "_"): problems.attempt(f"{where}, {heading}", _reader(heading, cells))
        for heading in cells
    }
    if len(problems.found) > before:
        return None
    number: Any = values.pop("number", 0)
    cloth = Cloth(id=number, **({"bought": values["left"]} | values))
    if cloth.left > cloth.bought:
        problems.doubt(where, "more is left than was bought.", "Correct bought or left.")
    if any(map(more_than, reach(cloth), (cloth.left, cloth.width))):
        problems.doubt(
            where, "the outline is larger than the cloth.", "Correct the outline, left or width."
        )
    if cloth.selvedge + cloth.selvedge >= cloth.width:
        problems.doubt(
            where, "the selvedges take up the whole width.", "Correct width or selvedge."
        )
    if not problems.exact:
        problems.attempt(where, lambda: refuse_shapeless(cloth))
    return cloth


def _reader(heading: str, cells: dict[str, str]) -> Callable[[], Any]:
    text = cells[heading]
    if heading == "weight":
        return lambda: parse_weight(text, _width_of(cells))
    return lambda: COLUMNS[heading](text)


def _width_of(cells: dict[str, str]) -> Length | None:
    """For a weight per running metre. A width that cannot be read is told once, as the width."""
    try:
        return parse_width(cells["width"]) if "width" in cells else None
    except BadInputError:
        return None
