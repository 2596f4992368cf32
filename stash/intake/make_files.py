"""People, makes with the cloth promised to them, and the diary, from their files.

Records name each other in words; which record is meant is settled when they are kept.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.errors import StashError
from stash.garment.make import DiaryEntry, DiaryKind, Make, Person, Promise, State
from stash.garment.pattern import Role
from stash.intake import words
from stash.intake.file_bytes import file_text
from stash.intake.tables import Table, read_entries
from stash.units.length import ZERO
from stash.units.parse_length import parse_length

if TYPE_CHECKING:
    from pathlib import Path

    from stash.intake.problems import Problems

OLDEST_CHILD = 17
DIARY_HEADINGS = ["day", "kind", "cloth", "make", "text"]


@dataclass(frozen=True, slots=True)
class MakeRead:
    """A make and the names it refers to; its own references are still empty."""

    make: Make
    pattern: str
    person: str
    muslin_for: str
    where: str


@dataclass(frozen=True, slots=True)
class PromiseRead:
    """A promise, the make it stands under, and the name of its cloth."""

    promise: Promise
    make: Make
    cloth: str
    where: str


@dataclass(frozen=True, slots=True)
class DiaryRead:
    """A diary entry and the names of what it is about; empty: nothing."""

    entry: DiaryEntry
    cloth: str
    make: str
    where: str


def read_people(path: Path, problems: Problems) -> tuple[Person, ...]:
    """Everyone sewn for."""
    people = []
    for table in read_entries(path, "person", problems):
        age = table.whole("child_age", -1, -1, OLDEST_CHILD)
        people.append(
            Person(
                id=table.record_number(),
                name=table.text("name", needed=True),
                child_age=None if age < 0 else age,
                measures=table.pairs("measures", parse_length),
                measured_on=table.day("measured_on"),
                notes=table.text("notes"),
            )
        )
        table.finish()
    return tuple(people)


def read_makes(
    path: Path, problems: Problems
) -> tuple[tuple[MakeRead, ...], tuple[PromiseRead, ...]]:
    """The makes of a file, and the cloth promised to them or cut for them."""
    makes: list[MakeRead] = []
    promises: list[PromiseRead] = []
    for table in read_entries(path, "make", problems):
        made = _make(table)
        makes.append(made)
        for entry in table.inner("cloth"):
            promises.append(_promise(entry, made.make))
            entry.finish()
        table.finish()
    return tuple(makes), tuple(promises)


def _make(table: Table) -> MakeRead:
    make = Make(
        id=table.record_number(),
        name=table.text("name", needed=True),
        pattern_id=0,
        view=table.text("view"),
        size=table.text("size"),
        muslin=table.flag("muslin"),
        state=table.parsed("state", lambda text: words.read_choice(State, text), State.THOUGHT),
        priority=table.whole("priority", 3, 1, 5),
        due=table.day("due"),
        notes=table.text("notes"),
    )
    return MakeRead(
        make,
        pattern=table.text("pattern", needed=True),
        person=table.text("person"),
        muslin_for=table.text("muslin_for"),
        where=table.where,
    )


def _promise(table: Table, make: Make) -> PromiseRead:
    promise = Promise(
        make_id=0,
        role=table.parsed("role", lambda text: words.read_choice(Role, text), Role.MAIN),
        cloth_id=0,
        length=table.parsed("length", parse_length, ZERO, needed=True),
        pinned=table.flag("pinned", True),
        cut=table.flag("cut"),
    )
    return PromiseRead(promise, make, table.text("name", needed=True), table.where)


def read_diary(path: Path, problems: Problems) -> tuple[DiaryRead, ...]:
    """The diary: a table of day, kind, cloth, make and text."""
    found: list[DiaryRead] = []
    try:
        rows = csv.reader(io.StringIO(file_text(path), newline=""), strict=True)
        if next(rows, []) != DIARY_HEADINGS:
            problems.add(
                f"{path.name}, line 1", f"the headings should be {','.join(DIARY_HEADINGS)}."
            )
            return ()
        for row in rows:
            entry = _diary_entry(f"{path.name}, line {rows.line_num}", row, problems)
            if entry is not None:
                found.append(entry)
    except StashError as error:
        problems.note(path.name, error)
    except (csv.Error, UnicodeDecodeError) as error:
        problems.add(path.name, f"it cannot be read as a table ({error}).", "Save it as UTF-8 CSV.")
    return tuple(found)


def _diary_entry(where: str, row: list[str], problems: Problems) -> DiaryRead | None:
    if len(row) != len(DIARY_HEADINGS):
        problems.add(where, f"there should be {len(DIARY_HEADINGS)} cells.")
        return None
    day_text, kind_text, cloth, make, text = (cell.strip() for cell in row)
    day = problems.attempt(f"{where}, day", lambda: words.read_day(day_text))
    kind = problems.attempt(f"{where}, kind", lambda: words.read_choice(DiaryKind, kind_text))
    if day is None or kind is None:
        return None
    return DiaryRead(DiaryEntry(day=day, kind=kind, text=text), cloth, make, where)
