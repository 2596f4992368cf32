"""What each column of a table is: found by its heading, or said by the person."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import islice
from typing import TYPE_CHECKING

from stash.errors import BadInputError, StashError
from stash.intake.cell_words import NOT_KNOWN
from stash.intake.cells import Hints, read_cell
from stash.intake.headings import LEAVE, NOTES, Column, match_headings
from stash.intake.sheet import Sheet
from stash.units.letters import bare_letters
from stash.units.parse_length import parse_width

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from stash.services.fields import Context
    from stash.services.import_choices import Choices
    from stash.services.sheet_kind import SheetKind

CHART = "chart"
_LOOKED_AT = 100
"""Cells of a column that are tried when its heading may mean two things."""


def columns_of(
    kind: SheetKind, sheet: Sheet, head: int, choices: Choices, context: Context
) -> tuple[Column, ...]:
    """Every column with the field it fills, `notes`, `leave`, or nothing when nobody knows.

    Raises:
        BadInputError: The person named a column or field that is not there, or one twice.
    """
    headings = sheet.row(head)

    def share(place: int, key: str) -> float:
        texts = (row[place] for row in sheet.rows[head:] if row[place])
        unit = choices.unit(key) or "m"
        return _share_read(kind, key, list(islice(texts, _LOOKED_AT)), unit, context)

    found = match_headings(headings, kind.key, kind.labels, share)
    said = _said(found, kind, choices)
    # What the person said of one column takes the field away from another.
    fields = {field for field in said.values() if field not in (NOTES, LEAVE, kind.notes)}
    columns = [
        replace(column, field=said[column.place], own=column.own and _same(column, said))
        if column.place in said
        else replace(column, field="" if column.field in fields else column.field)
        for column in found
    ]
    usual = choices.others
    columns = [c if c.field or not usual else replace(c, field=usual) for c in columns]
    _refuse_wrong(columns, kind)
    return tuple(columns)


def _share_read(
    kind: SheetKind, key: str, texts: Sequence[str], unit: str, context: Context
) -> float:
    """The share of cells that the field `key` can read."""
    read = 0
    for text in texts:
        try:
            kind.field(key).read_text(read_cell(key, text, Hints(unit, True)).text, context)
        except StashError:
            continue
        read += 1
    return read / len(texts) if texts else 0.0


def _said(columns: Iterable[Column], kind: SheetKind, choices: Choices) -> dict[int, str]:
    """The field the person gave each column, by its place."""
    known = list(columns)
    said: dict[int, str] = {}
    for heading, target in choices.headings.items():
        wanted = heading.casefold()
        places = [
            column.place
            for column in known
            if wanted in (column.label.casefold(), column.heading.casefold())
        ]
        if not places:
            labels = ", ".join(repr(column.label) for column in known)
            raise BadInputError(f"There is no column {heading!r}.", f"Columns are {labels}.")
        said |= dict.fromkeys(places, field_key(kind, target))
    return said


def field_key(kind: SheetKind, typed: str) -> str:
    """The key of the field a person means by its key or label, or `notes` or `leave`.

    Raises:
        BadInputError: There is no such field; the hint lists them.
    """
    word = typed.strip().casefold()
    if word in (NOTES, LEAVE):
        return word
    for key, label in kind.labels.items():
        if word in (key, key.replace("_", " "), label.casefold()):
            return key
    raise BadInputError(
        f"There is no field {typed!r} for a {kind.noun}.",
        f"Fields are {', '.join(kind.labels)}; also {NOTES} and {LEAVE}.",
    )


def _same(column: Column, said: dict[int, str]) -> bool:
    """The person said what the heading says anyway."""
    return column.field == said[column.place]


def _refuse_wrong(columns: Iterable[Column], kind: SheetKind) -> None:
    known = list(columns)
    counts = Counter(c.field for c in known if c.field not in ("", NOTES, LEAVE, kind.notes))
    for field, number in counts.items():
        if number > 1:
            labels = " and ".join(repr(c.label) for c in known if c.field == field)
            raise BadInputError(
                f"{labels} cannot both be the {kind.labels[field].lower()}.",
                f"Say --map HEADING={NOTES} or --map HEADING={LEAVE} for one of them.",
            )
    noted = next((c for c in known if c.field == NOTES and not kind.notes), None)
    if noted:
        raise BadInputError(
            f"An {kind.noun} has no notes to tell {noted.label!r} in.",
            f'Say --map "{noted.label}={LEAVE}".',
        )


def amounts_in_rows(sheet: Sheet, head: int) -> Sheet:
    """A chart with widths over its columns, as an envelope prints it, one amount a row.

    Any other table stays as it is. Cells the envelope leaves empty are no amounts.
    """
    headings = sheet.row(head)
    widths = [place for place, heading in enumerate(headings) if _is_width(heading)]
    if not widths:
        return sheet
    others = [place for place in range(len(headings)) if place not in widths]

    def row(cells: Sequence[str], width: str, amount: str) -> tuple[str, ...]:
        return (*(cells[place] for place in others), width, amount)

    rows = [row(cells, "", "") for cells in sheet.rows[: head - 1]]
    rows.append(row(headings, "Cloth width", "Amount"))
    rows += [
        row(cells, headings[place], cells[place])
        for cells in sheet.rows[head:]
        for place in widths
        if cells[place] and bare_letters(cells[place]) not in NOT_KNOWN
    ]
    return Sheet(sheet.file, sheet.name, tuple(rows))


def _is_width(heading: str) -> bool:
    try:
        parse_width(heading)
    except BadInputError:
        return False
    return True
