"""A table that is looked at, and what was taken of it, for `stash import --json`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stash.report.plain import millimetres, plain
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from stash.services.import_rows import RowRead
    from stash.services.importing import Preview, Taken


def table_json(seen: Preview, taken: Taken | None) -> dict[str, Any]:
    """Every column and every row; `taken` is null when nothing was written."""
    columns = [
        {
            "heading": column.label,
            "field": column.field or None,
            "near": column.near or None,
            "sample": seen.sample(column),
        }
        for column in seen.columns
    ]
    return {
        "file": str(seen.path),
        "kind": seen.kind.key,
        "sheet": seen.sheet.name or None,
        "heading_row": seen.head,
        "columns": columns,
        "rows": [_row(seen, row) for row in seen.rows],
        "passed": [{"row": number, "what": what} for number, what in seen.passed],
        "other_sheets": list(seen.other_sheets),
        "taken": None if taken is None else _taken(taken),
    }


def folder_json(folder: Path, found: Sequence[tuple[int, str]]) -> dict[str, Any]:
    """What came out of a folder that was read whole."""
    return {"folder": str(folder), "read": {noun: number for number, noun in found}}


def _row(seen: Preview, row: RowRead) -> dict[str, Any]:
    read: dict[str, Any] = {}
    for field in seen.kind.fields:
        if field.attribute in row.values:
            value = row.values[field.attribute]
            if isinstance(value, Length):
                read[f"{field.key}_mm"] = millimetres(value)
            else:
                read[field.key] = plain(value)
    return {
        "row": row.number,
        "standing": row.standing.value,
        "read": read,
        "texts": {key: text for key, text in row.texts.items() if text},
        "cells": {c.label: row.cells[c.place] for c in seen.columns if row.cells[c.place]},
        "troubles": [
            {"where": one.where, "what": one.message, "hint": one.hint} for one in row.troubles
        ],
        "remarks": list(row.remarks),
        "there": row.there or None,
    }


def _taken(taken: Taken) -> dict[str, Any]:
    return {
        "taken": taken.taken,
        "there": taken.there,
        "left": taken.left,
        "left_in": None if taken.left_in is None else str(taken.left_in),
    }
