"""The sample stash, loaded, planned and laid."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

import pytest
from outside_view import legal
from ready_stash import Ready, moved

from stash.garment.pattern import Role
from stash.lay.problem import LayKind
from stash.pairing.judgement import Sureness, Verdict
from stash.services.cloths import shelf
from stash.services.laying import lay_make
from stash.services.makes import queue
from stash.services.patterns import all_patterns
from stash.services.people import all_people
from stash.services.planning import plan_book

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from stash.report.records import PlanBook
    from stash.services.stash import Stash


@pytest.fixture(scope="session")
def planned_once(
    ready_made: Callable[[str, str], Ready], tmp_path_factory: pytest.TempPathFactory
) -> Ready:
    """The sample with every lay of its season plan."""
    place = tmp_path_factory.mktemp("planned")
    with ready_made("sample", "sqlite").copy(place) as stash:
        plan_book(stash)
    return Ready(place)


@pytest.fixture(scope="module")
def planned(
    backend: str, planned_once: Ready, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[tuple[Stash, PlanBook]]:
    """The sample and its season plan; on a server the stash was moved there with its lays."""
    with moved(backend, planned_once, tmp_path_factory.mktemp("moved")) as stash:
        yield stash, plan_book(stash)


def test_the_sample_is_as_rich_as_it_should_be(sample_stash: Stash) -> None:
    cloths = [row.cloth for row in shelf(sample_stash)]
    patterns = all_patterns(sample_stash)
    rows = queue(sample_stash)
    assert len(cloths) >= 40
    assert {cloth.washed for cloth in cloths} == {True, False}
    assert any(cloth.flaws for cloth in cloths)
    assert any(cloth.stretch_across is None for cloth in cloths)
    assert len(patterns) == 10
    assert sum(row.pieces > 0 for row in patterns) >= 6
    assert len(rows) == 14
    assert sum(row.make.muslin for row in rows) == 2
    assert any(person.child_age is not None for person in all_people(sample_stash))
    assert len({row.make.state for row in rows}) >= 3


def test_every_lay_the_plan_rests_on_is_legal(planned: tuple[Stash, PlanBook]) -> None:
    """Looked at from outside: inside the width, no two pieces overlap, none turned under nap."""
    _, book = planned
    seen = 0
    for role in book.plan.roles:
        for pairing in (role.pairing, role.runner_up):
            lay = pairing.need.lay if pairing else None
            if lay is None:
                continue
            seen += 1
            legal(lay)
            assert lay.bound.length <= lay.need + 0.01
    assert seen > 5


def test_no_cloth_is_promised_twice_over(planned: tuple[Stash, PlanBook]) -> None:
    _, book = planned
    taken: dict[int, float] = {}
    for role in book.plan.roles:
        if role.pairing is not None and role.pairing.cut_from_shelf is not None:
            cloth = role.pairing.cloth_id
            taken[cloth] = taken.get(cloth, 0) + role.pairing.cut_from_shelf.mm
    assert taken
    assert all(length <= book.cloths[cloth].left.mm + 0.1 for cloth, length in taken.items())


def test_the_plan_covers_every_waiting_make(planned: tuple[Stash, PlanBook]) -> None:
    stash, book = planned
    waiting = {row.make.id for row in queue(stash) if row.make.state.wants_cloth}
    assert set(book.plan.order) == waiting
    short = {(one.make_id, one.role) for one in book.plan.shortfalls}
    for role in book.plan.roles:
        assert role.why
        assert ((role.make_id, role.role) in short) == (role.pairing is None)
        if role.pairing is not None and not role.pinned:
            assert role.pairing.verdict in (Verdict.FITS, Verdict.CLOSE)
    for make in book.makes.values():
        if make.muslin_for in waiting and make.id in waiting:
            order = book.plan.order
            assert order.index(make.id) < order.index(make.muslin_for or 0)


def test_a_plan_asked_again_is_the_same(planned: tuple[Stash, PlanBook]) -> None:
    stash, book = planned
    told: list[str] = []
    again = plan_book(stash, progress=lambda _, __, what: told.append(what))
    assert again.plan == book.plan
    assert "lays worked out" not in told


def test_trousers_of_the_sample_are_a_step_function_of_width(sample_stash: Stash) -> None:
    """About two lengths at 90 cm, about one where four legs lie side by side, in few steps.

    Published garment yardage chart: full-length pants 3 1/4 yd at 35-36 in, 2 5/8 yd at 50 in;
    at 58-60 in all four legs lie side by side.
    """
    name = next(
        row.make.name
        for row in queue(sample_stash)
        if "trousers" in _kind(sample_stash, row.pattern) and Role.MAIN in row.roles
    )
    needs = []
    for width in range(90, 201, 10):
        laid = lay_make(sample_stash, name, width=f"{width} cm", kind=LayKind.OPEN)
        assert laid.need.sureness is Sureness.LAID_OUT
        assert laid.need.length is not None
        needs.append(laid.need.length.mm)
    assert needs[0] / needs[-1] > 1.6
    drops = [before - after for before, after in pairwise(needs)]
    total = needs[0] - needs[-1]
    assert sum(sorted(drops)[-3:]) > 0.7 * total  # a few steps make up most of the fall


def _kind(stash: Stash, pattern: str) -> str:
    (row,) = [row for row in all_patterns(stash) if row.pattern.name == pattern]
    return row.pattern.kind.value if row.pieces else ""
