"""Filling a stash from plain files: the sample, or a folder of the same form."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, TypeVar

from stash import paths
from stash.errors import RefusedError
from stash.store import cloths, diary, makes, patterns, people, promises

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from sqlalchemy.orm import Session

    from stash.garment.make import Make
    from stash.intake.stash_folder import Numbered, StashFiles
    from stash.services.stash import Stash

    N = TypeVar("N", bound=Numbered)


def load_sample(stash: Stash, folder: Path | None = None) -> tuple[tuple[int, str], ...]:
    """Add everything in `folder` (default: the sample that travels with the program).

    Returns how many of what were read, as (number, noun in the singular).

    One transaction: all of it is kept, or nothing.

    Raises:
        BadInputError: With every problem, each with its file and row.
        RefusedError: The stash already holds something by one of these names.
    """
    from stash.intake.stash_folder import read_stash_folder

    place = folder or paths.sample_dir()
    files = read_stash_folder(place)
    with stash.write(f"read the stash in {place.name}") as session:
        _refuse_doubles(session, files)
        keep_files(session, files)
    return told(files)


def told(files: StashFiles) -> tuple[tuple[int, str], ...]:
    """How many of what a folder holds, as (number, noun in the singular)."""
    return (
        (len(files.cloths), "cloth"),
        (len(files.patterns), "pattern"),
        (len(files.makes), "make"),
    )


def keep_files(session: Session, files: StashFiles, *, numbers: bool = False) -> None:
    """Keep all records; with `numbers` under those they had, which must be free."""
    from stash.intake.stash_folder import names_of

    cloth_ids = _ids(files.cloths, cloths.insert_cloths(session, files.cloths, numbers=numbers))
    pattern_ids = _ids(
        files.patterns,
        [patterns.insert_pattern(session, one, numbers=numbers) for one in files.patterns],
    )
    person_ids = _ids(
        files.people, [people.insert_person(session, one, numbers=numbers) for one in files.people]
    )
    names = names_of(read.make for read in files.makes)
    by_record = {id(make): name for name, make in names.items()}
    found: dict[str, Make] = {}
    for read in files.makes:
        make = replace(
            read.make,
            pattern_id=pattern_ids[read.pattern],
            person_id=person_ids[read.person] if read.person else None,
        )
        found[by_record[id(read.make)]] = makes.insert_make(session, make, numbers=numbers)
    for read in files.makes:
        if read.muslin_for:
            name = by_record[id(read.make)]
            tested = found[read.muslin_for].id
            found[name] = makes.update_make(session, replace(found[name], muslin_for=tested))
    for held in files.promises:
        make_id = found[by_record[id(held.make)]].id
        cloth_id = cloth_ids[held.cloth]
        promises.insert_promise(session, replace(held.promise, make_id=make_id, cloth_id=cloth_id))
    for line in files.diary:
        diary.add_entry(
            session,
            replace(
                line.entry,
                cloth_id=cloth_ids[line.cloth] if line.cloth else None,
                make_id=found[line.make].id if line.make else None,
            ),
        )


def _ids(read: Sequence[N], kept: Sequence[N]) -> dict[str, int]:
    """The ids of kept records, by what others call what was read."""
    from stash.intake.stash_folder import names_of

    by_record = {id(one): there.id for one, there in zip(read, kept, strict=True)}
    return {name: by_record[id(one)] for name, one in names_of(read).items()}


def _refuse_doubles(session: Session, files: StashFiles) -> None:
    """Two records of one name could not be told apart afterwards."""
    for noun, there, coming in (
        ("cloth", cloths.all_cloths(session), files.cloths),
        ("pattern", patterns.all_patterns(session), files.patterns),
        ("person", people.all_people(session), files.people),
        ("make", makes.all_makes(session), [read.make for read in files.makes]),
    ):
        names = {one.name.casefold() for one in there}
        double = next((one.name for one in coming if one.name.casefold() in names), "")
        if double:
            raise RefusedError(
                f"There is already a {noun} called {double!r}.",
                "Rename one of them, or read the files into an empty stash.",
            )
