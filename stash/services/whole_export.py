"""A whole stash as a folder of files people can read, from which it can be made again."""

from __future__ import annotations

import os
import re
import unicodedata
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from stash.config import save_settings
from stash.errors import RefusedError, StashError, StoreError
from stash.intake.stash_folder import FORMAT, MARK, names_of, read_stash_folder
from stash.intake.svg_pieces import read_svg_pieces
from stash.paths import make_private
from stash.report.pieces_svg import pieces_svg
from stash.report.whole_cloths import cloths_csv
from stash.report.whole_makes import diary_csv, makes_toml, people_toml
from stash.report.whole_patterns import pattern_toml
from stash.services.whole import Whole, whole_of
from stash.store import diary

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from stash.garment.make import DiaryEntry
    from stash.garment.pattern import Pattern
    from stash.intake.stash_folder import Numbered, StashFiles
    from stash.services.stash import Stash

HEAD = f"""# Written by: stash export --all. Read it into an empty stash with: stash import FOLDER
# Left out, because they are worked out or noted anew: kept lays, the journal of changes.
format = {FORMAT}
"""


@dataclass(frozen=True, slots=True)
class Exported:
    """What was written, and what will not come back exactly as it is."""

    folder: Path
    cloths: int
    patterns: int
    makes: int
    doubts: tuple[str, ...]
    """Records the program can read but that break its own rules, in words."""


def export_all(stash: Stash, folder: Path) -> Exported:
    """Write everything the person ever typed to `folder`, which must be new or empty.

    What was written is read back and compared, so that nothing is lost unnoticed.

    Raises:
        RefusedError: The folder holds something already.
        StoreError: It cannot be written.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise RefusedError(f"{folder} holds something already.", "Name a new folder.")
    with stash.read() as session:
        whole = whole_of(session)
        lines = diary.entries(session)
    try:
        _write(stash, folder, whole, lines)
    except OSError as error:
        raise StoreError(
            f"The folder {folder} cannot be written: {error.strerror}.",
            "Remove what is there of it, make room, or name another place.",
        ) from error
    return Exported(
        folder, len(whole.cloths), len(whole.patterns), len(whole.makes), _doubts(folder, whole)
    )


def _write(stash: Stash, folder: Path, whole: Whole, lines: Iterable[DiaryEntry]) -> None:
    make_private(folder / "patterns")
    cloths, patterns = _called(whole.cloths.values()), _called(whole.patterns.values())
    people, makes = _called(whole.people.values()), _called(whole.makes.values())
    held: dict[int, list[Any]] = {}
    for promise in whole.promises:
        held.setdefault(promise.make_id, []).append(promise)
    texts = {
        "cloths.csv": cloths_csv(whole.cloths.values()),
        "people.toml": people_toml(whole.people.values()),
        "makes.toml": makes_toml(
            whole.makes.values(),
            held,
            patterns=patterns,
            people=people,
            names=makes,
            cloths=cloths,
        ),
        "diary.csv": diary_csv(lines, cloths, makes),
    }
    for name, text in texts.items():
        _put(folder / name, text)
    for pattern in whole.patterns.values():
        _write_pattern(folder / "patterns", pattern)
    save_settings(stash.settings, folder / "settings.toml")
    _put(folder / MARK, HEAD)


def _write_pattern(folder: Path, pattern: Pattern) -> None:
    """Pieces go into a drawing where it gives back exactly these pieces."""
    stem = f"{_file_stem(pattern.name)}-{pattern.id}"
    drawing = folder / f"{stem}.svg"
    drawn = False
    if pattern.pieces:
        _put(drawing, pieces_svg(pattern.pieces))
        try:
            drawn = read_svg_pieces(drawing) == pattern.pieces
        except StashError:  # a name or an outline no drawing can carry
            drawn = False
        if not drawn:
            drawing.unlink()
    _put(folder / f"{stem}.toml", pattern_toml(pattern, drawing.name if drawn else ""))


def _doubts(folder: Path, whole: Whole) -> tuple[str, ...]:
    """What reading the folder back does not give exactly."""
    try:
        files = read_stash_folder(folder)
    except StashError as error:
        return tuple(str(error).splitlines())
    return tuple(
        f"{noun} {one.name} (number {number})"
        for noun, there, back in _pairs(whole, files)
        for number, one in there.items()
        if back.get(number) != one
    )


def _pairs(
    whole: Whole, files: StashFiles
) -> tuple[tuple[str, dict[int, Numbered], dict[int, Numbered]], ...]:
    """What was there and what was read back, without versions and references, by number."""

    def plain(records: Iterable[Any], **empty: Any) -> dict[int, Numbered]:
        return {one.id: replace(one, version=1, **empty) for one in records}

    makes = [read.make for read in files.makes]
    loose = {"pattern_id": 0, "person_id": None, "muslin_for": None}
    return (
        ("cloth", plain(whole.cloths.values()), plain(files.cloths)),
        ("pattern", plain(whole.patterns.values()), plain(files.patterns)),
        ("person", plain(whole.people.values()), plain(files.people)),
        ("make", plain(whole.makes.values(), **loose), plain(makes, **loose)),
    )


def _called(records: Iterable[Numbered]) -> dict[int, str]:
    return {one.id: name for name, one in names_of(records).items()}


def _file_stem(name: str) -> str:
    """Letters and digits of a name, so that it is a plain file name everywhere."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")[:40] or "pattern"


def _put(file: Path, text: str) -> None:
    """A new file for this user only."""
    number = os.open(file, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600)
    with os.fdopen(number, "w", encoding="utf-8", newline="") as opened:
        opened.write(text)
