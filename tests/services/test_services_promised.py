"""Promising, accepting, cutting and letting go: the sums of every cloth always agree."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ready_stash import Ready, filled
from server_kit import BACKENDS
from small_stash import fill

from stash.errors import BadInputError, NotFoundError, RefusedError
from stash.garment.make import State
from stash.services.accepting import accept_plan
from stash.services.cloths import get_cloth, shelf
from stash.services.makes import add_make, edit_make, get_make
from stash.services.patterns import add_pattern
from stash.services.planning import plan_book
from stash.services.promises import Measured, cut, promise, read_measured, release
from stash.services.whole import read_whole
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.services.stash import Stash

NAMES = ("rain trousers", "second pair", "third pair")
STEPS = st.lists(
    st.tuples(
        st.sampled_from(("promise", "cut", "measure", "remnant", "release", "let go", "again")),
        st.sampled_from(NAMES),
        st.sampled_from(("olive cord", "blue stripe")),
        st.integers(-5, 130),
    ),
    max_size=14,
)


def cm(value: int) -> Length:
    return Length.from_mm(10 * value)


def sums_agree(stash: Stash) -> None:
    """Promised, free and used add up to what was bought, of every cloth."""
    whole = read_whole(stash)
    for row in shelf(stash):
        used = sum((p.length for p in whole.promises if p.cloth_id == row.cloth.id and p.cut), ZERO)
        assert row.promised + row.free + used == row.cloth.bought
        assert row.cloth.left >= ZERO


def one_step(stash: Stash, what: str, make: str, cloth: str, length: int) -> None:
    if what == "promise":
        promise(stash, make, None, cloth, cm(length))
    elif what == "cut":
        cut(stash, make)
    elif what == "measure":
        cut(stash, make, Measured(used=cm(length)))
    elif what == "remnant":
        cut(stash, make, Measured(left=cm(length)))
    elif what == "release":
        release(stash, make)
    elif what == "let go":
        edit_make(stash, make, {"state": "let go"})
    else:
        edit_make(stash, make, {"state": "thought"})


def _three_makes(stash: Stash) -> None:
    fill(stash)
    for name in NAMES[1:]:
        add_make(stash, {"name": name, "pattern": "easy trousers", "size": "42"})
    plan_book(stash)


@pytest.fixture(scope="module")
def three_makes(backend: str, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Ready]:
    """The small stash with three makes."""
    with filled(backend, tmp_path_factory.mktemp("three"), _three_makes) as ready:
        yield ready


@given(STEPS)
@settings(max_examples=20 // len(BACKENDS), deadline=None)
def test_free_promised_and_used_add_up_to_bought(
    three_makes: Ready, steps: list[tuple[str, str, str, int]]
) -> None:
    with TemporaryDirectory() as place, three_makes.copy(Path(place)) as stash:
        for step in steps:
            with suppress(RefusedError):
                one_step(stash, *step)
            sums_agree(stash)


def test_the_plan_is_accepted_and_may_move_what_it_promised(small: Stash) -> None:
    done = accept_plan(small, plan_book(small))
    assert [one.pinned for one in done.promised] == [False]
    assert get_make(small, "rain").state is State.PROMISED
    assert plan_book(small).moves == ()
    sums_agree(small)
    add_make(
        small,
        {"name": "first of all", "pattern": "easy trousers", "size": "42", "priority": "5"},
    )
    (move,) = plan_book(small).moves
    assert move.after is None
    assert "first of all" in move.why
    release(small, "rain")
    promise(small, "rain", None, "olive cord")
    assert plan_book(small).moves == (), "what the person promised never moves"


def test_parts_of_a_plan_are_accepted(small: Stash) -> None:
    add_make(small, {"name": "second pair", "pattern": "easy trousers", "size": "42"})
    book = plan_book(small)
    name = next(book.makes[r.make_id].name for r in book.plan.roles if r.pairing)
    done = accept_plan(small, book, [name])
    assert {book.makes[one.make_id].name for one in done.promised} == {name}
    cut(small, name)
    with pytest.raises(NotFoundError, match="not in the plan"):
        accept_plan(small, plan_book(small), [name])


def test_a_plan_made_before_the_cloth_was_cut_is_refused_whole(small: Stash) -> None:
    book = plan_book(small)
    add_make(small, {"name": "quick one", "pattern": "easy trousers", "size": "42"})
    promise(small, "quick one", None, "olive cord", "1.8 m")
    cut(small, "quick one")
    with pytest.raises(RefusedError, match="only"):
        accept_plan(small, book)
    assert get_make(small, "rain").state is State.THOUGHT
    sums_agree(small)


def test_what_was_really_cut_and_the_remnant_are_kept(small: Stash) -> None:
    promise(small, "rain", None, "olive cord", "1.3 m")
    cut(small, "rain", read_measured(None, None, "55 cm"))
    assert get_cloth(small, "olive cord").left == cm(55)
    (held,) = read_whole(small).promises
    assert held.length == cm(135)
    sums_agree(small)


@pytest.mark.parametrize("typed", [{"used": ""}, {"left": ""}])
def test_a_cut_measured_as_nothing_is_not_taken_for_the_promised_length(
    typed: dict[str, str],
) -> None:
    with pytest.raises(BadInputError, match="Nothing was typed"):
        read_measured(**typed)


def test_a_remnant_longer_than_the_cloth_was_is_refused(small: Stash) -> None:
    promise(small, "rain", None, "olive cord", "1.3 m")
    with pytest.raises(RefusedError, match="cannot be left"):
        cut(small, "rain", Measured(left=cm(250)))
    assert get_cloth(small, "olive cord").left == cm(190)


@pytest.mark.parametrize("change", [{"state": "let go"}, {"pattern": "other trousers"}])
def test_a_make_that_will_not_be_sewn_so_lets_its_cloth_go(
    small: Stash, change: dict[str, str]
) -> None:
    add_pattern(small, {"name": "other trousers", "kind": "elastic trousers", "sizes": "42"})
    promise(small, "rain", None, "olive cord", "1.3 m")
    make = edit_make(small, "rain", change)
    assert read_whole(small).promises == ()
    assert make.state is (State.LET_GO if "state" in change else State.THOUGHT)
    sums_agree(small)


def test_what_if_tells_what_would_move_and_keeps_nothing(small: Stash) -> None:
    add_make(
        small,
        {"name": "first of all", "pattern": "easy trousers", "size": "42", "priority": "5"},
    )
    book = plan_book(small, what_if=["drop first of all"])
    (move,) = book.moves
    assert (move.before, book.cloths[move.after or 0].name) == (None, "olive cord")
    assert book.supposed == ("first of all is dropped",)
    assert get_make(small, "first of all").state is State.THOUGHT
    more = plan_book(small, what_if=["buy 1.5 m of olive cord"])
    assert [m.before for m in more.moves] == [None]
    new = plan_book(small, what_if=["buy 3 m of 150 cm cotton"])
    assert len(new.moves) >= 1
    gone = plan_book(small, what_if=["without olive cord"])
    assert [(m.before is not None, m.after) for m in gone.moves] == [(True, None)]
    assert get_cloth(small, "olive cord").left == cm(190)


@pytest.mark.parametrize("text", ["", "sell olive cord", "buy olive cord", "buy 0 m of olive cord"])
def test_what_cannot_be_supposed_is_said(small: Stash, text: str) -> None:
    with pytest.raises(BadInputError):
        plan_book(small, what_if=[text])
