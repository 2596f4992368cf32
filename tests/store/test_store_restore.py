"""A copy takes the place of the stash, and nothing is lost by it."""

from __future__ import annotations

import shutil
import sqlite3
import stat
from contextlib import closing
from datetime import datetime
from pathlib import Path

import pytest
from store_records import CORD, fill

from stash.errors import BadInputError, NotFoundError, RefusedError, StoreError
from stash.paths import sqlite_url
from stash.store import cloths
from stash.store.backups import copy_whole
from stash.store.restore import restore_file
from stash.store.store import Store

pytest_plugins = ["store_fixtures"]

OLD = sorted((Path(__file__).parent / "old_dbs").glob("*.db"))
NOW = datetime(2026, 11, 25, 7, 8, 9)


@pytest.fixture
def copy(stash_file: Path, tmp_path: Path) -> Path:
    """A copy of the stash as it was with two cloths; it has three now."""
    made = tmp_path / "copies" / "copy.db"
    with Store.open(sqlite_url(stash_file)) as store:
        with store.write("fill") as session:
            fill(session)
        copy_whole(stash_file, made)
        with store.write("one more") as session:
            cloths.insert_cloth(session, CORD)
    return made


def names(file: Path) -> list[str]:
    with Store.open(sqlite_url(file)) as store, store.read() as session:
        return [cloth.name for cloth in cloths.all_cloths(session)]


def test_the_copy_comes_back_and_what_it_replaces_stays(stash_file: Path, copy: Path) -> None:
    aside = restore_file(stash_file, copy, NOW)
    assert aside == stash_file.with_name("stash-replaced-2026-11-25-070809-000000.db")
    assert stat.S_IMODE(aside.stat().st_mode) == 0o600
    assert stat.S_IMODE(stash_file.stat().st_mode) == 0o600
    assert names(stash_file) == ["Grey twill lining", "Rust needlecord"]
    assert names(aside) == ["Grey twill lining", "Rust needlecord", "Rust needlecord"]
    assert names(copy) == names(stash_file)
    assert {file.name for file in stash_file.parent.iterdir() if file.is_file()} == {
        "stash.db",
        aside.name,
    }


def test_into_an_empty_place(copy: Path, tmp_path: Path) -> None:
    file = tmp_path / "new" / "home" / "stash.db"
    file.parent.mkdir(parents=True)
    assert restore_file(file, copy, NOW) is None
    assert names(file) == ["Grey twill lining", "Rust needlecord"]


@pytest.mark.parametrize("frozen", OLD, ids=lambda file: file.stem)
def test_a_copy_of_any_revision(frozen: Path, stash_file: Path, tmp_path: Path) -> None:
    copy = tmp_path / "old.db"
    shutil.copyfile(frozen, copy)
    before = copy.read_bytes()
    restore_file(stash_file, copy, NOW)
    assert names(stash_file) == ["Grey twill lining", "Rust needlecord"]
    assert copy.read_bytes() == before


def test_a_damaged_stash_is_replaced_and_still_kept(stash_file: Path, copy: Path) -> None:
    damaged = b"SQLite format 3\0" + b"moths" * 2000
    stash_file.write_bytes(damaged)
    aside = restore_file(stash_file, copy, NOW)
    assert aside is not None
    assert aside.read_bytes() == damaged
    assert len(names(stash_file)) == 2


def test_while_another_program_has_it_open(stash_file: Path, copy: Path) -> None:
    with Store.open(sqlite_url(stash_file)) as store, store.read() as session:
        assert cloths.all_cloths(session)
        with pytest.raises(RefusedError, match="open in another program"):
            restore_file(stash_file, copy, NOW)
    assert len(names(stash_file)) == 3


def refused(stash_file: Path, copy: Path, error: type[Exception], said: str) -> None:
    before = stash_file.read_bytes()
    with pytest.raises(error, match=said):
        restore_file(stash_file, copy, NOW)
    assert stash_file.read_bytes() == before
    assert sorted(file.name for file in stash_file.parent.glob("stash*")) == ["stash.db"]


def test_what_cannot_be_restored(stash_file: Path, copy: Path, tmp_path: Path) -> None:
    refused(stash_file, tmp_path / "none.db", NotFoundError, "no file")
    letter = tmp_path / "letter.db"
    letter.write_text("Dear aunt, thank you for the cloth. " * 50)
    refused(stash_file, letter, BadInputError, "is not a stash")
    empty = tmp_path / "empty.db"
    empty.touch()
    refused(stash_file, empty, BadInputError, "holds no stash")
    recipes = tmp_path / "recipes.db"
    with closing(sqlite3.connect(recipes)) as connection:
        connection.execute("CREATE TABLE recipes (name TEXT)")
    refused(stash_file, recipes, BadInputError, "is not a stash")
    with closing(sqlite3.connect(copy)) as connection:
        connection.execute("DELETE FROM pattern")  # plain sqlite3 enforces no foreign keys
        connection.commit()
    refused(stash_file, copy, BadInputError, "damaged: a row of")


def test_a_copy_with_a_broken_page(stash_file: Path, copy: Path) -> None:
    content = bytearray(copy.read_bytes())
    content[8192:16384] = bytes(8192)  # two whole pages
    copy.write_bytes(content)
    refused(stash_file, copy, BadInputError, "damaged|is not a stash")


def test_a_copy_of_a_newer_program(stash_file: Path, copy: Path) -> None:
    with closing(sqlite3.connect(copy)) as connection:
        connection.execute("UPDATE alembic_version SET version_num = 'ffffffffffff'")
        connection.commit()
    refused(stash_file, copy, StoreError, r"newer version.*pip install --upgrade")
