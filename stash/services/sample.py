"""Filling a stash from plain files: the sample, or a folder of the same form."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from stash import paths
from stash.errors import RefusedError
from stash.store import cloths, diary, makes, patterns, people, promises

if TYPE_CHECKING:
    from pathlib import Path

    from sqlalchemy.orm import Session

    from stash.garment.make import Make
    from stash.intake.stash_folder import StashFiles
    from stash.services.stash import Stash


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
        _keep(session, files)
    return (
        (len(files.cloths), "cloth"),
        (len(files.patterns), "pattern"),
        (len(files.makes), "make"),
    )


def _keep(session: Session, files: StashFiles) -> None:
    kept = cloths.insert_cloths(session, files.cloths)
    cloth_ids = {cloth.name: cloth.id for cloth in kept}
    pattern_ids = {p.name: patterns.insert_pattern(session, p).id for p in files.patterns}
    person_ids = {p.name: people.insert_person(session, p).id for p in files.people}
    found: dict[str, Make] = {}
    for read in files.makes:
        make = replace(
            read.make,
            pattern_id=pattern_ids[read.pattern],
            person_id=person_ids[read.person] if read.person else None,
        )
        found[make.name] = makes.insert_make(session, make)
    for read in files.makes:
        if read.muslin_for:
            tested = found[read.muslin_for].id
            makes.update_make(session, replace(found[read.make.name], muslin_for=tested))
    for held in files.promises:
        promises.insert_promise(
            session,
            replace(held.promise, make_id=found[held.make].id, cloth_id=cloth_ids[held.cloth]),
        )
    for line in files.diary:
        diary.add_entry(
            session,
            replace(
                line.entry,
                cloth_id=cloth_ids[line.cloth] if line.cloth else None,
                make_id=found[line.make].id if line.make else None,
            ),
        )


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
