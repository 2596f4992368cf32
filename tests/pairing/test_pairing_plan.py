"""The season plan: what it chooses, and its words."""

from __future__ import annotations

import math
import random
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, Any

import pytest
from pairing_kit import (
    SETTINGS,
    Book,
    asking,
    charted,
    cloth,
    cm,
    given,
    make,
    pattern,
    plan_for,
    strip,
)

from stash.cloth.record import Structure
from stash.garment.make import Promise, State
from stash.garment.pattern import ChartRow, Kind, Role
from stash.pairing.judgement import Verdict
from stash.pairing.needs import missing_problems
from stash.pairing.order import sewing_order
from stash.pairing.slots import plan_questions

if TYPE_CHECKING:
    from stash.garment.make import Make


PLAIN = pattern(tested=True, pieces=(strip("front", 100, 100),))


def test_the_more_wanted_make_gets_the_only_cloth_and_the_other_is_told() -> None:
    makes = [make("some day", id=1, priority=1), make("next", id=2, priority=5)]
    plan = plan_for(makes, [PLAIN], [cloth(left=cm(150))])
    assert given(plan) == {1: None, 2: 1}
    assert "goes to next" in plan.roles[0].why
    assert "priority 5" in plan.roles[0].why
    assert [s.make_id for s in plan.shortfalls] == [1]
    assert "goes to next" in plan.shortfalls[0].why
    assert plan.proven


def test_two_makes_share_a_cloth_that_is_long_enough() -> None:
    makes = [make("one", id=1), make("two", id=2)]
    plan = plan_for(makes, [PLAIN], [cloth(left=cm(201))])
    assert given(plan) == {1: 1, 2: 1}
    spares = [r.pairing.spare.mm for r in plan.roles if r.pairing and r.pairing.spare]
    assert spares == pytest.approx([10, 10], abs=0.3)
    assert all(r.pairing and r.pairing.verdict is Verdict.CLOSE for r in plan.roles)


def test_a_cloth_that_takes_twice_the_length_saves_no_more() -> None:
    """Two strips of 100 by 50 cm lie side by side on 102 cm or one after the other on 60."""
    strips = pattern(tested=True, pieces=(strip("leg", 100, 50, copies=2),))
    narrow = cloth("narrow", id=1, width=cm(62), left=cm(230))
    wide = cloth("wide", id=2, width=cm(104), left=cm(110))
    assert given(plan_for([make()], [strips], [narrow, wide])) == {1: 2}


def promise(make_id: int, cloth_id: int, length: float, **more: Any) -> Promise:
    base = Promise(id=1, make_id=make_id, role=Role.MAIN, cloth_id=cloth_id, length=cm(length))
    return replace(base, **more)


def test_a_pinned_promise_stays_and_holds_its_length() -> None:
    makes = [make("pinned", id=1, priority=1), make("other", id=2, priority=5)]
    plan = plan_for(makes, [PLAIN], [cloth(left=cm(150))], [promise(1, 1, 100)])
    assert given(plan) == {1: 1, 2: None}
    assert plan.roles[0].pinned
    assert plan.roles[0].pairing is not None
    assert plan.roles[0].pairing.have == cm(150)


def test_an_unpinned_promise_is_planned_anew() -> None:
    makes = [make("was given it", id=1, priority=1), make("other", id=2, priority=5)]
    plan = plan_for(makes, [PLAIN], [cloth(left=cm(150))], [promise(1, 1, 100, pinned=False)])
    assert given(plan) == {1: None, 2: 1}


def test_only_makes_that_still_want_cloth_are_planned() -> None:
    states = [s for s in State if not s.wants_cloth]
    makes = [make(str(s), id=n, state=s) for n, s in enumerate(states, start=1)]
    assert plan_for(makes, [PLAIN], [cloth()]).roles == ()


def test_the_better_loved_cloth_is_not_risked_on_a_test() -> None:
    muslin = make("test", id=1, muslin=True)
    loved, plain = cloth("loved", id=1, loved=5), cloth("plain", id=2, loved=1)
    plan = plan_for([muslin], [PLAIN], [loved, plain])
    assert given(plan) == {1: 2}
    assert "Next was loved, but it is too well loved for a test" in plan.roles[0].why


def test_loved_cloth_waits_for_a_tested_pattern() -> None:
    loved, plain = cloth("loved", id=1, loved=5), cloth("plain", id=2, loved=2)
    untested = replace(PLAIN, tested=False)
    assert given(plan_for([make()], [untested], [loved, plain])) == {1: 2}
    assert "not tested" in plan_for([make()], [untested], [loved, plain]).roles[0].why


WANTED = make(priority=5)


@pytest.mark.parametrize(
    ("make_", "other", "why"),
    [
        (WANTED, {"left": cm(600)}, "it is no better, and the longer piece is kept whole"),
        (WANTED, {"got": date(2025, 6, 1)}, "it has not lain on the shelf as long"),
        (replace(WANTED, muslin=True), {"loved": 3}, "it would be missed more"),
        (WANTED, {"left": cm(103)}, "it is only just long enough"),
        (WANTED, {"weight": None}, "not everything about it is measured"),
        (WANTED, {"weight": 220.0}, "it suits less well ("),
        (WANTED, {}, "there is nothing to choose between them"),
    ],
)
def test_the_next_best_is_told_what_really_weighed(
    make_: Make, other: dict[str, Any], why: str
) -> None:
    """The two cloths differ in one thing only, so that is the reason."""
    asked = replace(PLAIN, asks=asking(weight_low=100.0, weight_high=200.0))
    old = date(2015, 9, 1)
    first = cloth("first", id=1, loved=1, got=old)
    second = replace(cloth("second", id=2, loved=1, got=old), **other)
    plan = plan_for([make_], [asked], [first, second])
    assert given(plan) == {1: 1}
    assert f"Next was second, but {why}" in plan.roles[0].why


def test_a_muslin_is_not_cut_from_the_cloth_of_its_make() -> None:
    makes = [make("real", id=1), make("test", id=2, muslin=True, muslin_for=1)]
    plan = plan_for(makes, [PLAIN], [cloth(left=cm(400))])
    assert sorted(given(plan).values(), key=str) == [1, None]
    assert plan.order == (2, 1)


def test_poor_cloth_is_left_and_the_reason_given() -> None:
    heavy = cloth("sailcloth", weight=500.0)
    asked = replace(PLAIN, asks=asking(weight_low=60.0, weight_high=150.0))
    plan = plan_for([make()], [asked], [heavy])
    assert given(plan) == {1: None}
    assert "sailcloth could be cut, but it suits" in plan.roles[0].why


def test_every_role_gets_an_answer_even_without_pieces() -> None:
    bare = replace(PLAIN, pieces=())
    plan = plan_for([make()], [bare], [cloth()])
    assert [r.role for r in plan.roles] == [Role.MAIN]
    assert plan.shortfalls[0].widths[0].length is None


def test_whole_makes_come_before_halves() -> None:
    """Two makes, each wanting main and lining; only one lining: the pair goes to one make."""
    rows = tuple(
        ChartRow(role=role, size="M", width=cm(140), amount=cm(150))
        for role in (Role.MAIN, Role.LINING)
    )
    lined = replace(
        charted(150), kind=Kind.COAT, charts=rows, asks=asking(weight_low=300.0), tested=True
    )
    wool = cloth("wool", id=1, weight=400.0, left=cm(160))
    slippery = cloth("lining", id=2, weight=70.0, left=cm(160))
    makes = [make("one", id=1), make("two", id=2)]
    plan = plan_for(makes, [lined], [wool, slippery])
    by_make: dict[int, set[bool]] = {}
    for role in plan.roles:
        by_make.setdefault(role.make_id, set()).add(role.pairing is not None)
    assert sorted(map(len, by_make.values())) == [1, 1]


def test_gates_and_shared_widths_keep_the_lays_few() -> None:
    knits = [cloth(id=n, structure=Structure.KNIT) for n in range(1, 20)]
    wovens = [cloth(id=n, left=cm(120 + n)) for n in range(20, 45)]
    makes = [make(f"make {n}", id=n) for n in range(1, 15)]
    asked = replace(PLAIN, asks=asking(structures=(Structure.WOVEN,)))
    questions = plan_questions(makes, {1: asked}, [*knits, *wovens], [], SETTINGS)
    assert len(missing_problems(questions, Book())) == 1
    book = Book()
    plan = plan_for(makes, [asked], [*knits, *wovens], book=book)
    assert all(r.pairing for r in plan.roles)
    assert len(book.lays) == 1


def test_nothing_is_cut_twice() -> None:
    luck = random.Random(7)
    makes = [make(f"make {n}", id=n, priority=luck.randint(1, 5)) for n in range(1, 9)]
    cloths = [
        cloth(
            f"cloth {n}",
            id=n,
            washed=luck.random() < 0.5,
            left=cm(luck.randint(80, 350)),
            weight=float(luck.randint(60, 300)),
        )
        for n in range(1, 7)
    ]
    plan = plan_for(makes, [PLAIN], cloths)
    for each in cloths:
        cut = sum(
            r.pairing.cut_from_shelf.nm
            for r in plan.roles
            if r.pairing and r.pairing.cut_from_shelf and r.pairing.cloth_id == each.id
        )
        assert cut <= each.left.nm
    assert given(plan) == given(plan_for(makes, [PLAIN], cloths))


def test_muslins_first_then_due_then_wanted() -> None:
    makes = [
        make("late", id=1, due=date(2025, 12, 1)),
        make("soon", id=2, due=date(2025, 10, 1)),
        make("some day", id=3, priority=1),
        make("next", id=4, priority=5),
        make("test of soon", id=5, muslin=True, muslin_for=2, priority=1),
        make("test of some day", id=6, muslin=True, muslin_for=3, priority=1),
    ]
    assert sewing_order(makes) == (5, 2, 1, 4, 6, 3)


def test_a_ring_of_muslins_still_ends() -> None:
    makes = [make(id=1, muslin_for=2), make(id=2, muslin_for=1), make(id=3)]
    assert sewing_order(makes) == (3, 1, 2)


def test_lengths_are_rounded_against_the_cutter() -> None:
    plan = plan_for([make()], [PLAIN], [cloth(washed=False, left=cm(150))])
    pairing = plan.roles[0].pairing
    assert pairing is not None
    assert pairing.cut_from_shelf is not None
    assert pairing.need.length is not None
    assert math.isclose(pairing.cut_from_shelf.mm, pairing.need.length.mm / 0.95, abs_tol=1e-5)
