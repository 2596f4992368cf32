"""What the app asks before it reads a table people keep, and the choices made of the answers."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.services import ready_fields as ready
from stash.services.fields import REQUIRED

if TYPE_CHECKING:
    from collections.abc import Mapping

    from stash.services.import_choices import Choices
    from stash.services.importing import Preview
    from stash.services.stash import Stash

DATES = ("day-first", "month-first")

TABLE_FIELDS = (
    ready.text("file", "File", "CSV, XLSX or ODS: ~/shelf.xlsx", empty=REQUIRED),
    ready.text(
        "kind",
        "Holds",
        "cloths, makes, chart or diary; empty: what its headings say",
        choices=("cloths", "makes", "chart", "diary"),
    ),
    ready.text("sheet", "Sheet", "Its name in the workbook; empty: the first"),
    ready.text(
        "units",
        "Bare numbers",
        "metric, imperial, or for one column: width=cm; length=yd",
        choices=("metric", "imperial"),
        group="Where the table does not say it",
    ),
    ready.text("dates", "Dates", "How to read 3/4/2024: day-first or month-first", choices=DATES),
    ready.text("fixed", "Empty cells", "What they stand for: structure=woven; width=140 cm"),
    ready.flag("unread", "Into the notes", "yes: cells not understood, where the row can do so"),
    ready.text("key", "Known by", "A column that numbers the rows; empty: name, width and length"),
    ready.text("mapping", "Choices from", "A file of choices, kept here with k"),
)


@dataclass(frozen=True, slots=True)
class Opened:
    """A table that was looked at, and how it was read."""

    choices: Choices
    seen: Preview


def look_at(stash: Stash, texts: Mapping[str, str]) -> Opened:
    """Read the table as it was asked for; called in a worker.

    Raises:
        NotFoundError: There is no such file.
        BadInputError: It cannot be read, or an answer is not understood.
    """
    from stash.services.importing import preview

    choices = _choices(texts)
    seen = preview(stash, Path(texts["file"].strip()).expanduser(), choices)
    return Opened(replace(choices, kind=seen.kind.key), seen)


def _choices(texts: Mapping[str, str]) -> Choices:
    from stash.services.import_choices import Choices, load_choices, read_pairs, read_units

    said = {key: text.strip() for key, text in texts.items()}
    kept = Choices()
    if said.get("mapping"):
        kept = load_choices(Path(said["mapping"]).expanduser())
    dates = said.get("dates", "").lower()
    if dates and dates not in DATES:
        raise BadInputError(f"{dates!r} is no way to write a day.", f"Say {' or '.join(DATES)}.")
    to_notes = said.get("unread", "").lower().startswith("y")
    return replace(
        kept,
        kind=said.get("kind", "").lower() or kept.kind,
        sheet=said.get("sheet", "") or kept.sheet,
        units=kept.units | read_units(_parts(said.get("units", ""))),
        fixed=kept.fixed | read_pairs(_parts(said.get("fixed", "")), "structure=woven"),
        unread="notes" if to_notes else kept.unread,
        key=said.get("key", "") or kept.key,
        dates=dates or kept.dates,
    )


def _parts(text: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in text.split(";") if part.strip())
