"""What the check finds, on which record, and that it mends only what it may."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import select

from stash.lay.key import ENGINE
from stash.services.checking import KeptLays, check_stash
from stash.services.laying import lay_make
from stash.services.promises import promise
from stash.services.stash import Stash
from stash.store.tables.every import metadata

if TYPE_CHECKING:
    from pathlib import Path

LAYS = metadata.tables["lay_result"]


def harm(stash: Stash, *statements: str) -> None:
    """Change the database behind the program's back, and past what would stop it."""
    if stash.file is None:
        with stash.write("harm") as session:
            server = session.connection()
            for statement in ("SET LOCAL session_replication_role = replica", *statements):
                server.exec_driver_sql(statement)
        return
    with closing(sqlite3.connect(stash.file)) as connection:
        for statement in statements:
            connection.execute(statement)
        connection.commit()


def wrongs(stash: Stash) -> list[str]:
    return [f"{one.record}: {one.wrong}" for one in check_stash(stash).findings]


@pytest.fixture
def laid(small: Stash) -> Stash:
    """One make has been laid on one cloth, and holds it."""
    lay_make(small, "rain", cloth="olive")
    return small


def test_the_sample_is_sound(sample_stash: Stash) -> None:
    found = check_stash(sample_stash)
    assert found.findings == ()
    assert found.sound


def test_a_kept_lay_is_checked_again(laid: Stash) -> None:
    found = check_stash(laid)
    assert found.sound
    assert found.lays.sound >= 1
    assert found.lays.illegal == found.lays.unreadable == 0


def test_an_illegal_lay_is_found_and_dropped(laid: Stash) -> None:
    """Every piece moved to one place: shapely finds them on top of each other."""
    with laid.write("harm") as session:
        connection = session.connection()
        for key, text in connection.execute(select(LAYS.c.key, LAYS.c.text)).all():
            lay = json.loads(text)
            for placement in lay["placements"]:
                placement["polygon"] = lay["placements"][0]["polygon"]
            moved = LAYS.update().where(LAYS.c.key == key).values(text=json.dumps(lay))
            connection.execute(moved)
    found = check_stash(laid)
    assert not found.sound
    assert found.lays.illegal >= 1
    mended = check_stash(laid, repair=True)
    assert mended.sound
    assert mended.lays.dropped == found.lays.illegal
    assert check_stash(laid).lays == KeptLays()
    assert lay_make(laid, "rain", cloth="olive").lay is not None  # worked out anew


def test_unreadable_and_outdated_lays(laid: Stash) -> None:
    harm(laid, "UPDATE lay_result SET text = 'moths'")
    assert check_stash(laid).lays.unreadable >= 1
    harm(laid, "UPDATE lay_result SET engine = '0'")
    found = check_stash(laid)
    assert found.sound  # never used, so no harm
    assert found.lays.outdated >= 1
    assert ENGINE > 0


@pytest.mark.parametrize(
    "harms",
    [
        {
            'UPDATE cloth SET "left" = 10000000 WHERE id = 1': "is promised, but only",
            "UPDATE cloth SET bought = 1000000 WHERE id = 1": "was bought",
            "UPDATE cloth SET selvedge = width WHERE id = 1": "selvedges take up",
            "UPDATE make SET state = 'thought'": "still holds cloth that is not cut",
            "UPDATE make SET size = 'giant'": "its size giant is none of",
            "UPDATE make SET muslin_for = id": "tests itself",
            "UPDATE pattern_piece SET size = 'giant'": "size giant, which the pattern",
        },
        {
            "UPDATE make SET state = 'worn'": "it is worn, but still holds",
            "UPDATE promise SET length = 0": "a length of nothing",
        },
        {"DELETE FROM promise": "it is promised, but holds no cloth"},
        {
            "UPDATE cloth SET structure = 'gas'": "structure “gas” cannot be read",
            "UPDATE cloth SET outline = 'round' WHERE id = 1": "outline “round” cannot be read",
            "DELETE FROM pattern": "make id 1: it names a pattern that is gone",
            "DROP INDEX ix_diary_day": "the tables: add index",
        },
    ],
    ids=["records", "worn", "promised", "tables"],
)
def test_what_is_wrong_is_told_with_its_record(small: Stash, harms: dict[str, str]) -> None:
    promise(small, "rain", None, "olive", "50 cm")
    assert wrongs(small) == []
    harm(small, *harms)
    found = check_stash(small, repair=True)
    assert not found.sound
    told = "\n".join(f"{one.record}: {one.wrong}" for one in found.findings)
    assert [said for said in harms.values() if said not in told] == []
    assert all(one.record and one.todo for one in found.findings)


def test_a_damaged_file_is_told(sample_home: Path) -> None:
    file = sample_home / "stash.db"
    content = bytearray(file.read_bytes())
    third = len(content) // 3 // 4096 * 4096
    content[third : third + 8192] = bytes(8192)
    file.write_bytes(content)
    with Stash.open() as stash:
        assert any(line.startswith("the file:") for line in wrongs(stash))
