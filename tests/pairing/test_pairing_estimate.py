"""Estimates from a chart: blocks scaled to it, and a range that holds what the pieces need.

The long trial over all patterns and widths is `estimate_trials.py`; here one of each sort.
"""

from __future__ import annotations

import math
from dataclasses import replace
from random import Random
from typing import TYPE_CHECKING

import pytest
from chart_cells import GARMENTS, Convention, reproduced
from estimate_trials import Case, charted
from hypothesis import example, given, settings
from hypothesis import strategies as st
from pairing_kit import SETTINGS, Book, cloth, cm, make, pattern

from stash.garment.pattern import ChartRow, Kind, Pattern, Role
from stash.intake.stash_folder import read_stash_folder
from stash.lay.key import problem_key
from stash.lay.problem import LayKind, Spot
from stash.lay.solve import solve
from stash.pairing.blocked import stood_in
from stash.pairing.estimate import UNLIKE, Cell, Guess, guess
from stash.pairing.judgement import Need, Sureness, Verdict
from stash.pairing.needs import Known, Needs, Question, missing_problems
from stash.pairing.verdict import pair
from stash.paths import sample_dir
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from stash.lay.problem import Problem, Ring
    from stash.pairing.block_curve import Laid

STEP = 100.0


def strips(width: float, length: float) -> Callable[[float], float]:
    """Four strips, together `width` wide: side by side they take one length, else two.

    Proof: on less than one and a half lengths every strip crosses one line across the cloth.
    """
    return lambda across: length if across >= width else 2 * length


def cell(width: float, need: float) -> Cell:
    most = math.ceil(need / STEP) * STEP
    return Cell(width, most - STEP, most, nap=True)


def told(
    garment: Callable[[float], float], widths: Sequence[float], at: float, block: float = 1300.0
) -> Guess | None:
    drafted = strips(block, 1000)
    return guess([cell(w, garment(w)) for w in widths], lambda _: drafted, drafted, at)


WIDTHS = st.floats(1225, 1380)
"""Of garments within 6 % of the block: those at the edge of its scales may be outside."""


@settings(max_examples=30)
@given(width=WIDTHS, length=st.floats(850, 1200), at=st.floats(1130, 1480))
@example(width=1367.0, length=850.0, at=1366.0)
def test_legs_of_known_width_lie_in_the_range_or_at_its_edge(
    width: float, length: float, at: float
) -> None:
    """The range holds nine in ten, so one may lie beside it, by less than two garments that
    agree in length and width differ."""
    real = strips(width, length)
    found = told(real, (1130, 1480), at)
    assert found is not None
    assert found.low * (1 - UNLIKE) <= real(at) <= found.high * (1 + UNLIKE)


def test_the_range_holds_nine_in_ten_legs_of_known_width() -> None:
    chosen = Random(1)
    held = 0
    for _ in range(400):
        width, length = chosen.uniform(1225, 1380), chosen.uniform(850, 1200)
        at, real = chosen.uniform(1130, 1480), strips(width, length)
        found = told(real, (1130, 1480), at)
        held += found is not None and found.low <= real(at) <= found.high
    assert held >= 360


def test_one_charted_width_tells_less_than_two() -> None:
    legs = strips(1330, 1050)
    one, two = told(legs, (1480,), 1300), told(legs, (1130, 1480), 1300)
    assert one is not None
    assert two is not None
    assert one.high - one.low > two.high - two.low


def test_a_chart_that_speaks_of_something_else_is_not_believed() -> None:
    """1 m at 113 cm and 3 m at 148 cm: no cloth needs more where it is wider."""
    drafted = strips(1300, 1000)
    upside_down = [cell(1130, 1000), cell(1480, 3000)]
    assert guess(upside_down, lambda _: drafted, drafted, 1300) is None


def test_nothing_is_said_where_the_block_is_wider_than_the_cloth() -> None:
    found = guess([cell(1130, 2000)], lambda _: strips(1300, 1000), lambda _: None, 300)
    assert found is None


def question(of: Pattern, width: float, size: str = "M", **changes: object) -> Question:
    base = Question(
        make=make(size=size),
        pattern=of,
        role=Role.MAIN,
        width=cm(width - 2),
        nap=True,
        label=cm(width),
    )
    return replace(base, **changes)  # type: ignore[arg-type]


def test_trousers_without_their_pieces() -> None:
    """The sample's pull-on trousers, their pieces hidden, against a lay of the pieces."""
    kept = next(
        p for p in read_stash_folder(sample_dir()).patterns if p.kind is Kind.TROUSERS_ELASTIC
    )
    case, needs = Case(kept, "", "S"), Needs(Book())
    hidden = charted(case, (115, 150), needs)
    assert hidden is not None
    for width in (132, 140):
        truth = needs.answer(case.question(width)).length
        said = needs.answer(case.question(width, hidden))
        assert said.sureness is Sureness.ESTIMATED
        assert truth is not None
        assert said.low is not None
        assert said.high is not None
        assert said.low <= truth <= said.high
        assert said.length == said.high
        assert said.high < Length.from_mm(1900)  # what the chart says at 115 cm


def _once() -> Laid:
    """Every lay worked out once."""
    book: dict[str, float] = {}

    def laid(problem: Problem, kind: LayKind | None) -> float:
        key = problem_key(problem, kind, 1)
        if key not in book:
            book[key] = solve(problem, kind=kind).need
        return book[key]

    return laid


SKIRT_IN_PRINT = next(garment for garment in GARMENTS if garment.name == "skirt, A-line")


def test_amounts_in_print_are_met_by_a_block() -> None:
    """The trade chart quoted in `chart_cells`: an A-line skirt, within one step of 1/8 yd."""
    assert reproduced(SKIRT_IN_PRINT, _once()).good


def test_amounts_in_print_are_met_by_the_largest_size_unscaled() -> None:
    """Folded and with nap, as most home layouts lie; five other garments miss: `chart_cells`."""
    largest = Convention("20", nap=True, kind=LayKind.FOLDED)
    assert all(abs(math.ceil(steps)) <= 1 for steps in largest.off(SKIRT_IN_PRINT, _once()))


SKIRT = replace(
    pattern(Kind.SKIRT_STRAIGHT),
    pieces=(),
    charts=(
        ChartRow(size="M", width=cm(115), amount=cm(150), with_nap=True),
        ChartRow(size="M", width=cm(150), amount=cm(90), with_nap=True),
    ),
)


def test_lays_wanted_are_all_an_answer_takes() -> None:
    """Once they are kept, on a flawed cloth too, nothing more is laid out."""
    flawed = question(SKIRT, 132, outline=((0, 0), (2500, 0), (2500, 1200), (0, 1100)))
    book = Book()
    asked = (question(SKIRT, 132), flawed)
    while wanted := missing_problems(asked, book):
        for one in wanted:
            book.put(one.key, solve(one.problem, kind=one.kind))
    kept = set(book.lays)
    needs = Needs(book)
    plain, remnant = (needs.answer(each) for each in asked)
    assert set(book.lays) == kept
    assert plain.likely is not None
    assert remnant.likely is not None
    assert {plain.sureness, remnant.sureness} == {Sureness.ESTIMATED}
    # What is drawn of it is a lay of about the likely length.
    stood = stood_in(asked[0])
    assert stood is not None
    shown = stood.likely(lambda problem, kind: book.lays[problem_key(problem, kind, 1)].need)
    assert shown is not None
    assert solve(shown).need == pytest.approx(plain.likely.mm, rel=0.06)


def test_a_charted_width_keeps_the_charts_own_amount() -> None:
    found = Needs(Book()).answer(question(SKIRT, 150))
    assert (found.sureness, found.length) == (Sureness.CHARTED, cm(90))


QUARTER = Length.from_inches(9)
BLOUSE = replace(
    pattern(Kind.BLOUSE),
    pieces=(),
    charts=(
        ChartRow(size="M", width=Length.from_inches(45), amount=Length.from_inches(81)),
        ChartRow(size="M", width=Length.from_inches(60), amount=Length.from_inches(58.5)),
        ChartRow(size="M", width=cm(140), amount=cm(155)),
    ),
)


@pytest.mark.parametrize(("width", "plain"), [(114.3, 205.74), (115, 205.74), (140, 155)])
def test_a_chart_without_nap_takes_a_quarter_yard_more_with(width: float, plain: float) -> None:
    """The width chart's printed note: 1/4 yd more for one-directional cloth, whatever a block
    would take."""
    needs = Needs(Book())
    found = needs.answer(question(BLOUSE, width))
    assert (found.length, found.low) == (cm(plain) + QUARTER, cm(plain))
    assert found.sureness is Sureness.ESTIMATED
    without = needs.answer(question(BLOUSE, width, nap=False))
    assert (without.length, without.sureness) == (cm(plain), Sureness.CHARTED)


def test_a_rounded_amount_without_nap_takes_both_additions() -> None:
    row = ChartRow(size="M", width=cm(140), amount=cm(150), rounded=True)
    found = Needs(Book()).answer(question(replace(BLOUSE, charts=(row,)), 140))
    assert found.length == cm(155) + QUARTER


def test_an_amount_said_with_nap_stands_beside_one_without() -> None:
    said = ChartRow(size="M", width=Length.from_inches(45), amount=cm(240), with_nap=True)
    both = replace(BLOUSE, charts=(*BLOUSE.charts, said))
    found = Needs(Book()).answer(question(both, 115))
    assert (found.length, found.sureness) == (cm(240), Sureness.CHARTED)


def test_an_estimate_with_nap_is_no_less_than_the_chart_with_its_addition() -> None:
    """Between columns: at most as on the next narrower, no less than on the next wider."""
    needs = Needs(Book())
    for width, wider, narrower in ((132, 155, 205.74), (150, 148.59, 155)):
        found = needs.answer(question(BLOUSE, width))
        assert found.likely is not None
        assert found.high is not None
        assert cm(wider) + QUARTER <= found.high <= cm(narrower) + QUARTER
        assert found.low is not None
        assert found.low <= found.likely <= found.high


def test_a_kind_without_block_takes_the_narrower_column() -> None:
    bag = replace(SKIRT, kind=Kind.BAG)
    found = Needs(Book()).answer(question(bag, 140))
    assert (found.sureness, found.length, found.likely) == (Sureness.ESTIMATED, cm(150), None)


REMNANTS = [
    ((0.0, 0.0), (900.0, 0.0), (900.0, 600.0), (0.0, 640.0)),
    ((0.0, 0.0), (4000.0, 0.0), (4000.0, 100.0), (0.0, 100.0)),
]
"""Too short, and far too narrow, for anything like a skirt."""


@pytest.mark.parametrize("outline", REMNANTS)
@pytest.mark.parametrize("kind", [SKIRT.kind, Kind.BAG])
def test_a_chart_is_not_believed_on_a_remnant(kind: Kind, outline: Ring) -> None:
    """A chart speaks of cloth of its full width for its full length (common practice)."""
    asked = replace(question(replace(SKIRT, kind=kind), 150), outline=outline)
    assert Needs(Book()).answer(asked).length is None


def test_a_chart_without_block_holds_up_to_the_first_flaw() -> None:
    asked = question(replace(SKIRT, kind=Kind.BAG), 150)
    plain = Needs(Book()).answer(asked)
    assert plain.length == cm(90)
    beyond, within = (replace(asked, spots=(Spot(x, 700, 30),)) for x in (931, 929))
    assert Needs(Book()).answer(beyond) == plain
    assert Needs(Book()).answer(within).sureness is Sureness.UNKNOWN
    patch = ((929.0, 0.0), (899.0, 9.0), (940.0, 9.0))
    assert Needs(Book()).answer(replace(asked, patches=(patch,))).length is None


@pytest.mark.parametrize(
    ("left", "verdict"),
    [(170, Verdict.SHORT), (190, Verdict.UNKNOWN), (211, Verdict.CLOSE), (220, Verdict.FITS)],
)
def test_a_verdict_shows_the_range(left: float, verdict: Verdict) -> None:
    """1.8 to 2.1 m: surely short, perhaps enough, enough, enough and 5 cm to spare."""
    need = Need(
        length=cm(210), sureness=Sureness.ESTIMATED, why="", low=cm(180), likely=cm(195),
        high=cm(210),
    )  # fmt: skip
    one = cloth(left=cm(left))
    found = pair(make(), pattern(), Role.MAIN, one, one.left, Known(need), SETTINGS)
    assert found.verdict is verdict
    said = next(reason.sentence for reason in found.reasons if reason.factor == "length")
    assert "1.80 m at least" in said
    assert "1.95 m" in said
