"""Every change is in the journal, with enough to undo it; nothing gets round it."""

from __future__ import annotations

import getpass
import json
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING, Any

import pytest
import sqlalchemy as sa
from sqlalchemy.engine import make_url
from store_records import CORD, LINING, MAKER, fill, mm

from stash.cloth.record import FibreShare, Hand
from stash.store import cloths, journal, lays, makes, patterns, people, promises
from stash.store.engine import migration_engine, read_url
from stash.store.tables.cloth import ClothRow

if TYPE_CHECKING:
    from collections.abc import Iterable

    from stash.store.journal import Change
    from stash.store.store import Store

pytest_plugins = ["store_fixtures"]

NOT_UNDONE = {"journal", "alembic_version", "lay_result", "sqlite_sequence"}


def test_a_change_tells_when_who_what_and_both_states(store: Store, store_url: str) -> None:
    with store.write("put “Grey twill lining” on the shelf") as session:
        kept = cloths.insert_cloth(session, replace(LINING, fibres=(FibreShare("viscose", 100.0),)))
    with store.write("cut 1 m") as session:
        cloths.update_cloth(session, replace(kept, left=mm(1500), hand=Hand.FLUID))
    with store.read() as session:
        cut, put = journal.latest(session, 5)
    assert (put.what, cut.what) == ("put “Grey twill lining” on the shelf", "cut 1 m")
    on_server = make_url(store_url).username
    me = getpass.getuser()
    assert put.who == (f"{on_server} ({me})" if on_server else me)
    assert timedelta(0) <= datetime.now(UTC) - put.at < timedelta(minutes=1)
    assert [change.table for change in put.changes] == ["cloth", "cloth_fibre"]
    assert put.changes[0].before is None
    assert put.changes[0].after is not None
    assert put.changes[0].after["left"] == 2_500_000_000
    (change,) = cut.changes
    assert change.key == {"id": kept.id}
    assert change.before == {"hand": None, "left": 2_500_000_000, "version": 1}
    assert change.after == {"hand": 1, "left": 1_500_000_000, "version": 2}


def test_several_flushes_are_one_entry(store: Store) -> None:
    with store.write("fill") as session:
        fill(session)
    with store.read() as session:
        (entry,) = journal.latest(session, 5)
    tables = {change.table for change in entry.changes}
    assert {"cloth", "pattern", "pattern_size_measure", "make", "promise", "diary"} <= tables


def test_a_failed_change_leaves_nothing(store: Store) -> None:
    def keep_half() -> None:
        with store.write("break") as session:
            cloths.insert_cloth(session, CORD)
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        keep_half()
    with store.read() as session:
        assert cloths.all_cloths(session) == ()
        assert journal.latest(session, 5) == ()


def test_nothing_changed_is_no_entry_and_lays_are_none(store: Store) -> None:
    with store.write("look") as session:
        cloths.all_cloths(session)
        lays.put_lay_text(session, "key", "1", "text")
        lays.clear_lays(session)
    with store.read() as session:
        assert journal.latest(session, 5) == ()


def test_reading_cannot_change(store: Store) -> None:
    with pytest.raises(RuntimeError, match=r"only inside Store\.write"), store.read() as session:
        cloths.insert_cloth(session, CORD)
    with store.read() as session:
        assert cloths.all_cloths(session) == ()


@pytest.mark.parametrize(
    "statement",
    [
        sa.insert(ClothRow).values(name="smuggled"),
        sa.update(ClothRow).values(name="smuggled"),
        sa.delete(ClothRow),
    ],
    ids=["insert", "update", "delete"],
)
def test_statements_round_the_journal_are_refused(
    store: Store, statement: sa.sql.dml.UpdateBase
) -> None:
    with pytest.raises(RuntimeError, match="journal sees it"), store.write("smuggle") as session:
        session.execute(statement)


def test_undone_backwards_every_entry_gives_the_state_before(store: Store, store_url: str) -> None:
    states = [dump(store_url)]
    with store.write("fill") as session:
        filled = fill(session)
    states.append(dump(store_url))
    with store.write("change much") as session:
        pattern = replace(filled.trousers, sizes=filled.trousers.sizes[1:], views=("B", "C", "D"))
        patterns.update_pattern(session, pattern)
        cloths.update_cloth(session, replace(LINING, id=filled.lining.id, fibres=CORD.fibres))
        people.update_person(session, replace(MAKER, id=filled.maker.id, measures=()))
        cloths.insert_cloth(session, LINING)
    states.append(dump(store_url))
    with store.write("remove all") as session:
        promises.delete_promise(session, filled.promise.id)
        makes.delete_make(session, filled.muslin.id)
        makes.delete_make(session, filled.make.id)
        patterns.delete_pattern(session, filled.trousers.id)
        people.delete_person(session, filled.maker.id)
        cloths.delete_cloth(session, filled.cord.id)
    with store.read() as session:
        entries = journal.latest(session, 9)
    assert [entry.what for entry in entries] == ["remove all", "change much", "fill"]
    for entry, before in zip(entries, reversed(states), strict=True):
        undo(store_url, reversed(entry.changes))
        assert dump(store_url) == before


def dump(url: str) -> dict[str, list[tuple[Any, ...]]]:
    """Every row of every table, as the database has it."""
    with migration_engine(read_url(url)).connect() as connection:
        names = set(sa.inspect(connection).get_table_names()) - NOT_UNDONE
        rows = {name: connection.execute(sa.text(f"SELECT * FROM {name}")) for name in names}
        return {name: sorted(map(tuple, found), key=repr) for name, found in rows.items()}


def undo(url: str, changes: Iterable[Change]) -> None:
    """Turn rows back with nothing but what the journal holds."""
    with migration_engine(read_url(url)).begin() as connection:
        tables = sa.MetaData()
        tables.reflect(connection)
        for change in changes:
            table = tables.tables[change.table]
            here = [table.c[name] == value for name, value in change.key.items()]
            if change.before is None:
                done = connection.execute(table.delete().where(*here))
            elif change.after is None:
                done = connection.execute(table.insert().values(typed(table, change.before)))
            else:
                values = typed(table, change.before)
                done = connection.execute(table.update().where(*here).values(values))
            if change.after is not None:
                assert done.rowcount == 1


def typed(table: sa.Table, values: dict[str, Any]) -> dict[str, Any]:
    """JSON values as the columns take them: lists are kept as text, dates as dates."""
    found: dict[str, Any] = {}
    for name, value in values.items():
        if isinstance(value, list):
            found[name] = json.dumps(value, separators=(",", ":"), ensure_ascii=False)
        elif value is not None and isinstance(table.c[name].type, sa.Date):
            found[name] = datetime.fromisoformat(value).date()
        else:
            found[name] = value
    return found
