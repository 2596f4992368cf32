"""Filling a stash from plain files: the sample, or a whole stash written out."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, TypeVar

from stash import paths
from stash.store import cloths, diary, makes, patterns, people, promises

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy.orm import Session

    from stash.garment.make import Make
    from stash.intake.stash_folder import Numbered, StashFiles
    from stash.services.stash import Stash

    N = TypeVar("N", bound=Numbered)


def load_sample(stash: Stash) -> None:
    """Put the sample that travels with the program into a new stash, in one transaction."""
    from stash.intake.stash_folder import read_stash_folder

    files = read_stash_folder(paths.sample_dir())
    with stash.write("read the sample") as session:
        keep_files(session, files)


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
