"""Prints that have to match: small cases worked by hand, and random ones judged by the checker."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from lay_shapes import problems, rectangle
from shapely.geometry import Polygon

from stash.lay.check import check
from stash.lay.errors import LayError
from stash.lay.exchange import lay_from_json, lay_to_json
from stash.lay.forms import GRID
from stash.lay.key import problem_key
from stash.lay.lattice import HAIR, Lattice, joined
from stash.lay.problem import LayKind, Problem, Repeat, Shape
from stash.lay.solve import solve, solve_carefully

thorough = settings(
    max_examples=12,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)


def wide(name: str, at: float, copies: int = 1) -> Shape:
    """40 cm along and nearly all the width, so that one lies after the other."""
    return Shape(name, rectangle(400, 900), copies, match=(at, 50))


def strip(copies: int) -> Shape:
    """18 cm across, its match point in the middle of them."""
    return Shape("strip", rectangle(400, 180), copies, mirrored=False, match=(100, 90))


def test_two_pieces_meet_a_repeat_of_30_cm() -> None:
    """b after a: their starts differ by 250 mod 300, so by 550; a after b: by 650."""
    problem = Problem((wide("a", 100), wide("b", 150)), 1000, nap=True, repeat=Repeat(300))
    lay = solve(problem, kind=LayKind.OPEN)
    assert lay.need == pytest.approx(950, abs=0.01)
    assert solve(replace(problem, repeat=None)).need == pytest.approx(800, abs=0.01)
    assert lay.repeat_at == pytest.approx(100, abs=0.01)


def test_without_nap_a_piece_may_meet_the_print_on_its_head() -> None:
    """Upright both: starts 600 apart. One turned, its point 300 along: 400 apart will do."""
    problem = Problem((wide("a", 100, 2),), 1000, nap=True, repeat=Repeat(300))
    assert solve(problem).need == pytest.approx(1000, abs=0.01)
    assert solve(replace(problem, nap=False)).need == pytest.approx(800, abs=0.01)


@pytest.mark.parametrize(
    ("copies", "half_drop", "need"),
    [
        (2, False, 400),  # side by side, any two columns
        (2, True, 400),  # in the outer columns, which are shifted alike
        (3, False, 400),
        (3, True, 550),  # the middle column lies 150 off the others
    ],
)
def test_columns_across(copies: int, half_drop: bool, need: float) -> None:
    """60 cm of cloth, 20 cm across: columns at 10, 30 and 50 cm, one strip on each."""
    problem = Problem((strip(copies),), 600, nap=True, repeat=Repeat(300, 200, half_drop))
    lay = solve(problem, kind=LayKind.OPEN)
    assert lay.need == pytest.approx(need, abs=0.01)
    middles = sorted({sum(y for _, y in p.polygon) / 4 for p in lay.placements})
    assert all(min(abs(m - c) for c in (100, 300, 500)) < 0.05 for m in middles)


def test_only_the_middle_column_is_wide_enough() -> None:
    """On 40 cm the columns beside it lie on the edges: strips follow each other, 600 apart."""
    problem = Problem((strip(2),), 400, nap=True, repeat=Repeat(300, 200))
    assert solve(problem).need == pytest.approx(1000, abs=0.01)


def test_both_layers_of_a_folded_lay_meet_the_print() -> None:
    """Beside the fold, in mirror image columns; the same pieces without mirror images too."""
    pair = replace(strip(2), mirrored=True)
    lay = solve(Problem((pair,), 600, repeat=Repeat(300, 200)), kind=LayKind.FOLDED)
    assert lay.need == pytest.approx(400, abs=0.01)
    assert [p.mirrored for p in lay.placements] == [False, True]


def test_a_print_is_centred_on_a_piece_on_the_fold() -> None:
    half = Shape("back", rectangle(500, 150), on_fold=True, match=(120, 90))
    lay = solve(Problem((half,), 1000, repeat=Repeat(300, 200)), kind=LayKind.OPEN)
    ys = [y for _, y in lay.placements[0].polygon]
    assert ((min(ys) + max(ys)) / 2 - 500) % 200 == pytest.approx(0, abs=0.01)


def test_a_pieces_twin_need_not_fit_the_print() -> None:
    """Two alike and symmetric, but the point is off their middle: no pair of mirror images."""
    shape = Shape("tab", rectangle(200, 100), 2, mirrored=False, match=(50, 20))
    lay = solve(Problem((shape,), 600, nap=True, repeat=Repeat(300)), kind=LayKind.FOLDED)
    assert all(p.single for p in lay.placements)


@pytest.mark.parametrize(
    ("kind", "repeat"),
    [(LayKind.GATE, Repeat(300, 200)), (LayKind.CROSSWAYS, Repeat(300))],
)
def test_what_cannot_match_is_refused_in_words(kind: LayKind, repeat: Repeat) -> None:
    pair = replace(strip(2), mirrored=True)
    with pytest.raises(LayError, match="print") as told:
        solve(Problem((pair,), 600, repeat=repeat), kind=kind)
    assert "Lay " in told.value.hint


def test_a_piece_no_column_leaves_room_for_is_told() -> None:
    """Its point must lie on the middle of 30 cm, or 20 cm beside it: 25 cm never fit so."""
    shape = Shape("yoke", rectangle(200, 250), match=(50, 10))
    easy = Shape("cuff", rectangle(100, 50), match=(50, 10))
    with pytest.raises(LayError, match=r"^yoke finds no place .* meets the print"):
        solve(Problem((easy, shape), 300, nap=True, repeat=Repeat(300, 200)))


def test_what_matches_nothing_is_laid_as_ever() -> None:
    plain = Problem((Shape("a", rectangle(400, 900), 2),), 1000, nap=True)
    printed = replace(plain, repeat=Repeat(300))
    marked = replace(plain, shapes=(replace(plain.shapes[0], match=(100, 50)),))
    for problem in (printed, marked):
        lay = solve(problem)
        assert (lay.need, lay.repeat_at) == (solve(plain).need, None)


def test_the_checker_sees_what_lies_beside_the_lattice() -> None:
    problem = Problem((wide("a", 100), wide("b", 150)), 1000, nap=True, repeat=Repeat(300))
    lay = solve(problem)
    moved = tuple((x + 0.2, y) for x, y in lay.placements[1].polygon)
    off = replace(lay.placements[1], polygon=moved)
    shifted = replace(lay, need=lay.need + 1, placements=(lay.placements[0], off))
    assert check(problem, shifted) == ("b does not meet the repeat of the print",)
    assert check(problem, replace(lay, repeat_at=None))
    half_drop = replace(problem, repeat=Repeat(300, 200, half_drop=True))
    assert check(half_drop, lay)


def test_a_lay_travels_with_its_lattice_and_the_key_knows_the_rules() -> None:
    problem = Problem((wide("a", 100),), 1000, nap=True, repeat=Repeat(300))
    lay = solve(problem)
    assert lay_from_json(lay_to_json(lay)) == lay
    others = [
        problem,
        replace(problem, repeat=Repeat(301)),
        replace(problem, repeat=Repeat(300, 200)),
        replace(problem, repeat=Repeat(300, 200, half_drop=True)),
        replace(problem, patches=(rectangle(10, 10),)),
        replace(problem, shapes=(replace(problem.shapes[0], tolerance=1),)),
        replace(problem, shapes=(replace(problem.shapes[0], match=(101, 50)),)),
    ]
    assert len({problem_key(other, None, 1) for other in others}) == len(others)


def test_a_careful_lay_meets_the_print_too() -> None:
    problem = Problem((wide("a", 100), wide("b", 150)), 1000, nap=True, repeat=Repeat(300))
    lay = solve_carefully(problem, 0.5, kind=LayKind.OPEN)
    assert lay.need == pytest.approx(950, abs=0.01)


@st.composite
def printed(draw: st.DrawFn) -> Problem:
    """Random pieces, most of them with a point to match, on random prints."""
    problem = draw(problems())
    shapes = []
    for shape in problem.shapes:
        inside = Polygon(shape.outline).representative_point()
        match = (inside.x, inside.y) if draw(st.integers(0, 3)) else None
        shapes.append(replace(shape, match=match, tolerance=draw(st.sampled_from([0, 0, 4]))))
    across = draw(st.sampled_from([0, 0, 70, 210]))
    repeat = Repeat(draw(st.integers(40, 500)), across, across > 0 and draw(st.booleans()))
    x, y = draw(st.integers(0, 900)), draw(st.integers(0, 600))
    patch = tuple((x + u, y + v) for u, v in ((0, 0), (90, 10), (20, 20), (10, 130)))
    return replace(problem, shapes=tuple(shapes), repeat=repeat, patches=(patch,))


def need_of(problem: Problem, kind: LayKind | None) -> float | None:
    """The need, None where there is no such lay; never one the checker refused."""
    try:
        return solve(problem, kind=kind, tries=1).need
    except LayError as error:
        if "not legal" in error.message:
            raise
        return None


@thorough
@given(problem=printed())
def test_every_printed_lay_is_legal_and_open_is_never_longer(problem: Problem) -> None:
    opened = need_of(problem, LayKind.OPEN)
    for kind in (LayKind.FOLDED, LayKind.GATE, LayKind.CROSSWAYS):
        other = need_of(problem, kind)
        if other is not None:
            assert opened is not None
            assert opened <= other + 0.001


@given(
    st.integers(1, 60),
    st.integers(0, 400),
    st.integers(0, 300),
    st.booleans(),
    st.integers(-2, 2),
    st.lists(st.tuples(st.integers(-50, 400), st.integers(0, 120)), max_size=6),
)
def test_heights_on_a_print_are_those_no_span_holds(
    across: int, middle: int, mark: int, half_drop: bool, line: int, spans: list[tuple[int, int]]
) -> None:
    """Beside the plain way: every place of the column, and those inside a span left out."""
    top = 300 * GRID
    lattice = Lattice(0, 100 * GRID, middle * GRID, across * GRID, half_drop)
    taken = [(float(low * GRID), float((low + size) * GRID)) for low, size in spans]
    expected = []
    for number in range(-800, 800):
        y = round(middle + number * across) * GRID - mark * GRID
        fits = -GRID <= y <= top + GRID and (not half_drop or (number - line) % 2 == 0)
        if fits and not any(low + HAIR < min(max(y, 0), top) < high - HAIR for low, high in taken):
            expected.append(min(max(y, 0), top))
    assert list(lattice.heights(mark * GRID, line, top, joined(taken))) == expected
