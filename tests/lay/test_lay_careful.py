"""The careful search: settled, pushed together, helped by a process that may die."""

from __future__ import annotations

import time
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lay_helper import replace_helper
from lay_rows import faults
from lay_shapes import KITES, problems, rectangle

from stash.lay import careful, nester
from stash.lay.again import look_again
from stash.lay.check import check
from stash.lay.compact import compact
from stash.lay.effort import Effort
from stash.lay.errors import TooNarrowError
from stash.lay.forms import FINE, GRID
from stash.lay.key import QUICK_TRIES
from stash.lay.obstacles import strip_of
from stash.lay.open_lay import lay_open, open_copies
from stash.lay.problem import LayKind, Problem, Shape, Spot
from stash.lay.result import Bound
from stash.lay.rework import rework
from stash.lay.settle import settle
from stash.lay.solve import solve, solve_carefully
from stash.lay.table import Item, Placed, length_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.lay.result import Lay

LEGS = Problem(
    (Shape("front", rectangle(1080, 320), 2), Shape("back", rectangle(1080, 380), 2)), 1470
)


def overlap(row: Sequence[Placed]) -> float:
    """Largest shared area of two pieces in mm², by shapely on the true outlines."""
    from shapely.affinity import translate
    from shapely.geometry import Polygon

    polygons = [translate(Polygon(p.form.outline), p.x, p.y) for p in row]
    shared = [a.intersection(b).area for i, a in enumerate(polygons) for b in polygons[:i]]
    return max(shared, default=0.0) / FINE**2


@settings(max_examples=30, deadline=None)
@given(problems(), st.integers(0, 10_000))
def test_pushing_together_never_lengthens_and_never_overlaps(problem: Problem, seed: int) -> None:
    try:
        start = lay_open(problem, Effort(tries=1, seed=seed)).row or ()
    except TooNarrowError:
        return
    # Pulled apart along the cloth, so that there is something to push together.
    loose = tuple(p._replace(x=p.x + 7 * GRID * 1000 * k) for k, p in enumerate(start))
    loose = settle(strip_of(problem), loose) or start
    pushed = compact(strip_of(problem), loose)
    assert length_of(pushed) <= length_of(loose)
    assert overlap(pushed) < 0.01


def test_two_rows_pulled_apart_are_pushed_together_again() -> None:
    strip = strip_of(Problem(LEGS.shapes, 1090))
    row = lay_open(Problem(LEGS.shapes, 1090), Effort()).row
    assert row is not None
    loose = tuple(p._replace(x=p.x + 30 * FINE) if p.x > 0 else p for p in row)
    # Two legs end to end: 216 cm exactly, by the proof in the rules of lays.
    assert length_of(compact(strip, loose)) / FINE == pytest.approx(2160, abs=0.05)


@settings(max_examples=30, deadline=None)
@given(problems(), st.randoms(use_true_random=False))
def test_settling_undoes_every_overlap(problem: Problem, dice: Any) -> None:
    try:
        row = lay_open(problem, Effort(tries=1)).row or ()
    except TooNarrowError:
        return
    shaken = tuple(
        p._replace(x=p.x + dice.randint(-900, 900), y=p.y + dice.randint(-900, 900)) for p in row
    )
    settled = settle(strip_of(problem), shaken)
    assert settled is not None
    assert overlap(settled) < 0.01


def test_reworking_is_repeatable_and_never_worse() -> None:
    strip = strip_of(KITES)
    first = lay_open(KITES, Effort(tries=1))
    assert first.row is not None
    one, other = (rework(strip, first.order, first.row, Effort(tries=60, seed=5)) for _ in range(2))
    assert one.row == other.row
    assert one.length <= first.length


@pytest.mark.parametrize("problem", [LEGS, KITES])
def test_a_careful_lay_is_legal_and_not_longer_than_a_quick_one(problem: Problem) -> None:
    lay = solve_carefully(problem, 1.2)
    assert lay.checked
    assert check(problem, lay) == ()
    assert bound_holds(lay.need, lay.bound.length)
    assert lay.need <= solve(problem).need


def bound_holds(need: float, bound: float) -> bool:
    return need >= bound - 1e-6


@pytest.mark.parametrize("kind", [LayKind.FOLDED, LayKind.GATE, LayKind.CROSSWAYS])
def test_lays_of_two_layers_are_looked_at_longer_too(kind: LayKind) -> None:
    heard: list[tuple[float, float]] = []

    def listen(share: float, need: float) -> bool:
        heard.append((share, need))
        return True

    lay = solve_carefully(KITES, 1.5, kind=kind, progress=listen)
    assert (lay.kind, lay.solver) == (kind, "careful")
    assert check(KITES, lay) == ()
    assert lay.need <= solve(KITES, kind=kind).need
    assert [need for _, need in heard] == sorted((need for _, need in heard), reverse=True)


def test_looking_again_takes_other_seeds_and_more_tries_and_the_shortest() -> None:
    asked: list[tuple[int, int]] = []
    first = solve(KITES, kind=LayKind.FOLDED, seed=7)
    shorter = replace(first, need=first.need - 1)

    def lay(seed: int, tries: int) -> Lay:
        asked.append((seed, tries))
        return [shorter, first, replace(first, need=first.need + 1)][len(asked) - 1]

    found = look_again(lay, first, 1e9, lambda _share, _need: len(asked) < 3)
    assert found is shorter
    assert [seed for seed, _ in asked] == [8, 9, 10]
    assert [tries for _, tries in asked] == [2 * QUICK_TRIES, 4 * QUICK_TRIES, 8 * QUICK_TRIES]


def test_looking_again_stops_when_told_and_where_nothing_is_shorter() -> None:
    asked: list[tuple[int, int]] = []
    first = solve(KITES, kind=LayKind.FOLDED)

    def lay(seed: int, tries: int) -> Lay:
        asked.append((seed, tries))
        return first

    assert look_again(lay, first, 60.0, lambda _share, _need: False) is first
    least = replace(first, bound=Bound(first.need, "said so"))
    assert look_again(lay, least, 60.0) is least
    assert asked == []


def test_stopping_keeps_the_best_so_far() -> None:
    heard: list[float] = []

    def stop(share: float, need: float) -> bool:
        heard.append(need)
        return False

    lay = solve_carefully(KITES, 30.0, kind=LayKind.OPEN, progress=stop)
    assert len(heard) == 1
    assert lay.need <= heard[0]  # pushed together once more
    assert heard[0] <= solve(KITES, kind=LayKind.OPEN).need  # what it has from the beginning


@pytest.mark.parametrize("gap", [0.0, 12.0])
def test_the_helper_process_brings_legal_rows(gap: float) -> None:
    problem = replace(KITES, gap=gap)
    items = tuple(Item(forms) for forms in open_copies(problem))
    strip = strip_of(problem)
    with nester.Nester(strip, items, nester.Work(1, 1, workers=1, seed=1)) as beside:
        length = beside.wait()
        news = beside.news()
    assert length is not None
    assert 1 <= len(news) <= nester.RECENT
    settled = settle(strip, news[0])
    assert settled is not None
    assert overlap(settled) < 0.01
    assert sorted(p.form.shape for p in settled) == [0] * 6 + [1] * 4
    assert faults(problem, settled) == ()
    # Kites have sharp ends, so grown rings reach beyond the cloth's edge by more than half a gap.
    assert length_of(settled) / FINE <= length + 0.1


def test_what_the_library_would_panic_on_is_not_sent_to_it() -> None:
    wide = Problem((Shape("long and slanting", ((0, 0), (900, 690), (900, 700)), 2),), 700, gap=30)
    for problem in (
        wide,  # its grown ring is wider than the widened strip
        replace(KITES, spots=(Spot(200, 200, 10),)),
        replace(KITES, outline=((0, 0), (9000, 0), (9000, 1100), (0, 1100))),
    ):
        items = tuple(Item(forms) for forms in open_copies(problem))
        assert not nester.can_nest(strip_of(problem), items)
        assert check(problem, solve_carefully(problem, 1.0, kind=LayKind.OPEN)) == ()
    items = tuple(Item(forms) for forms in open_copies(KITES))
    assert nester.can_nest(strip_of(KITES), items)


def test_many_pieces_are_left_to_the_library_first() -> None:
    many = replace(KITES, shapes=tuple(replace(s, copies=2 * s.copies) for s in KITES.shapes))
    heard: list[float] = []

    def listen(share: float, need: float) -> bool:
        heard.append(need)
        return True

    lay = solve_carefully(many, 1.5, kind=LayKind.OPEN, progress=listen)
    assert check(many, lay) == ()
    assert heard == sorted(heard, reverse=True)
    assert lay.need <= heard[-1] + 1e-6


def test_the_library_is_at_work_while_the_quick_lay_is_made(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    done: list[str] = []
    begin, quick = nester.Nester.__init__, solve

    def noted(*given: Any) -> None:
        done.append("library")
        begin(*given)

    def noted_quick(*given: Any, **options: Any) -> Lay:
        done.append("quick lay")
        return quick(*given, **options)

    monkeypatch.setattr(nester.Nester, "__init__", noted)
    monkeypatch.setattr("stash.lay.solve.solve", noted_quick)
    solve_carefully(KITES, 1.0, kind=LayKind.OPEN)
    assert done[0] == "library"
    assert done.count("quick lay") == 1


def test_a_round_takes_the_time_it_is_given() -> None:
    # Parts of a second too: of 1.5 s the library has 1.2 to explore and 0.3 to push together.
    work = nester.Work.lasting(3.0, workers=1, seed=4, rounds=2)
    assert (work.exploring, work.pushing) == pytest.approx((1.2, 0.3))
    longer = nester.Work.lasting(60.0, workers=2, seed=4, most_pushing=3.0)
    assert (longer.exploring, longer.pushing) == pytest.approx((57.0, 3.0))
    items = tuple(Item(forms) for forms in open_copies(KITES))
    begun = time.monotonic()
    with nester.Nester(strip_of(KITES), items, work) as beside:
        assert beside.wait() is not None
    assert time.monotonic() - begun >= 2 * work.exploring


def test_the_library_pushes_few_pieces_together_for_a_shorter_time() -> None:
    few, more = (careful._works(pieces, 10.0, seed=1, cores=2)[0] for pieces in (20, 40))
    many = careful._works(400, 10.0, seed=1, cores=2)[0]
    assert more.pushing == pytest.approx(2 * few.pushing)
    assert few.exploring > more.exploring > many.exploring
    assert many.exploring == pytest.approx(4 * many.pushing)  # the custom of the library


@pytest.mark.parametrize("script", ["raise SystemExit(9)", "print('no JSON')", "print('{}')"])
def test_a_helper_that_dies_or_babbles_changes_nothing(
    script: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    replace_helper(monkeypatch, script)
    lay = solve_carefully(KITES, 1.0, kind=LayKind.OPEN)
    assert check(KITES, lay) == ()
