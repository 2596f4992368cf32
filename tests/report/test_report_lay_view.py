"""Parts of a lay drawn larger in cells, and the marks of the cloth: flaws, folds, repeat."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stash.config import System
from stash.lay.problem import LayKind, Problem, Repeat, Shape, Spot
from stash.lay.result import Bound, Lay, Placement
from stash.report.cell_sheet import NONE
from stash.report.lay_cells import FLAW, Drawing, arrow, draw_lay
from stash.report.lay_frame import MARGIN, View, frame_of, seen
from stash.report.lay_marks import (
    Stretch,
    cut_words,
    end_of_layers,
    flaws_of,
    folds_of,
    layer_edges,
    repeat_lines,
)

HALF = ((0.0, 0.0), (600.0, 0.0), (600.0, 500.0), (0.0, 500.0))
PIECE = Placement(0, "sleeve", 1, HALF, 0, mirrored=False)
OPEN = Lay(
    kind=LayKind.OPEN,
    width=1400.0,
    nap=False,
    need=2000.0,
    placements=(PIECE,),
    folds=(),
    cross_fold=None,
    folded_to=0.0,
    utilisation=0.1,
    bound=Bound(600.0, "longest piece"),
    solver="by hand",
    seed=1,
    seconds=0.0,
    checked=True,
)
SHAPES = (Shape("sleeve", HALF, copies=2),)
PLAIN = Problem(SHAPES, 1400.0)


def lines(drawing: Drawing) -> list[str]:
    return ["".join(cell.char for cell in row) for row in drawing.rows]


@pytest.mark.parametrize("size", [(78, 14), (118, 30)], ids=str)
def test_a_larger_drawing_keeps_to_the_screen(size: tuple[int, int]) -> None:
    for times in (1.0, 1.5, 2.0, 4.0, 8.0):
        drawing = draw_lay(OPEN, *size, System.METRIC, view=View(times, 500.0, 300.0))
        assert len(drawing.rows) <= size[1]
        assert max(map(len, lines(drawing))) <= size[0] + 2  # the last number of the ruler


@given(
    st.floats(1.0, 8.0),
    st.floats(0.0, 5000.0),
    st.floats(0.0, 5000.0),
    st.integers(30, 140),
    st.integers(10, 50),
)
@settings(deadline=None)
def test_what_is_seen_never_leaves_the_cloth(
    times: float, x: float, y: float, columns: int, rows: int
) -> None:
    frame = frame_of(OPEN, columns, rows, View(times, x, y))
    cell = 4 * frame.dot
    assert frame.left >= 0
    assert frame.left + frame.wide <= OPEN.need + cell
    assert frame.top >= 0
    assert frame.top + frame.high <= OPEN.width + cell


def test_every_part_can_be_reached_and_says_where_it_is() -> None:
    """Far to the right and down the view ends with the cloth; the ruler says 200 cm by 140 cm."""
    end = draw_lay(OPEN, 78, 14, System.METRIC, view=View(4.0, 9e9, 9e9)).frame
    assert end.beyond == (True, False, True, False)
    words = seen(end, System.METRIC)
    assert words.endswith("–140 of 140 cm across")
    assert "–200 of 200 cm along" in words
    assert (
        seen(frame_of(OPEN, 78, 14), System.IMPERIAL) == "0–79 of 79 in along, 0–55 of 55 in across"
    )


def test_the_ruler_moves_with_the_view() -> None:
    drawing = draw_lay(OPEN, 78, 14, System.METRIC, view=View(3.0, 1000.0, 600.0))
    top = lines(drawing)[0]
    frame = drawing.frame
    numbers = [int(word) for word in top.replace("cm", "").split()]
    assert numbers[0] * 10 >= frame.left - 1e-6
    assert numbers[-1] * 10 <= frame.left + frame.wide
    for number in numbers:  # each stands where its millimetres lie
        column = top.index(str(number)) - MARGIN
        assert column == pytest.approx((number * 10 - frame.left) / frame.dot / 2, abs=0.51)


def test_arrows_at_the_edges_say_where_the_cloth_goes_on() -> None:
    whole = "".join(lines(draw_lay(OPEN, 78, 14, System.METRIC)))
    assert not set("◂▸▴▾") & set(whole)
    part = "".join(lines(draw_lay(OPEN, 78, 14, System.METRIC, view=View(4.0, 400.0, 500.0))))
    assert set("◂▸▴▾") <= set(part)


def test_a_piece_outside_the_view_is_not_drawn() -> None:
    drawing = draw_lay(OPEN, 78, 14, System.METRIC, view=View(4.0, 1400.0, 900.0))
    assert {cell.fill for row in drawing.rows for cell in row} == {NONE}
    assert "sleeve" not in "".join(lines(drawing))


def test_flaws_are_marked_round_ones_and_those_with_corners() -> None:
    patch = ((1500.0, 1000.0), (1900.0, 1000.0), (1900.0, 1300.0))
    problem = replace(PLAIN, spots=(Spot(1000.0, 700.0, 10.0),), patches=(patch,))
    drawing = draw_lay(OPEN, 78, 24, System.METRIC, problem=problem)
    frame = drawing.frame
    places = {
        (row - 3, column - MARGIN)
        for row, cells in enumerate(drawing.rows)
        for column, cell in enumerate(cells)
        if cell.char == FLAW
    }
    # A spot smaller than a cell still shows; the triangle fills about its own area.
    assert (frame.row(700.0), frame.column(1000.0)) in places
    area = (len(places) - 1) * 8 * frame.dot**2
    assert area == pytest.approx(400 * 300 / 2, rel=0.35)
    assert f"{FLAW} flaw" in drawing.legend
    assert not any(FLAW in word for word in draw_lay(OPEN, 78, 24, System.METRIC).legend)


def test_a_fold_over_part_of_the_width_shows_where_the_selvedge_comes_to() -> None:
    """Folded in at 40 cm the selvedge lies at 80 cm; folded in the middle it lies on the other."""
    part = replace(OPEN, kind=LayKind.FOLDED, folds=(400.0,), folded_to=1500.0)
    assert folds_of(part) == (Stretch(0.0, 400.0, 1500.0, 400.0),)
    assert layer_edges(part) == (Stretch(0.0, 800.0, 1500.0, 800.0),)
    assert end_of_layers(part) == Stretch(1500.0, 0.0, 1500.0, 1400.0)
    assert layer_edges(replace(part, folds=(700.0,))) == ()
    gate = replace(part, kind=LayKind.GATE, folds=(200.0, 900.0))  # 400 and 1000 of 1400 mm
    assert layer_edges(gate) == (Stretch(0.0, 400.0, 1500.0, 400.0),)
    drawing = draw_lay(part, 78, 24, System.METRIC, problem=PLAIN)
    assert drawing.legend[-2:] == ("┄ selvedge", "┊ single layer beyond")
    text = lines(drawing)
    assert any("┄" in line for line in text)
    assert any("┊" in line for line in text)


def test_an_open_lay_has_no_marks_of_folds() -> None:
    assert folds_of(OPEN) == ()
    assert layer_edges(OPEN) == ()
    assert end_of_layers(OPEN) is None


def test_lines_of_a_stripe_run_across_at_every_repeat() -> None:
    problem = replace(PLAIN, repeat=Repeat(300.0))
    found = repeat_lines(replace(OPEN, repeat_at=100.0), problem)
    assert [line.x1 for line in found] == [100.0, 400.0, 700.0, 1000.0, 1300.0, 1600.0, 1900.0]
    assert all((line.x1, line.y1, line.y2) == (line.x2, 0.0, 1400.0) for line in found)
    assert repeat_lines(OPEN, problem) == ()  # nothing has to match


def test_columns_of_a_half_drop_are_shifted_by_half_a_repeat() -> None:
    """Columns 40 cm apart, one in the middle at 70 cm: those at 30 and 110 cm are shifted."""
    problem = replace(PLAIN, repeat=Repeat(200.0, 400.0, half_drop=True))
    found = repeat_lines(replace(OPEN, repeat_at=0.0), problem)
    across = [line for line in found if line.x1 == line.x2]
    middle = {line.x1 for line in across if line.y1 < 700.0 < line.y2}
    beside = {line.x1 for line in across if line.y1 < 300.0 < line.y2}
    assert middle == {200.0 * i for i in range(11)}
    assert beside == {100.0 + 200.0 * i for i in range(10)}
    along = sorted(line.y1 for line in found if line.y1 == line.y2)
    assert along == [300.0, 700.0, 1100.0]


def test_a_piece_says_how_often_it_is_cut() -> None:
    assert cut_words(PIECE, OPEN, PLAIN) == "cut 2"
    assert cut_words(replace(PIECE, waste=True), OPEN, PLAIN) == "not needed"
    single = replace(PLAIN, shapes=(Shape("back", HALF, on_fold=True),))
    whole = replace(PIECE, on_fold=True, polygon=((0, 400), (600, 400), (600, 1000), (0, 1000)))
    folded = replace(OPEN, kind=LayKind.FOLDED, folds=(700.0,), folded_to=2000.0)
    assert cut_words(whole, folded, single) == "cut 1 on fold"
    assert cut_words(whole, OPEN, single) == "cut 1 opened out"


def test_round_flaws_keep_their_size() -> None:
    (ring,) = flaws_of(replace(PLAIN, spots=(Spot(100.0, 200.0, 30.0),)))
    assert max(x for x, _ in ring) == pytest.approx(130.0)
    assert min(y for _, y in ring) == pytest.approx(170.0, abs=0.5)


def test_a_piece_a_little_off_grain_keeps_its_arrow() -> None:
    turns = (0, 3, 90, 177, 270, 357, 45)
    assert [arrow(replace(PIECE, turn=turn)) for turn in turns] == list("→→↓←↑→↘")
