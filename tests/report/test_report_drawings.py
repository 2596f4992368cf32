"""Lays drawn to scale: as SVG, in cells, and as text that keeps its width."""

from __future__ import annotations

import math
from dataclasses import replace
from math import remainder
from typing import TYPE_CHECKING
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon

from stash.config import System
from stash.garment.pattern import Grain, Piece, Role
from stash.lay.problem import LayKind, Problem, Repeat, Shape, Spot
from stash.lay.solve import solve
from stash.pairing.shapes import shapes_of
from stash.report.cell_sheet import NONE, spans
from stash.report.ink import contrast, ink_on, tint
from stash.report.lay_cells import draw_lay
from stash.report.lay_labels import label_of
from stash.report.lay_marks import cut_words, match_points
from stash.report.lay_svg import lay_svg
from stash.report.lay_text import lay_text
from stash.services.laying import lay_make
from stash.units.format_length import Measure, show_length
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.lay.result import Lay
    from stash.report.records import LaidOut
    from stash.services.stash import Stash

SVG = "{http://www.w3.org/2000/svg}"
colours = st.from_regex(r"#[0-9a-f]{6}", fullmatch=True)


def test_contrast_is_that_of_wcag() -> None:
    """Black on white is 21 and a colour on itself 1 (WCAG 2.1); #767676 on white just passes
    4.5 (its own example)."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#123456", "#123456") == 1
    assert 4.5 <= contrast("#767676", "#ffffff") < 4.6


@given(colours)
def test_words_are_readable_on_every_cloth(colour: str) -> None:
    assert contrast(ink_on(colour), colour) >= 4.5  # AA of WCAG 2.1
    assert contrast(ink_on(tint(colour, 0.72)), tint(colour, 0.72)) >= 7


def test_the_drawing_is_at_true_scale(laid: LaidOut, lay: Lay) -> None:
    root = ElementTree.fromstring(lay_svg(laid, lay, System.METRIC))
    _, _, wide, high = (float(part) for part in root.get("viewBox", "").split())
    assert root.get("width") == f"{wide:.1f}mm"  # one unit is one millimetre
    assert root.get("height") == f"{high:.1f}mm"
    drawn = [shape.get("points", "") for shape in root.iter(f"{SVG}polygon")]
    assert len(drawn) == len(lay.placements)
    for points, placement in zip(drawn, lay.placements, strict=True):
        corners = [tuple(float(part) for part in pair.split(",")) for pair in points.split()]
        assert corners == [pytest.approx(point, abs=0.006) for point in placement.polygon]


def test_the_drawing_has_all_its_marks(laid: LaidOut, lay: Lay) -> None:
    root = ElementTree.fromstring(lay_svg(laid, lay, System.IMPERIAL))
    marks = [node.get("class") for node in root.iter() if node.get("class")]
    assert marks.count("selvedge") == 2
    assert marks.count("grain") == marks.count("piece") == len(lay.placements)
    assert "fold" in marks
    assert marks.count("tick") == int(lay.need / 114.3) + 1  # every eighth of a yard
    words = [node.text for node in root.iter(f"{SVG}text")]
    assert "front 1/2" in words
    assert "back 2/2" in words


@pytest.mark.parametrize(("kind", "count"), [(LayKind.GATE, 2), (LayKind.CROSSWAYS, 1)])
def test_every_fold_is_drawn_where_it_lies(small: Stash, kind: LayKind, count: int) -> None:
    laid = lay_make(small, "rain", cloth="olive", kind=kind)
    assert laid.lay is not None
    root = ElementTree.fromstring(lay_svg(laid, laid.lay, System.METRIC))
    lines = [line for line in root.iter(f"{SVG}line") if line.get("class") == "fold"]
    assert len(lines) == count
    axis = "y" if kind is LayKind.GATE else "x"
    drawn = [float(line.get(f"{axis}{end}", "")) for line in lines for end in (1, 2)]
    wanted = laid.lay.folds if kind is LayKind.GATE else (laid.lay.cross_fold,)
    assert drawn == [pytest.approx(place, abs=0.006) for place in wanted for _ in (1, 2)]


def test_what_people_type_cannot_break_the_drawing(laid: LaidOut, lay: Lay) -> None:
    name = '<b>"Anna\'s" & Töchter</b>'
    placements = tuple(replace(p, name=name) for p in lay.placements)
    named = replace(laid, title=name)
    root = ElementTree.fromstring(
        lay_svg(named, replace(lay, placements=placements), System.METRIC)
    )
    assert root.findtext(f"{SVG}title") == name
    assert {group.get("data-name") for group in root.iter(f"{SVG}g")} - {None} == {name}


def test_flaws_are_drawn(laid: LaidOut, lay: Lay) -> None:
    assert laid.problem is not None
    spotted = replace(laid, problem=replace(laid.problem, spots=(Spot(100, 200, 30),)))
    root = ElementTree.fromstring(lay_svg(spotted, lay, System.METRIC))
    (circle,) = root.iter(f"{SVG}circle")
    assert [float(circle.get(key, "")) for key in ("cx", "cy", "r")] == [100, 200, 30]


def test_flaws_with_corners_and_the_shape_of_a_remnant_are_drawn(laid: LaidOut, lay: Lay) -> None:
    assert laid.problem is not None
    patch = ((100.0, 200.0), (160.0, 200.0), (130.0, 260.0))
    remnant = ((0.0, 0.0), (900.0, 0.0), (800.0, 1000.0), (0.0, 1000.0))
    problem = replace(laid.problem, patches=(patch,), outline=remnant)
    root = ElementTree.fromstring(lay_svg(replace(laid, problem=problem), lay, System.METRIC))
    assert ring_of(root, "flaw") == list(patch)
    assert ring_of(root, "remnant") == list(remnant)
    assert not [node for node in root.iter() if node.get("class") in ("cloth", "selvedge")]


def test_notches_stand_in_every_copy(laid: LaidOut) -> None:
    """Turned, mirrored and opened-out copies: each mark begins on the edge of its copy, as far
    from every corner as the notch is in the outline, and runs into it (judged by shapely)."""
    sleeve = Piece(
        name="sleeve",
        outline=((0, 0), (310, 0), (260, 140), (40, 200)),
        copies=2,
        grain=Grain.CROSSWISE,
        notches=((100, 0), (285, 70), (40, 200)),
    )
    back = Piece(
        name="back",
        outline=((0, 0), (500, 0), (480, 170), (30, 210)),
        on_fold=True,
        notches=((490, 85), (500, 0)),
    )
    plain = Piece(name="pocket", outline=((0, 0), (120, 0), (120, 100), (0, 110)))
    pieces = (sleeve, back, plain)
    problem = Problem(shapes_of(pieces, meets_print=False), 700)
    lay = solve(problem)
    assert any(p.mirrored for p in lay.placements)
    assert any(p.turn in (90, 270) for p in lay.placements)
    pattern = replace(laid.pattern, pieces=pieces)
    cut = replace(laid, pattern=pattern, problem=problem, role=Role.MAIN)
    root = ElementTree.fromstring(lay_svg(cut, lay, System.METRIC))
    drawn = [line for line in root.iter(f"{SVG}line") if line.get("class") == "notch"]
    ticks = [tuple(float(n.get(key, "")) for key in ("x1", "y1", "x2", "y2")) for n in drawn]
    # Both halves of the back have the notch at its side; that at the fold is one.
    assert len(ticks) == 2 * 3 + 2 + 1
    for placement in lay.placements:
        solid, piece = Polygon(placement.polygon), pieces[placement.shape]
        own = [t for t in ticks if solid.exterior.distance(Point(t[:2])) <= 0.02]
        own = [t for t in own if solid.buffer(0.02).covers(LineString([t[:2], t[2:]]))]
        assert all(math.dist(t[:2], t[2:]) == pytest.approx(8, abs=0.02) for t in own)
        corners = {*piece.outline, *((x, -y) for x, y in piece.outline if piece.on_fold)}
        for notch in piece.notches:
            wanted = sorted(math.dist(notch, corner) for corner in corners)
            alike = [
                t
                for t in own
                if wanted == pytest.approx(_far(t[:2], placement.polygon, len(corners)), abs=0.02)
            ]
            assert len(alike) == (2 if piece.on_fold and notch[1] > 0 else 1)
    assert problem == Problem(
        shapes_of([replace(p, notches=()) for p in pieces], meets_print=False), 700
    )


def test_notches_are_seen_in_the_terminal(laid: LaidOut) -> None:
    """One at the side of a piece cut twice, and told what the sign means; none, nothing said."""
    front = Piece(
        name="front", outline=((0, 0), (600, 0), (600, 300), (0, 300)), notches=((150, 300),)
    )
    for piece, marks in ((replace(front, copies=2), 2), (replace(front, notches=()), 0)):
        problem = Problem(shapes_of((piece,), meets_print=False), 700)
        cut = replace(
            laid,
            pattern=replace(laid.pattern, pieces=(piece,)),
            problem=problem,
            lay=solve(problem),
            role=Role.MAIN,
        )
        rows = lay_text(cut, System.METRIC, 80, 24).splitlines()
        assert sum(row.count("◆") for row in rows if "◆ notch" not in row) == marks
        assert ("◆ notch" in rows) is bool(marks)


def _far(
    place: tuple[float, ...], corners: tuple[tuple[float, float], ...], count: int
) -> list[float]:
    found = sorted(math.dist(place, corner) for corner in corners)
    return found if len(found) == count else []


def test_a_piece_off_grain_says_by_how_much() -> None:
    piece = Shape("flap", ((0, 0), (300, 0), (300, 100), (0, 100)), tolerance=5)
    problem = Problem((piece,), 700)
    lay = solve(problem)
    [placed] = lay.placements
    assert cut_words(placed, lay, problem) == "cut 1"
    for turn in (3, 183, 357, 177):
        assert cut_words(replace(placed, turn=turn), lay, problem) == "cut 1, 3° off grain"


def test_the_repeat_is_drawn_lightly_where_the_lay_says(laid: LaidOut, lay: Lay) -> None:
    assert laid.problem is not None
    striped = replace(laid, problem=replace(laid.problem, repeat=Repeat(250.0)))
    root = ElementTree.fromstring(lay_svg(striped, replace(lay, repeat_at=40.0), System.METRIC))
    lines = [line for line in root.iter(f"{SVG}line") if line.get("class") == "repeat"]
    places = [float(line.get("x1", "")) for line in lines]
    assert places == [40.0 + 250.0 * i for i in range(len(places))]
    assert places[-1] <= lay.need < places[-1] + 250.0
    assert all(float(line.get("stroke-opacity", "")) < 0.5 for line in lines)


def test_a_fold_over_part_of_the_width_shows_the_folded_in_selvedge(
    laid: LaidOut, lay: Lay
) -> None:
    part = replace(lay, folds=(300.0,))
    root = ElementTree.fromstring(lay_svg(laid, part, System.METRIC))
    (edge,) = [line for line in root.iter(f"{SVG}line") if line.get("class") == "layer-edge"]
    assert (edge.get("y1"), edge.get("y2")) == ("600.00", "600.00")
    assert "folded-in selvedge" in [node.text for node in root.iter(f"{SVG}text")]


def test_pieces_say_how_often_they_are_cut(laid: LaidOut, lay: Lay) -> None:
    root = ElementTree.fromstring(lay_svg(laid, lay, System.METRIC))
    groups = [group for group in root.iter(f"{SVG}g") if group.get("class") == "words"]
    words = [[node.text for node in group.iter(f"{SVG}text")] for group in groups]
    assert len(words) == len(lay.placements)
    assert all(texts[1] == "cut 2" for texts in words)


def test_the_ruler_across_counts_the_usable_width(laid: LaidOut, lay: Lay) -> None:
    for system, step in ((System.METRIC, 100.0), (System.IMPERIAL, 114.3)):
        root = ElementTree.fromstring(lay_svg(laid, lay, system))
        ticks = [n for n in root.iter(f"{SVG}line") if n.get("class") == "tick-across"]
        assert len(ticks) == int(lay.width / step) + 1
        assert [float(n.get("y1", "")) for n in ticks] == [
            pytest.approx(step * i, abs=0.06) for i in range(len(ticks))
        ]


def ring_of(root: ElementTree.Element, name: str) -> list[tuple[float, ...]]:
    """The corners of the one polygon of this class."""
    (shape,) = [node for node in root.iter(f"{SVG}polygon") if node.get("class") == name]
    pairs = shape.get("points", "").split()
    return [tuple(float(part) for part in pair.split(",")) for pair in pairs]


def test_words_in_an_l_stand_in_its_foot() -> None:
    label = label_of(
        ((0, 0), (10, 0), (10, 80), (200, 80), (200, 120), (0, 120)), ("l", "cut 1"), 0
    )
    assert not label.upright
    assert 80 < label.name[1] < label.second[1] < label.grain[1] < 120
    assert 10 < label.grain[0] - label.half < label.grain[0] + label.half < 200


@given(
    wide=st.floats(40, 90),
    high=st.floats(300, 600),
    words=st.tuples(st.text("abcd ", min_size=8, max_size=16), st.just("cut 2 opened out")),
)
def test_words_of_a_tall_narrow_piece_stand_upright_within_it(
    wide: float, high: float, words: tuple[str, str]
) -> None:
    """A letter is about 0.6 of its height wide (the usual sans serif, from memory)."""
    label = label_of(((0, 0), (wide, 0), (wide, high), (0, high)), words, 0)
    assert label.upright
    assert label.size >= 6
    reach = 0.6 * max(label.size * len(words[0]), label.small * len(words[1])) / 2
    assert 0 < label.name[1] - reach < label.name[1] + reach < high
    assert label.size * 0.75 < label.name[0] < label.second[0] < wide
    # The grain line runs level across it, clear of the words.
    assert 0 < label.grain[0] - label.half < label.grain[0] + label.half < wide
    assert label.grain[1] < label.name[1] - reach


def test_the_header_tells_the_bound_and_what_is_needed_beyond_the_drawing(
    laid: LaidOut, lay: Lay
) -> None:
    longer = replace(laid, need=replace(laid.need, length=Length.from_mm(lay.need + 500)))
    root = ElementTree.fromstring(lay_svg(longer, lay, System.METRIC))
    words = [node.text or "" for node in root.iter(f"{SVG}text")]
    assert any(line.startswith("Cannot be shorter than") for line in words)
    [told] = [line for line in words if line.startswith("Needed in all")]
    assert show_length(Length.from_mm(lay.need + 500), System.METRIC, Measure.NEED) in told
    _, _, wide, _ = (float(part) for part in root.get("viewBox", "").split())
    assert all(0.55 * 16 * len(line) < wide for line in words)


def test_points_that_meet_the_print_are_marked() -> None:
    piece = Shape("panel", ((0, 0), (400, 0), (400, 300), (0, 300)), copies=2, match=(100.0, 150.0))
    problem = Problem((piece,), 700, repeat=Repeat(250.0))
    lay = solve(problem)
    points = match_points(lay, problem)
    assert len(points) == 2
    assert lay.repeat_at is not None
    for x, _ in points:
        assert remainder(x - lay.repeat_at, 250) == pytest.approx(0, abs=0.05)
    inside = [Polygon(p.polygon).contains(Point(q)) for p in lay.placements for q in points]
    assert inside.count(True) == 2


def test_cells_are_to_scale(lay: Lay) -> None:
    drawing = draw_lay(lay, 80, 24, System.METRIC)
    assert len(drawing.rows) <= 24
    assert max(len(row) for row in drawing.rows) <= 88
    body = [row for row in drawing.rows if any(cell.fill != NONE for cell in row)]
    filled = sum(cell.fill != NONE for row in body for cell in row)
    cells = sum(len(row) - 8 for row in body)
    assert filled / cells == pytest.approx(lay.utilisation, abs=0.08)
    assert {cell.fill for row in body for cell in row} - {NONE} == set(range(len(lay.placements)))


def test_spans_of_a_square_and_of_a_notch() -> None:
    square = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))
    assert spans(square, 2) == [(0.0, 4.0)]
    notched = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (2.0, 1.0), (0.0, 4.0))
    assert len(spans(notched, 3)) == 2


@pytest.mark.parametrize("width", [60, 80, 100])
def test_text_keeps_to_its_width(laid: LaidOut, width: int) -> None:
    text = lay_text(laid, System.METRIC, width, 30)
    assert max(len(line) for line in text.splitlines()) <= width
    assert "╌" in text
