"""Two people at one stash, names that mean several things, and what must not be removed."""

from __future__ import annotations

import threading
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest
from store_records import CORD, LINING, Filled, fill, mm

from stash.errors import NotFoundError, RefusedError
from stash.garment.make import Make
from stash.store import cloths, diary, journal, makes, patterns, people, promises
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Callable

    from stash.store.store import Store

pytest_plugins = ["store_fixtures"]

WRITERS = 8
CHANGES = 12


@pytest.fixture
def filled(store: Store) -> Filled:
    with store.write("fill the stash") as session:
        return fill(session)


@pytest.mark.parametrize(
    ("update", "which", "field"),
    [
        (cloths.update_cloth, "cord", "notes"),
        (patterns.update_pattern, "trousers", "notes"),
        (people.update_person, "maker", "notes"),
        (makes.update_make, "make", "notes"),
        (promises.update_promise, "promise", "length"),
    ],
)
def test_the_later_of_two_changes_is_told(
    store: Store, filled: Filled, update: Callable[..., Any], which: str, field: str
) -> None:
    read = getattr(filled, which)
    first, second = ("first", "second") if field == "notes" else (mm(1), mm(2))
    with store.write("first") as session:
        kept = update(session, replace(read, **{field: first}))
    with pytest.raises(RefusedError, match="changed meanwhile"), store.write("later") as session:
        update(session, replace(read, **{field: second}))
    with store.write("after another look") as session:
        assert update(session, replace(kept, **{field: second})).version == 3


def test_changing_or_removing_what_is_gone(store: Store, filled: Filled) -> None:
    with store.write("remove") as session:
        cloths.delete_cloth(session, filled.lining.id)
    with pytest.raises(NotFoundError, match="no cloth number"), store.write("late") as session:
        cloths.update_cloth(session, filled.lining)
    with pytest.raises(NotFoundError, match="no cloth number"), store.write("late") as session:
        cloths.delete_cloth(session, filled.lining.id)
    with pytest.raises(NotFoundError), store.read() as session:
        cloths.get_cloth(session, filled.lining.id)


@pytest.mark.parametrize(
    ("delete", "which", "named"),
    [
        (cloths.delete_cloth, "cord", r"Ferry trousers \(main\)"),
        (makes.delete_make, "make", r"Rust needlecord \(main\)"),
        (patterns.delete_pattern, "trousers", "Ferry trousers, Trial trousers"),
        (people.delete_person, "maker", "Ferry trousers, Trial trousers"),
    ],
)
def test_what_others_depend_on_is_not_removed(
    store: Store, filled: Filled, delete: Callable[..., None], which: str, named: str
) -> None:
    with pytest.raises(RefusedError, match=named), store.write("remove") as session:
        delete(session, getattr(filled, which).id)
    with store.read() as session:
        assert len(journal.latest(session, 9)) == 1


def test_a_make_with_a_muslin_is_not_removed(store: Store, filled: Filled) -> None:
    with store.write("release") as session:
        promises.delete_promise(session, filled.promise.id)
    with pytest.raises(RefusedError, match="Trial trousers"), store.write("remove") as session:
        makes.delete_make(session, filled.make.id)


def test_diary_outlives_cloth_and_make(store: Store, filled: Filled) -> None:
    with store.write("remove") as session:
        promises.delete_promise(session, filled.promise.id)
        cloths.delete_cloth(session, filled.cord.id)
        makes.delete_make(session, filled.muslin.id)
        makes.delete_make(session, filled.make.id)
    with store.read() as session:
        (entry,) = diary.entries(session)
    assert entry == replace(filled.entry, cloth_id=None, make_id=None)


def test_a_name_that_is_gone_is_refused_in_words(store: Store) -> None:
    with pytest.raises(RefusedError, match="gone"), store.write("add") as session:
        makes.insert_make(session, Make(name="Ghost", pattern_id=404))


def test_ids_are_never_given_twice(store: Store) -> None:
    with store.write("add") as session:
        first = cloths.insert_cloth(session, LINING)
    with store.write("remove") as session:
        cloths.delete_cloth(session, first.id)
    with store.write("add") as session:
        assert cloths.insert_cloth(session, LINING).id > first.id


class TestFinding:
    """A cloth is meant by its number, its name, or a part only one name has."""

    @pytest.fixture
    def shelf(self, store: Store) -> Store:
        names = ("Blue wool", "blue wool crêpe", "Harbour linen", "Harbour linen", "77", "Çelik")
        with store.write("fill") as session:
            cloths.insert_cloths(session, [replace(CORD, name=name) for name in names])
        return store

    @pytest.mark.parametrize(
        ("ref", "name"),
        [
            ("2", "blue wool crêpe"),
            (" BLUE WOOL ", "Blue wool"),
            ("crêpe", "blue wool crêpe"),
            ("CRÊPE", "blue wool crêpe"),
            ("77", "77"),
            ("çel", "Çelik"),
        ],
    )
    def test_found(self, shelf: Store, ref: str, name: str) -> None:
        with shelf.read() as session:
            assert cloths.find_cloth(session, ref).name == name

    @pytest.mark.parametrize(
        ("ref", "said"),
        [
            ("harbour linen", r"More than one cloth .* Harbour linen \(number 3\), .*number 4"),
            ("wool", r"More than one cloth .*Blue wool \(number 1\), blue wool crêpe \(number 2\)"),
            ("harbor linen", "Did you mean Harbour linen"),
            ("zzz", "no cloth called “zzz”"),
            ("  ", "Which cloth"),
        ],
    )
    def test_not_found(self, shelf: Store, ref: str, said: str) -> None:
        with pytest.raises(NotFoundError, match=said), shelf.read() as session:
            cloths.find_cloth(session, ref)

    def test_other_nouns(self, store: Store) -> None:
        with store.write("fill") as session:
            filled = fill(session)
            assert patterns.find_pattern(session, "quay") == filled.trousers
            assert people.find_person(session, "marit") == filled.maker
            assert makes.find_make(session, "trial") == filled.muslin


def test_eight_writers_lose_nothing(store: Store) -> None:
    """Each takes 1 mm at a time off the same cloth, and keeps cloths of its own."""
    with store.write("start") as session:
        cloth_id = cloths.insert_cloth(session, replace(CORD, left=mm(1000))).id
    start = threading.Barrier(WRITERS)

    def work(writer: int) -> int:
        start.wait()
        return sum(take(store, cloth_id, f"{writer}-{turn}") for turn in range(CHANGES))

    with ThreadPoolExecutor(WRITERS) as pool:
        told = sum(pool.map(work, range(WRITERS)))
    with store.read() as session:
        shelf = cloths.all_cloths(session)
        entries = journal.latest(session, 1000)
    (cut,) = (cloth for cloth in shelf if cloth.id == cloth_id)
    taken = WRITERS * CHANGES
    assert cut.left == mm(1000 - taken)
    assert cut.version == 1 + taken
    assert len({cloth.name for cloth in shelf}) == 1 + taken
    assert len(entries) == 1 + taken
    if on_file(store):  # there, writers take turns from the start, so none has to try again
        assert told == 0


def take(store: Store, cloth_id: int, name: str) -> int:
    """Change and add; tried again when told that the cloth was changed meanwhile."""
    told = 0
    while True:
        try:
            with store.write(f"cut for {name}") as session:
                cloth = cloths.get_cloth(session, cloth_id)
                cloths.update_cloth(session, replace(cloth, left=Length(cloth.left.nm - 10**6)))
                cloths.insert_cloth(session, replace(LINING, name=name))
            return told
        except RefusedError:
            told += 1


def on_file(store: Store) -> bool:
    with store.read() as session:
        return session.get_bind().dialect.name == "sqlite"


def test_a_reader_sees_one_moment(store: Store, filled: Filled) -> None:
    with store.read() as reading:
        before = cloths.get_cloth(reading, filled.cord.id)
        with store.write("cut") as session:
            cloths.update_cloth(session, replace(filled.cord, left=mm(5), fibres=()))
        assert cloths.get_cloth(reading, filled.cord.id) == before
    with store.read() as session:
        assert cloths.get_cloth(session, filled.cord.id).left == mm(5)


def test_two_who_wait_for_each_other(store: Store, filled: Filled) -> None:
    """A server ends one of them, who is told in a sentence; at a file they take turns."""
    both = threading.Barrier(2)
    said = []

    def work(first: Any, second: Any) -> None:
        try:
            with store.write("two cloths") as session:
                cloths.get_cloth(session, first.id)
                cloths.update_cloth(session, replace(first, notes="first"))
                if not on_file(store):
                    both.wait(10)
                cloths.update_cloth(session, replace(second, notes="second"))
        except RefusedError as error:
            said.append(error)

    with ThreadPoolExecutor(2) as pool:
        pool.submit(work, filled.cord, filled.lining)
        pool.submit(work, filled.lining, filled.cord)
    (error,) = said
    if not on_file(store):
        assert "yours gave way" in error.message
        assert error.hint == "Do it once more."
    with store.read() as session:
        assert len(journal.latest(session, 9)) == 2


def test_what_is_held_is_not_changed_by_others(store: Store, filled: Filled) -> None:
    """Eight add a piece each to one pattern at once; nobody is refused, nothing is lost."""
    piece = filled.trousers.pieces[0]

    def work(number: int) -> None:
        with store.write(f"piece {number}") as session:
            pattern = patterns.find_pattern(session, "quay", hold=True)
            pieces = (*pattern.pieces, replace(piece, name=f"piece {number}"))
            patterns.update_pattern(session, replace(pattern, pieces=pieces))

    with ThreadPoolExecutor(WRITERS) as pool:
        list(pool.map(work, range(WRITERS)))
    with store.read() as session:
        pattern = patterns.get_pattern(session, filled.trousers.id)
    assert len(pattern.pieces) == len(filled.trousers.pieces) + WRITERS
