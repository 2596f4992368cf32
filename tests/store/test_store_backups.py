"""Copies by the day, and which of them stay."""

from __future__ import annotations

import sqlite3
import stat
from contextlib import closing
from datetime import date, datetime, time, timedelta
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st
from store_records import CORD, fill

from stash.errors import StoreError
from stash.paths import sqlite_url
from stash.store import backups, cloths
from stash.store.store import Store

if TYPE_CHECKING:
    from pathlib import Path

pytest_plugins = ["store_fixtures"]

NOON = datetime(2026, 3, 1, 12)
DAY = timedelta(days=1)


@pytest.fixture
def filled(stash_file: Path) -> Path:
    with Store.open(sqlite_url(stash_file)) as store, store.write("fill") as session:
        fill(session)
    return stash_file


def change(file: Path) -> None:
    with Store.open(sqlite_url(file)) as store, store.write("one more") as session:
        cloths.insert_cloth(session, CORD)


def kept(folder: Path) -> list[date]:
    return [one.made.date() for one in backups.backups_in(folder)]


def use(file: Path, folder: Path, now: datetime) -> backups.Backup | None:
    with Store.open(sqlite_url(file)) as store:
        return store.back_up_daily(folder, now)


def test_one_copy_a_day_and_only_of_what_changed(filled: Path, tmp_path: Path) -> None:
    folder = tmp_path / "copies"
    first = use(filled, folder, NOON)
    assert first is not None
    assert use(filled, folder, NOON + timedelta(hours=3)) is None  # the same day
    assert use(filled, folder, NOON + DAY) is None  # nothing changed
    change(filled)
    assert use(filled, folder, NOON + 2 * DAY) is not None
    assert kept(folder) == [NOON.date() + 2 * DAY, NOON.date()]
    with closing(sqlite3.connect(first.file)) as copy:
        assert copy.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert copy.execute("SELECT count(*) FROM cloth").fetchone() == (2,)


def test_an_empty_stash_is_not_copied(stash_file: Path, tmp_path: Path) -> None:
    assert use(stash_file, tmp_path / "copies", NOON) is None
    assert not (tmp_path / "copies").exists()


def test_copies_are_for_their_owner_only(filled: Path, tmp_path: Path) -> None:
    folder = tmp_path / "deep" / "copies"
    made = use(filled, folder, NOON)
    assert made is not None
    assert stat.S_IMODE(made.file.stat().st_mode) == 0o600
    for place in (folder, folder.parent):
        assert stat.S_IMODE(place.stat().st_mode) == 0o700
    assert [file.name for file in folder.iterdir()] == [made.file.name]


def test_a_copy_that_fails_leaves_nothing_half_written(filled: Path, tmp_path: Path) -> None:
    folder = tmp_path / "copies"
    folder.mkdir()
    filled.write_bytes(filled.read_bytes()[:5000])
    with pytest.raises(StoreError, match=r"The copy .* cannot be written"):
        backups.copy_whole(filled, folder / "copy.db")
    assert list(folder.iterdir()) == []


def test_copies_somebody_asked_for_are_never_thinned_out(tmp_path: Path) -> None:
    for number in range(40):
        (tmp_path / backups.asked_name(NOON - number * DAY)).touch()
        (tmp_path / backups.own_name("abc123", NOON - number * DAY)).touch()
    (tmp_path / "stash-of-my-own.db").touch()
    backups.thin_out(tmp_path, NOON.date())
    left = backups.backups_in(tmp_path)
    assert sum(not one.by_itself for one in left) == 40
    assert sum(one.by_itself for one in left) == 15  # 14 days, and the last of January
    assert (tmp_path / "stash-of-my-own.db").exists()


moments = st.lists(st.datetimes(datetime(2020, 1, 1), datetime(2026, 3, 1)), max_size=120)


@given(made=moments, today=st.dates(date(2026, 2, 20), date(2026, 3, 10)))
def test_fourteen_days_and_twelve_months_stay(made: list[datetime], today: date) -> None:
    stay = backups.to_keep(made, today)
    assert stay <= set(made)
    days = sorted({moment.date() for moment in made}, reverse=True)
    months = sorted({(moment.year, moment.month) for moment in made}, reverse=True)
    for day in days[:14]:
        assert max(m for m in made if m.date() == day) in stay
    for month in months[:12]:
        assert max(m for m in made if (m.year, m.month) == month) in stay
    assert {m for m in made if m.date() >= today} <= stay
    assert len([m for m in stay if m.date() < today]) <= 14 + 12
    assert not made or max(made) in stay


@given(made=moments, today=st.dates(date(2026, 2, 20), date(2026, 3, 10)))
def test_thinning_out_twice_is_thinning_out_once(made: list[datetime], today: date) -> None:
    stay = backups.to_keep(made, today)
    assert backups.to_keep(stay, today) == stay


@given(gaps=st.lists(st.integers(1, 9), min_size=60, max_size=200))
def test_years_of_days_never_pile_up_and_always_reach_back(gaps: list[int]) -> None:
    """Day by day, as in real use: what was thinned out yesterday is missing today."""
    today, there = date(2020, 1, 1), set[datetime]()
    first_months = set()
    for gap in gaps:
        today += gap * DAY
        there.add(datetime.combine(today, time(9)))
        first_months.add((today.year, today.month))
        there = backups.to_keep(there, today)
        assert len(there) <= 14 + 12
    reached = {(moment.year, moment.month) for moment in there}
    assert set(sorted(first_months)[-12:]) <= reached


def test_the_moment_in_a_name_is_read_back() -> None:
    now = datetime(2026, 11, 25, 7, 8, 9, 10)
    assert backups.own_name("0a1b", now) == "stash-0a1b-2026-11-25-070809-000010.db"
