"""A whole stash from a folder of plain files, or nothing at all.

`cloths.csv`, `people.toml`, `makes.toml`, `diary.csv`, and one `patterns/*.toml` for each
pattern with the drawings it names beside it. Only `cloths.csv` must be there.

Records name each other. Where two of a kind bear one name, each has a `number` and is named
by it: `number 12`. A `stash.toml` says that the program wrote the folder from a whole stash.
"""

from __future__ import annotations

import tomllib
from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol, TypeVar

from stash.errors import BadInputError, NotFoundError
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
    from collections.abc import Iterable, Sequence
    from pathlib import Path

    from stash.cloth.record import Cloth
    from stash.garment.make import Person
    from stash.garment.pattern import Pattern
    from stash.units.length import Length


MARK = "stash.toml"
FORMAT = 1
"""Raised when a folder written by an older program can no longer be read as it stands."""


class Numbered(Protocol):
    """A record people call by its name."""

    @property
    def id(self) -> int:
        """Its number; 0: none yet."""

    @property
    def name(self) -> str:
        """Its name."""


N = TypeVar("N", bound=Numbered)


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
    problems = Problems(exact=_is_whole(folder))
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


def names_of(records: Iterable[N]) -> dict[str, N]:
    """Each record by what others call it: its name if it alone bears it, else `number 12`."""
    records = list(records)
    bearers = Counter(record.name for record in records)
    return {
        record.name if bearers[record.name] == 1 else f"number {record.id}": record
        for record in records
    }


def _is_whole(folder: Path) -> bool:
    """The program wrote this folder. Raises BadInputError if a newer one did."""
    try:
        written = tomllib.loads((folder / MARK).read_text(encoding="utf-8")).get("format")
    except FileNotFoundError:
        return False
    except (OSError, ValueError) as error:
        raise BadInputError(f"{MARK} cannot be read ({error}).", "Correct it there.") from None
    if not isinstance(written, int) or not 1 <= written <= FORMAT:
        raise BadInputError(
            f"{folder} was written by a newer version of the program.",
            "Update the program: pip install --upgrade fabric-stash",
        )
    return True


def _check_names(files: StashFiles, problems: Problems) -> None:
    """Names stand for records here, so each may stand once, or with numbers."""
    makes = [read.make for read in files.makes]
    _check_unique("cloths.csv", files.cloths, problems)
    _check_unique("patterns", files.patterns, problems)
    _check_unique("people.toml", files.people, problems)
    _check_unique("makes.toml", makes, problems)


def _check_unique(where: str, records: Sequence[Numbered], problems: Problems) -> None:
    numbers = Counter(record.id for record in records if record.id)
    for number, times in numbers.items():
        if times > 1:
            problems.add(where, f"the number {number} stands there twice.", "Change one.")
    seen: dict[str, int] = {}
    for record in records:
        name = record.name.casefold()
        if name in seen and not (record.id and seen[name]):
            problems.add(where, f"the name '{record.name}' stands there twice.", "Rename one.")
        seen[name] = record.id


def _check_makes(files: StashFiles, problems: Problems) -> None:
    patterns = names_of(files.patterns)
    people = names_of(files.people)
    makes = names_of(read.make for read in files.makes)
    for read in files.makes:
        _known(f"{read.where}, person", "person", read.person, people, problems)
        _known(f"{read.where}, muslin_for", "make", read.muslin_for, makes, problems)
        if not _known(f"{read.where}, pattern", "pattern", read.pattern, patterns, problems):
            continue
        if problems.exact:
            continue
        pattern = patterns[read.pattern]
        sizes = {size.label for size in pattern.sizes}
        _known(f"{read.where}, size", "size", read.make.size, sizes, problems)
        _known(f"{read.where}, view", "view", read.make.view, pattern.views, problems)
        if read.muslin_for == read.make.name:
            problems.add(f"{read.where}, muslin_for", "a make cannot test itself.")
    cloths = names_of(files.cloths)
    for line in files.diary:
        _known(f"{line.where}, cloth", "cloth", line.cloth, cloths, problems)
        _known(f"{line.where}, make", "make", line.make, makes, problems)


def _check_promises(files: StashFiles, problems: Problems) -> None:
    """What is promised and not yet cut must still lie on the shelf."""
    left = {name: cloth.left for name, cloth in names_of(files.cloths).items()}
    held: dict[str, Length] = {}
    for read in files.promises:
        if not _known(f"{read.where}, name", "cloth", read.cloth, left, problems):
            continue
        if not read.promise.cut:
            held[read.cloth] = held.get(read.cloth, ZERO) + read.promise.length
            if held[read.cloth] > left[read.cloth]:
                problems.doubt(read.where, f"more of '{read.cloth}' is promised than is left.")


def _known(where: str, what: str, name: str, known: Iterable[str], problems: Problems) -> bool:
    """Whether `name` is empty or known; else a problem is noted."""
    if not name or name in known:
        return True
    problems.note(where, unknown(what, name, known))
    return False
