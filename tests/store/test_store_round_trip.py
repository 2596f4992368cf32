"""What is kept comes back the same, field by field."""

from __future__ import annotations

import dataclasses
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from store_records import CORD, TROUSERS, Filled, fill, mm

from stash.cloth.record import Cloth, FibreShare, Flaw, Hand, Structure
from stash.garment.make import DiaryEntry, DiaryKind, Make, Person, Promise, State
from stash.garment.pattern import Asks, ChartRow, Grain, Kind, Notion, Pattern, Piece, Role, Size
from stash.store import cloths, diary, makes, patterns, people, promises
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from stash.store.store import Store

pytest_plugins = ["store_fixtures"]

# A server cannot keep the character NUL in a text; nobody can type one.
words = st.text(st.characters(exclude_characters="\0", exclude_categories=["Cs"]), max_size=20)
numbers = st.floats(allow_nan=False, allow_infinity=False)
maybe_number = st.none() | numbers
lengths = st.integers(-(10**15), 10**15).map(Length)
small = st.integers(-(2**31), 2**31 - 1)
points = st.lists(st.tuples(numbers, numbers), max_size=6).map(tuple)
maybe_day = st.none() | st.dates()
money = st.decimals(0, 10**9, allow_nan=False, allow_infinity=False, places=4)
measures = st.lists(st.tuples(words, lengths), max_size=3).map(tuple)


def several(record: st.SearchStrategy[object]) -> st.SearchStrategy[tuple[object, ...]]:
    return st.lists(record, max_size=3).map(tuple)


def any_of(record: type[Any], **fields: st.SearchStrategy[object]) -> st.SearchStrategy[object]:
    """Records with every field drawn, those with a default too: none is left out."""
    drawn = {
        "str": words,
        "int": small,
        "bool": st.booleans(),
        "float": numbers,
        "float | None": maybe_number,
        "Length": lengths,
        "date | None": maybe_day,
        "int | None": st.none() | small,
        "Hand | None": st.none() | st.sampled_from(Hand),
        "Structure": st.sampled_from(Structure),
        "Role": st.sampled_from(Role),
        "Grain": st.sampled_from(Grain),
        "Kind": st.sampled_from(Kind),
        "Decimal | None": st.none() | money,
        "tuple[float, float] | None": st.none() | st.tuples(numbers, numbers),
        "tuple[tuple[float, float], ...]": points,
        "tuple[str, ...]": several(words),
        "tuple[tuple[str, Length], ...]": measures,
        "tuple[Structure, ...]": several(st.sampled_from(Structure)),
    }
    kinds = {f.name: str(f.type) for f in dataclasses.fields(record)}
    kept = {name: kind for name, kind in kinds.items() if name not in ("id", "version")}
    return st.builds(
        record, **{name: fields[name] if name in fields else drawn[k] for name, k in kept.items()}
    )


any_cloth = any_of(Cloth, fibres=several(any_of(FibreShare)), flaws=several(any_of(Flaw)))
any_person = any_of(Person)
any_pattern = any_of(
    Pattern,
    sizes=several(any_of(Size)),
    pieces=several(any_of(Piece)),
    charts=several(any_of(ChartRow)),
    asks=several(any_of(Asks)),
    notions=several(any_of(Notion)),
)
thorough = settings(
    max_examples=40,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)


@thorough
@given(first=any_cloth, second=any_cloth)
def test_any_cloth_is_kept_and_changed_exactly(store: Store, first: Cloth, second: Cloth) -> None:
    with store.write("keep") as session:
        kept = cloths.insert_cloth(session, first)
        assert kept == replace(first, id=kept.id, version=1)
        assert cloths.get_cloth(session, kept.id) == kept
    with store.write("change") as session:
        changed = cloths.update_cloth(session, replace(second, id=kept.id, version=1))
    assert changed == replace(second, id=kept.id, version=2)
    with store.read() as session:
        assert cloths.get_cloth(session, kept.id) == changed


@thorough
@given(first=any_pattern, second=any_pattern)
def test_any_pattern_is_kept_and_changed_exactly(
    store: Store, first: Pattern, second: Pattern
) -> None:
    with store.write("keep") as session:
        kept = patterns.insert_pattern(session, first)
    with store.read() as session:
        assert patterns.get_pattern(session, kept.id) == replace(first, id=kept.id, version=1)
    with store.write("change") as session:
        changed = patterns.update_pattern(session, replace(second, id=kept.id, version=1))
    with store.read() as session:
        assert patterns.get_pattern(session, kept.id) == changed
    assert changed == replace(second, id=kept.id, version=2)


@thorough
@given(first=any_person, second=any_person)
def test_any_person_is_kept_and_changed_exactly(
    store: Store, first: Person, second: Person
) -> None:
    with store.write("keep") as session:
        kept = people.insert_person(session, first)
    with store.write("change") as session:
        assert people.get_person(session, kept.id) == replace(first, id=kept.id, version=1)
        changed = people.update_person(session, replace(second, id=kept.id, version=1))
    with store.read() as session:
        assert people.get_person(session, kept.id) == changed


@pytest.fixture
def filled(store: Store) -> Filled:
    with store.write("fill the stash") as session:
        return fill(session)


def test_whole_stash_comes_back(store: Store, filled: Filled) -> None:
    with store.read() as session:
        assert cloths.all_cloths(session) == (filled.lining, filled.cord)
        assert patterns.all_patterns(session) == (filled.trousers,)
        assert people.all_people(session) == (filled.maker,)
        assert makes.all_makes(session) == (filled.make, filled.muslin)
        assert makes.get_make(session, filled.make.id) == filled.make
        assert promises.all_promises(session) == (filled.promise,)
        assert diary.entries(session) == (filled.entry,)


def test_eighths_of_a_yard_and_money_keep_every_digit(store: Store) -> None:
    cloth = replace(CORD, left=Length.from_inches(4.5), price=Decimal("12.50"))
    with store.write("keep") as session:
        kept_id = cloths.insert_cloth(session, cloth).id
    with store.read() as session:
        back = cloths.get_cloth(session, kept_id)
    # 1/8 yd = 4.5 in = 114.3 mm exactly (the international yard, 0.9144 m).
    assert back.left.nm == 114_300_000
    assert str(back.price) == "12.50"


@pytest.mark.parametrize("state", list(State))
def test_every_state_of_a_make(store: Store, filled: Filled, state: State) -> None:
    with store.write("change") as session:
        changed = makes.update_make(session, replace(filled.make, state=state, due=None))
    with store.read() as session:
        assert makes.get_make(session, filled.make.id) == changed
    assert (changed.state, changed.version) == (state, 2)


def test_shorter_lists_and_other_order(store: Store, filled: Filled) -> None:
    smaller = replace(
        filled.trousers,
        views=("B",),
        sizes=tuple(reversed(TROUSERS.sizes)),
        pieces=TROUSERS.pieces[1:],
        charts=(),
        notions=TROUSERS.notions[::-1],
    )
    with store.write("change") as session:
        changed = patterns.update_pattern(session, smaller)
    with store.read() as session:
        assert patterns.get_pattern(session, changed.id) == changed


def test_promises_are_summed_until_they_are_cut(store: Store, filled: Filled) -> None:
    cord_id = filled.cord.id
    with store.write("promise more") as session:
        more = promises.insert_promise(
            session,
            Promise(make_id=filled.muslin.id, role=Role.RIB, cloth_id=cord_id, length=mm(99.5)),
        )
        assert promises.promised_length(session, cord_id) == mm(1900)
        assert promises.promised_lengths(session) == {cord_id: mm(1900)}
        assert promises.promised_length(session, filled.lining.id) == ZERO
        assert promises.promises_of_make(session, filled.muslin.id) == (more,)
        assert promises.promises_of_cloth(session, cord_id) == (filled.promise, more)
    with store.write("cut") as session:
        cut = promises.update_promise(session, replace(filled.promise, cut=True))
        assert promises.promised_length(session, cord_id) == mm(99.5)
        promises.delete_promise(session, more.id)
    with store.read() as session:
        assert promises.all_promises(session) == (cut,)


def test_diary_is_newest_first_and_asks_by_cloth_and_make(store: Store, filled: Filled) -> None:
    early = DiaryEntry(day=date(2024, 1, 5), kind=DiaryKind.WASHED, text="washed")
    with store.write("write") as session:
        about_lining = diary.add_entry(session, replace(early, cloth_id=filled.lining.id))
        late = diary.add_entry(session, replace(early, day=date(2024, 12, 1)))
    with store.read() as session:
        assert diary.entries(session) == (late, filled.entry, about_lining)
        assert diary.entries(session, cloth_id=filled.lining.id) == (about_lining,)
        assert diary.entries(session, make_id=filled.make.id) == (filled.entry,)
        assert diary.entries(session, filled.lining.id, filled.make.id) == ()


def test_lists_go_by_name_without_case_then_by_id(store: Store) -> None:
    with store.write("keep") as session:
        pattern_id = patterns.insert_pattern(session, TROUSERS).id
        for name in ("beta", "Alpha", "Beta", "alpha"):
            makes.insert_make(session, Make(name=name, pattern_id=pattern_id))
    with store.read() as session:
        names = [make.name for make in makes.all_makes(session)]
    assert names == ["Alpha", "alpha", "beta", "Beta"]
