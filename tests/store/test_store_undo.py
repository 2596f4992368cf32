"""Whatever was changed can be undone step by step, and done again; later changes are named."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
import store_kills
import store_writers
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from store_records import CORD, LINING, MAKER, Filled, fill, mm
from store_replay import Replay, faults, rows_of

from stash.errors import NotFoundError, RefusedError
from stash.garment.make import DiaryEntry, DiaryKind, Promise
from stash.garment.pattern import Role
from stash.store import cloths, diary, journal, makes, patterns, people, promises, undo
from stash.store.put_back import ADDED_LATER
from stash.store.tables.every import metadata

if TYPE_CHECKING:
    from collections.abc import Callable

    from sqlalchemy import MetaData
    from sqlalchemy.orm import Session

    from stash.store.store import Store

pytest_plugins = ["store_fixtures"]


def contents(store: Store, tables: MetaData) -> dict[Any, dict[str, Any]]:
    """Every row of every table without its version, which only ever goes up."""
    with store.engine.connect() as connection:
        rows = rows_of(connection, tables)
    return {key: {n: v for n, v in row.items() if n != "version"} for key, row in rows.items()}


def turn_back(store: Store, choose: Callable[[Session], int]) -> None:
    with store.write("undo") as session:
        undo.undo_entry(session, choose(session))


def change(session: Session, turn: int, pick: int) -> None:
    """One of several changes, on a record `pick` chooses."""
    shelf = cloths.all_cloths(session)
    cloth = shelf[pick % len(shelf)]
    match turn:
        case 0:
            cloths.insert_cloth(session, replace(CORD, name=f"cloth {pick}"))
        case 1:
            some = CORD.fibres[: pick % 3]
            cloths.update_cloth(
                session, replace(cloth, left=mm(pick), fibres=some, flaws=CORD.flaws[pick % 4 :])
            )
        case 2:
            held = [one for one in promises.all_promises(session) if one.cloth_id == cloth.id]
            for one in held:
                promises.delete_promise(session, one.id)
            if len(shelf) > 1:
                cloths.delete_cloth(session, cloth.id)
        case 3:
            (pattern,) = patterns.all_patterns(session)
            views, pieces = ("A", "B", "C")[: 1 + pick % 3], pattern.pieces[pick % 2 :]
            patterns.update_pattern(session, replace(pattern, views=views, pieces=pieces))
        case 4:
            queue = makes.all_makes(session)
            make = queue[pick % len(queue)]
            session.flush()
            promises.insert_promise(
                session,
                Promise(make_id=make.id, role=Role.MAIN, cloth_id=cloth.id, length=mm(0)),
            )
        case 5:
            (person,) = people.all_people(session)
            people.update_person(session, replace(person, measures=MAKER.measures[: pick % 3]))
        case _:
            diary.add_entry(
                session,
                DiaryEntry(
                    day=date(2024, 9, pick % 30 + 1),
                    kind=DiaryKind.NOTE,
                    text=f"line {pick}",
                    cloth_id=cloth.id,
                ),
            )


@pytest.fixture
def replay() -> Replay:
    """Reads the journal on from example to example."""
    return Replay()


@settings(
    max_examples=12,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(turns=st.lists(st.tuples(st.integers(0, 6), st.integers(0, 40)), max_size=7))
def test_step_by_step_back_and_forth(
    store: Store, store_url: str, replay: Replay, turns: list[tuple[int, int]]
) -> None:
    with store.write("fill") as session:
        if not people.all_people(session):  # the stash is the same in every example
            fill(session)
    states = [contents(store, replay.tables)]
    for turn, pick in turns:
        with store.write(f"change {turn}") as session:
            before = len(journal.latest(session, 10**6))
            change(session, turn, pick)
        with store.read() as session:
            kept = len(journal.latest(session, 10**6)) > before
        if kept:
            states.append(contents(store, replay.tables))
    for state in reversed(states[:-1]):
        turn_back(store, undo.last_change)
        assert contents(store, replay.tables) == state
    for state in states[1:]:
        turn_back(store, undo.last_undone)
        assert contents(store, replay.tables) == state
    for state in reversed(states[:-1]):
        turn_back(store, undo.last_change)
        assert contents(store, replay.tables) == state
    assert faults(store_url, replay) == []


@pytest.fixture
def filled(store: Store) -> Filled:
    with store.write("fill") as session:
        return fill(session)


def test_a_removed_cloth_comes_back_with_its_parts_and_ids(store: Store, filled: Filled) -> None:
    with store.write("release") as session:
        promises.delete_promise(session, filled.promise.id)
    with store.write("remove") as session:
        cloths.delete_cloth(session, filled.cord.id)
    turn_back(store, undo.last_change)
    with store.read() as session:
        back = cloths.get_cloth(session, filled.cord.id)
        (line,) = diary.entries(session)
    assert back == replace(filled.cord, version=2)
    assert line == filled.entry


def test_the_version_never_goes_back(store: Store, filled: Filled) -> None:
    """Whoever read the cloth between a change and its undo must be told of the next change."""
    with store.write("edit") as session:
        between = cloths.update_cloth(session, replace(filled.cord, notes="a"))
    turn_back(store, undo.last_change)
    with store.write("edit") as session:
        now = cloths.get_cloth(session, filled.cord.id)
        cloths.update_cloth(session, replace(now, notes="b"))
    with pytest.raises(RefusedError, match="meanwhile"), store.write("late") as session:
        cloths.update_cloth(session, replace(between, notes="c"))


def test_a_later_change_of_the_same_row_is_named(store: Store, filled: Filled) -> None:
    for note in ("first", "second"):
        with store.write(f"note the {note}") as session:
            cloth = cloths.get_cloth(session, filled.cord.id)
            cloths.update_cloth(session, replace(cloth, notes=note))
    with pytest.raises(RefusedError, match=r"“note the second” \(entry 3, .* same cloth") as said:
        turn_back(store, lambda _: 2)
    assert said.value.hint == "Undo that one first: stash undo 3."
    turn_back(store, lambda _: 3)
    turn_back(store, lambda _: 2)
    with store.read() as session:
        assert cloths.get_cloth(session, filled.cord.id).notes == filled.cord.notes


def test_what_later_changes_use_or_removed_is_named(store: Store, filled: Filled) -> None:
    with store.write("add a cloth") as session:
        cloth = cloths.insert_cloth(session, LINING)
    with store.write("write about it") as session:
        diary.add_entry(session, replace(filled.entry, cloth_id=cloth.id))
    with pytest.raises(RefusedError, match=r"“write about it”.* uses what it added"):
        turn_back(store, lambda _: 2)
    with store.write("release") as session:
        promises.delete_promise(session, filled.promise.id)
    with store.write("remove the cord") as session:
        cloths.delete_cloth(session, filled.cord.id)
    with pytest.raises(RefusedError, match=r"“remove the cord”.* removed what it needs"):
        turn_back(store, lambda _: 4)


def test_no_cloth_becomes_shorter_than_what_is_promised(store: Store, filled: Filled) -> None:
    with store.write("found more") as session:
        cloths.update_cloth(session, replace(filled.lining, left=mm(9000)))
    with store.write("promise it") as session:
        promises.insert_promise(
            session, replace(filled.promise, id=0, cloth_id=filled.lining.id, length=mm(8000))
        )
    with pytest.raises(RefusedError, match=r"“promise it”.* relies on the length"):
        turn_back(store, lambda _: 2)


def test_redo_ends_with_a_new_change(store: Store, filled: Filled) -> None:
    with pytest.raises(RefusedError, match="nothing was undone"):
        turn_back(store, undo.last_undone)
    with store.write("edit") as session:
        cloths.update_cloth(session, replace(filled.cord, notes="a"))
    turn_back(store, undo.last_change)
    with store.write("add") as session:
        cloths.insert_cloth(session, LINING)
    with pytest.raises(RefusedError, match="a new change was made"):
        turn_back(store, undo.last_undone)
    turn_back(store, lambda _: 3)  # the undo itself can still be undone
    with store.read() as session:
        assert cloths.get_cloth(session, filled.cord.id).notes == "a"
        assert [one.undoes for one in journal.latest(session, 9)] == [3, None, 2, None, None]


def test_undone_already_and_never_there(store: Store, filled: Filled) -> None:
    del filled
    turn_back(store, undo.last_change)
    with pytest.raises(RefusedError, match="undone already, by entry 2"):
        turn_back(store, lambda _: 1)
    with pytest.raises(RefusedError, match="nothing to undo"):
        turn_back(store, undo.last_change)
    with pytest.raises(NotFoundError, match="no entry 99"):
        turn_back(store, lambda _: 99)


def test_someone_elses_change_is_not_undone_by_the_way(
    store: Store, filled: Filled, monkeypatch: pytest.MonkeyPatch
) -> None:
    del filled
    monkeypatch.setattr("stash.store.undo.user_name", lambda _: "jo")
    with pytest.raises(RefusedError, match=r"Nothing of yours .*fill") as said:
        turn_back(store, undo.last_change)
    assert said.value.hint == "To undo it all the same: stash undo 1."


def test_every_younger_column_has_a_value_for_older_rows() -> None:
    """A row that was removed before a column came must still be able to come back."""
    oldest = Path(__file__).parent / "old_dbs" / "9fdbf3d05dfd.db"
    with closing(sqlite3.connect(oldest)) as connection:
        for table in metadata.sorted_tables:
            info = connection.execute(f"PRAGMA table_info({table.name})").fetchall()
            younger = [c for c in table.c if c.name not in {row[1] for row in info}]
            needed = {(table.name, c.name) for c in younger if not c.nullable and info}
            assert needed <= ADDED_LATER.keys()


def test_writers_at_once_lose_nothing(store_url: str) -> None:
    reports, wrong, _ = store_writers.run(store_url, writers=3, changes=9)
    assert wrong == []
    assert sum(report.done for report in reports) == 27


def test_killed_writers_lose_nothing_they_were_told_is_kept(store_url: str) -> None:
    figures = store_kills.run(store_url, kills=3, seed=5)
    assert figures.wrong == []
    assert figures.acknowledged >= 3
