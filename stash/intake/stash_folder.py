"""A whole stash from a folder of plain files, or nothing at all.

`cloths.csv`, `people.toml`, `makes.toml`, `diary.csv`, and one `patterns/*.toml` for each
pattern with the drawings it names beside it. Only `cloths.csv` must be there.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.errors import NotFoundError
from stash.intake.cloth_rows import read_cloths
from stash.intake.make_files import (
    DiaryRead,
    MakeRead,
    PromiseRead,
    read_diary,
    read_makes,
    read_people,
)
from stash.intake.pattern_files import read_pattern
from stash.intake.problems import Problems
from stash.intake.words import unknown
from stash.units.length import ZERO

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from stash.cloth.record import Cloth
    from stash.garment.make import Person
    from stash.garment.pattern import Pattern
    from stash.units.length import Length


@dataclass(frozen=True, slots=True)
class StashFiles:
    """Everything a folder holds. Every name a record refers to is among these records."""

    cloths: tuple[Cloth, ...]
    patterns: tuple[Pattern, ...]
    people: tuple[Person, ...]
    makes: tuple[MakeRead, ...]
    promises: tuple[PromiseRead, ...]
    diary: tuple[DiaryRead, ...]


def read_stash_folder(folder: Path) -> StashFiles:
    """Read and cross-check every file of `folder`.

    Raises:
        NotFoundError: no such folder, or no cloths.csv in it.
        BadInputError: with every problem found, each with its file and line.
    """
    if not (folder / "cloths.csv").is_file():
        raise NotFoundError(
            f"There is no cloths.csv in {folder}.", "Name a folder that holds a stash."
        )
    problems = Problems()
    cloths = read_cloths(folder / "cloths.csv", problems)
    patterns = tuple(
        pattern
        for path in sorted((folder / "patterns").glob("*.toml"))
        if (pattern := read_pattern(path, problems)) is not None
    )
    people = read_people(path, problems) if (path := folder / "people.toml").exists() else ()
    makes, promises = (
        read_makes(path, problems) if (path := folder / "makes.toml").exists() else ((), ())
    )
    diary = read_diary(path, problems) if (path := folder / "diary.csv").exists() else ()
    problems.raise_any(str(folder))
    files = StashFiles(cloths, patterns, people, makes, promises, diary)
    _check_names(files, problems)
    _check_makes(files, problems)
    _check_promises(files, problems)
    problems.raise_any(str(folder))
    return files


def _check_names(files: StashFiles, problems: Problems) -> None:
    """Names stand for records here, so each may stand once."""
    for where, names in (
        ("cloths.csv", [cloth.name for cloth in files.cloths]),
        ("patterns", [pattern.name for pattern in files.patterns]),
        ("people.toml", [person.name for person in files.people]),
        ("makes.toml", [read.make.name for read in files.makes]),
    ):
        seen: set[str] = set()
        for name in names:
            if name.casefold() in seen:
                problems.add(where, f"the name '{name}' stands there twice.", "Rename one.")
            seen.add(name.casefold())


def _check_makes(files: StashFiles, problems: Problems) -> None:
    patterns = {pattern.name: pattern for pattern in files.patterns}
    people = {person.name for person in files.people}
    makes = {read.make.name for read in files.makes}
    for read in files.makes:
        _known(f"{read.where}, person", "person", read.person, people, problems)
        _known(f"{read.where}, muslin_for", "make", read.muslin_for, makes, problems)
        if not _known(f"{read.where}, pattern", "pattern", read.pattern, patterns, problems):
            continue
        pattern = patterns[read.pattern]
        sizes = {size.label for size in pattern.sizes}
        _known(f"{read.where}, size", "size", read.make.size, sizes, problems)
        _known(f"{read.where}, view", "view", read.make.view, pattern.views, problems)
        if read.muslin_for == read.make.name:
            problems.add(f"{read.where}, muslin_for", "a make cannot test itself.")
    cloths = {cloth.name for cloth in files.cloths}
    for line in files.diary:
        _known(f"{line.where}, cloth", "cloth", line.cloth, cloths, problems)
        _known(f"{line.where}, make", "make", line.make, makes, problems)


def _check_promises(files: StashFiles, problems: Problems) -> None:
    """What is promised and not yet cut must still lie on the shelf."""
    left = {cloth.name: cloth.left for cloth in files.cloths}
    held: dict[str, Length] = {}
    for read in files.promises:
        if not _known(f"{read.where}, name", "cloth", read.cloth, left, problems):
            continue
        if not read.promise.cut:
            held[read.cloth] = held.get(read.cloth, ZERO) + read.promise.length
            if held[read.cloth] > left[read.cloth]:
                problems.add(read.where, f"more of '{read.cloth}' is promised than is left.")


def _known(where: str, what: str, name: str, known: Iterable[str], problems: Problems) -> bool:
    """Whether `name` is empty or known; else a problem is noted."""
    if not name or name in known:
        return True
    problems.note(where, unknown(what, name, known))
    return False
