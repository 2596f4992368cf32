"""Lays drawn in terminal cells."""

from __future__ import annotations

from itertools import pairwise

import pytest

from stash.config import System
from stash.lay.problem import LayKind
from stash.lay.result import Bound, Lay, Placement
from stash.report.cell_sheet import line_dots, spans
from stash.report.lay_cells import draw_lay
from stash.report.lay_frame import MARGIN


def lay(kind: LayKind = LayKind.OPEN) -> Lay:
    """One piece of 1000 x 500 mm at the start of 1000 mm of cloth 1000 mm wide."""
    ring = ((0.0, 0.0), (1000.0, 0.0), (1000.0, 500.0), (0.0, 500.0))
    folds = {LayKind.FOLDED: (500.0,), LayKind.GATE: (200.0, 700.0)}.get(kind, ())
    return Lay(
        kind=kind,
        width=1000.0,
        nap=False,
        need=1000.0,
        placements=(Placement(0, "sleeve", 0, ring, 0, mirrored=False),),
        folds=folds,
        cross_fold=500.0 if kind is LayKind.CROSSWAYS else None,
        folded_to=0.0 if kind is LayKind.OPEN else 1000.0,
        utilisation=0.5,
        bound=Bound(1000.0, "longest piece"),
        solver="by hand",
        seed=1,
        seconds=0.0,
        checked=True,
    )


@pytest.mark.parametrize("size", [(80, 20), (60, 40), (200, 30)], ids=str)
def test_it_fits_its_room_and_keeps_its_proportions(size: tuple[int, int]) -> None:
    drawing = draw_lay(lay(), *size, System.METRIC)
    assert len(drawing.rows) <= size[1]
    assert max(len(row) for row in drawing.rows) <= size[0]
    filled = [sum(cell.fill == 0 for cell in row) for row in drawing.rows]
    rows = sum(count > 0 for count in filled)
    # Twice as long as wide, and a cell is twice as high as wide: four columns for a row.
    assert max(filled) / rows == pytest.approx(4, abs=0.7)


def test_the_name_and_the_grain_stand_in_the_piece() -> None:
    texts = [
        "".join(cell.char for cell in row) for row in draw_lay(lay(), 80, 24, System.METRIC).rows
    ]
    assert sum("sleeve →" in text for text in texts) == 1


def test_a_name_that_does_not_fit_becomes_a_number() -> None:
    drawing = draw_lay(lay(), MARGIN + 12, 7, System.METRIC)
    assert "1 sleeve" in drawing.legend


@pytest.mark.parametrize(
    ("kind", "count"),
    [(LayKind.OPEN, 0), (LayKind.FOLDED, 1), (LayKind.GATE, 2), (LayKind.CROSSWAYS, 0)],
)
def test_every_lengthwise_fold_is_marked(kind: LayKind, count: int) -> None:
    rows = draw_lay(lay(kind), 80, 24, System.METRIC).rows
    texts = ["".join(cell.char for cell in row) for row in rows]
    assert [text.startswith("fold") for text in texts].count(True) == count
    # The second fold of the gate lay lies where there is no piece: its line can be seen.
    assert any("╌" in text for text in texts) == (kind is LayKind.GATE)


def test_the_fold_across_the_cloth_is_marked_at_its_place() -> None:
    rows = draw_lay(lay(LayKind.CROSSWAYS), 80, 24, System.METRIC).rows
    texts = ["".join(cell.char for cell in row) for row in rows]
    edge = next(text for text in texts if "fold" in text)
    place = edge.index("╪") - MARGIN
    assert place / (len(edge) - MARGIN - 1) == pytest.approx(0.5, abs=0.03)
    free = [text for text in texts if "╎" in text]
    assert free
    assert {text.index("╎") - MARGIN for text in free} == {place}


def test_the_ruler_counts_in_the_units_of_the_person() -> None:
    for system, sign in ((System.METRIC, "0 cm"), (System.IMPERIAL, "0 in")):
        top = "".join(cell.char for cell in draw_lay(lay(), 120, 40, system).rows[0])
        assert sign in top


def test_spans_of_a_notched_outline() -> None:
    ring = (
        (0.0, 0.0),
        (10.0, 0.0),
        (10.0, 10.0),
        (6.0, 10.0),
        (6.0, 4.0),
        (4.0, 4.0),
        (4.0, 10.0),
        (0.0, 10.0),
    )
    assert spans(ring, 7.0) == [(0.0, 4.0), (6.0, 10.0)]
    assert spans(ring, 2.0) == [(0.0, 10.0)]


def test_a_line_has_no_gaps() -> None:
    dots = line_dots((0.0, 0.0), (7.0, 19.0))
    steps = pairwise(dots)
    assert all(abs(a[0] - b[0]) <= 1 and abs(a[1] - b[1]) <= 1 for a, b in steps)
