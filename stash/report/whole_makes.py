"""People, makes with their cloth, and the diary, as the files of a whole stash."""

from __future__ import annotations

import csv
import io
from dataclasses import fields
from typing import TYPE_CHECKING, Any

from stash.report.written import amounts, pair

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from stash.garment.make import DiaryEntry, Make, Person, Promise

Names = dict[int, str]
"""What records are called in the files, by their ids."""


def people_toml(people: Iterable[Person]) -> str:
    """`people.toml`."""
    tables = []
    for person in people:
        lines = ["[[person]]", *own_lines(person, but=("measures",))]
        if person.measures:
            lines.append(amounts("measures", person.measures))
        tables.append("\n".join(lines) + "\n")
    return "\n".join(tables)


def makes_toml(
    makes: Iterable[Make],
    promises: Mapping[int, Sequence[Promise]],
    *,
    patterns: Names,
    people: Names,
    names: Names,
    cloths: Names,
) -> str:
    """`makes.toml`: every make with the cloth promised to it or cut for it, by make."""
    tables = []
    for make in makes:
        lines = ["[[make]]", *own_lines(make, but=("pattern_id", "person_id", "muslin_for"))]
        lines.append(pair("pattern", patterns[make.pattern_id]))
        if make.person_id is not None:
            lines.append(pair("person", people[make.person_id]))
        if make.muslin_for is not None:
            lines.append(pair("muslin_for", names[make.muslin_for]))
        for held in promises.get(make.id, ()):
            lines += ["", "[[make.cloth]]", pair("name", cloths[held.cloth_id])]
            lines += own_lines(held, but=("id", "make_id", "cloth_id"))
        tables.append("\n".join(lines) + "\n")
    return "\n".join(tables)


def diary_csv(entries: Iterable[DiaryEntry], cloths: Names, makes: Names) -> str:
    """`diary.csv`, the oldest line first."""
    text = io.StringIO()
    table = csv.writer(text)
    table.writerow(["day", "kind", "cloth", "make", "text"])
    for entry in sorted(entries, key=lambda one: (one.day, one.id)):
        cloth = cloths.get(entry.cloth_id or 0, "")
        make = makes.get(entry.make_id or 0, "")
        table.writerow([entry.day.isoformat(), entry.kind.value, cloth, make, entry.text])
    return text.getvalue()


def own_lines(record: Any, but: Sequence[str]) -> list[str]:
    """A line of TOML for each field that says something; its id is its `number`."""
    lines = []
    for field in fields(record):
        value = getattr(record, field.name)
        if field.name in but or field.name == "version" or value is None or value == ():
            continue
        if value != "" or field.default:
            lines.append(pair("number" if field.name == "id" else field.name, value))
    return lines
