"""Looking at a drawing, taking its pieces, writing them: whole, once, and back again."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shapely.geometry import Point, Polygon

from stash.errors import BadInputError
from stash.garment.pattern import Grain, Piece, Role
from stash.intake.svg_pieces import read_svg_pieces
from stash.report.pieces_dxf import pieces_dxf
from stash.report.pieces_svg import pieces_svg
from stash.services.pattern_export import export_pieces
from stash.services.pattern_import import Said, look_at, take_pieces
from stash.services.patterns import add_pattern, get_pattern
from stash.services.undoing import undo

if TYPE_CHECKING:
    from pathlib import Path

    from stash.services.stash import Stash

TOLERANCE_MM = 0.3


@st.composite
def rings(draw: st.DrawFn) -> tuple[tuple[float, float], ...]:
    """Outlines that are seen whole from their middle, 4 to 90 cm, as pieces have them."""
    count = draw(st.integers(3, 40))
    reach = draw(st.floats(40, 450))
    points = []
    for number in range(count):
        angle = 2 * math.pi * number / count
        far = reach * draw(st.floats(0.4, 1))
        points.append((round(far * math.cos(angle), 3), round(far * math.sin(angle), 3)))
    left, low = min(x for x, _ in points), min(y for _, y in points)
    return tuple((round(x - left, 3), round(y - low, 3)) for x, y in points)


@st.composite
def halves(draw: st.DrawFn) -> tuple[tuple[float, float], ...]:
    """Halves with their fold on y = 0."""
    length = draw(st.floats(60, 900))
    inner = draw(st.lists(st.floats(20, 400), min_size=1, max_size=6))
    step = length / (len(inner) + 1)
    over = [(round(length - step * (i + 1), 3), round(y, 3)) for i, y in enumerate(inner)]
    return ((0.0, 0.0), (round(length, 3), 0.0), *over)


@st.composite
def drawn_pieces(draw: st.DrawFn) -> list[Piece]:
    """A few pieces of every manner of cutting."""
    found = []
    for number in range(draw(st.integers(1, 4))):
        on_fold = draw(st.booleans())
        outline = draw(halves() if on_fold else rings())
        sides = draw(st.sets(st.integers(0, len(outline) - 1), max_size=3))
        middles = [map(sum, zip(outline[i - 1], outline[i], strict=True)) for i in sorted(sides)]
        found.append(
            Piece(
                name=f"piece {'abcd'[number]}",
                outline=outline,
                copies=1 if on_fold else draw(st.integers(1, 9)),
                on_fold=on_fold,
                mirrored=on_fold or draw(st.booleans()),
                grain=draw(st.sampled_from([Grain.LENGTHWISE, Grain.EITHER])),
                role=draw(st.sampled_from(Role)),
                size=draw(st.sampled_from(["", "M"])),
                views=draw(st.sampled_from([(), ("A",)])),
                tolerance=draw(st.integers(0, 45)),
                seam=draw(st.sampled_from([None, 6.0, 15.5])),
                notches=tuple((x / 2, y / 2) for x, y in middles),
            )
        )
    return found


def _same(one: Piece, other: Piece) -> None:
    how = ("copies", "on_fold", "mirrored", "grain", "role", "size", "views", "tolerance", "seam")
    for key in how:
        assert getattr(one, key) == getattr(other, key), key
    far = Polygon(one.outline).exterior.hausdorff_distance(Polygon(other.outline).exterior)
    assert far <= TOLERANCE_MM
    assert len(one.notches) == len(other.notches)
    for notch in one.notches:
        assert min(math.dist(notch, back) for back in other.notches) <= TOLERANCE_MM


@settings(max_examples=50, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(pieces=drawn_pieces(), ending=st.sampled_from([".svg", ".dxf"]))
def test_pieces_come_back_from_drawings(
    tmp_path_factory: pytest.TempPathFactory, pieces: list[Piece], ending: str
) -> None:
    path = tmp_path_factory.mktemp("drawn") / f"pieces{ending}"
    text = pieces_svg(pieces) if ending == ".svg" else pieces_dxf(pieces, "easy")
    path.write_text(text, encoding="utf-8")
    found = {one.name: one for one in look_at(path).taken}
    assert set(found) == {piece.name for piece in pieces}
    for piece in pieces:
        back = found[piece.name].piece
        assert back is not None, found[piece.name].wrong
        _same(piece, back)


@pytest.mark.parametrize(("grain", "degrees"), [(Grain.CROSSWISE, 90), (Grain.BIAS, 45)])
def test_a_grain_line_in_dxf_runs_along_the_cloth(
    tmp_path: Path, grain: Grain, degrees: int
) -> None:
    # ASTM D6673-10: layer 7 is the grain line, along the cloth whatever way the piece lies.
    ring = ((0.0, 0.0), (300.0, 0.0), (300.0, 100.0), (0.0, 120.0))
    path = tmp_path / "band.dxf"
    path.write_text(pieces_dxf([Piece(name="band", outline=ring, grain=grain)], "easy"))
    (found,) = look_at(path).taken
    assert found.piece is not None
    assert found.piece.grain is Grain.LENGTHWISE
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    turned = [(x * cos - y * sin, x * sin + y * cos) for x, y in ring]
    left, low = min(x for x, _ in turned), min(y for _, y in turned)
    wanted = Polygon([(x - left, y - low) for x, y in turned])
    assert wanted.symmetric_difference(Polygon(found.piece.outline)).area < 1


def test_a_match_point_comes_back_from_svg(tmp_path: Path) -> None:
    ring = ((0.0, 0.0), (300.0, 0.0), (300.0, 120.0), (0.0, 100.0))
    piece = Piece(name="yoke", outline=ring, size="M", match=(40.0, 20.0))
    path = tmp_path / "yoke.svg"
    path.write_text(pieces_svg([piece]), encoding="utf-8")
    (found,) = look_at(path).taken
    assert found.piece is not None
    assert found.piece.match == pytest.approx((40, 20), abs=0.01)


TWO = """<svg xmlns="http://www.w3.org/2000/svg" width="800mm" height="600mm" viewBox="0 0 800 600">
<path d="M0,0 H200 V300 H0 Z"><title>front | cut 2</title></path>
<path d="M300,0 H500 V300 H300 Z"><title>back | cut 1</title></path>{}</svg>"""
OPEN = '<path id="sleeve" d="M600,0 H700 V300 H600 V60"/>'


@pytest.fixture
def easy(empty_stash: Stash) -> str:
    """A pattern without pieces."""
    return add_pattern(
        empty_stash, {"name": "easy skirt", "kind": "flared skirt", "sizes": "38, 40"}
    ).name


def _file(folder: Path, text: str) -> Path:
    path = folder / "skirt.svg"
    path.write_text(text, encoding="utf-8")
    return path


def test_pieces_are_taken_whole_and_undone_at_once(
    empty_stash: Stash, easy: str, tmp_path: Path
) -> None:
    look = look_at(_file(tmp_path, TWO.format("")))
    kept = take_pieces(empty_stash, easy, look, "40")
    assert [(p.name, p.size) for p in kept.pieces] == [("front", "40"), ("back", "40")]
    again = take_pieces(empty_stash, easy, look_at(_file(tmp_path, TWO.format("")), pick="1"), "40")
    assert [p.name for p in again.pieces] == ["back", "front"]
    undo(empty_stash)
    undo(empty_stash)
    assert get_pattern(empty_stash, easy).pieces == ()


def test_a_wrong_piece_stops_everything_unless_others_are_picked(
    empty_stash: Stash, easy: str, tmp_path: Path
) -> None:
    path = _file(tmp_path, TWO.format(OPEN))
    with pytest.raises(BadInputError, match=r"3 \(sleeve\): its outline is not closed") as caught:
        take_pieces(empty_stash, easy, look_at(path))
    assert "--pick 1,2" in caught.value.hint
    assert get_pattern(empty_stash, easy).pieces == ()
    assert len(take_pieces(empty_stash, easy, look_at(path, pick="1,2")).pieces) == 2


def test_sizes_the_pattern_does_not_have_are_refused(
    empty_stash: Stash, easy: str, tmp_path: Path
) -> None:
    text = TWO.format("").replace("front | cut 2", "front | cut 2 | size 44")
    with pytest.raises(BadInputError, match="no size '44'"):
        take_pieces(empty_stash, easy, look_at(_file(tmp_path, text)))
    with pytest.raises(BadInputError, match="no size '99'"):
        take_pieces(empty_stash, easy, look_at(_file(tmp_path, text)), "99")
    sized = text.replace("back | cut 1", "front | cut 2 | size 46")
    with pytest.raises(BadInputError, match="several sizes"):
        take_pieces(empty_stash, easy, look_at(_file(tmp_path, sized)), "40")


def test_layers_called_like_the_patterns_sizes(empty_stash: Stash, tmp_path: Path) -> None:
    texts = {"name": "smock", "kind": "dress", "sizes": "small, large"}
    smock = add_pattern(empty_stash, texts)
    box = "<g id='{0}'><path d='M0,0 h{1} v300 h-{1} z'><title>front</title></path></g>"
    text = TWO.format(box.format("small", 100) + box.format("large", 120))
    look = look_at(_file(tmp_path, text), Said(size="large"), pattern=smock)
    assert ("front", "large") in [(one.name, one.size) for one in look.taken]


@pytest.mark.parametrize("ending", [".svg", ".dxf"])
def test_exported_pieces_are_imported_again(
    empty_stash: Stash, easy: str, tmp_path: Path, ending: str
) -> None:
    take_pieces(empty_stash, easy, look_at(_file(tmp_path, TWO.format(""))), "40")
    path = tmp_path / f"out{ending}"
    kept = export_pieces(empty_stash, easy, path, "40")
    for before, after in zip(kept.pieces, look_at(path).taken, strict=True):
        assert after.piece is not None
        _same(before, after.piece)
    with pytest.raises(BadInputError, match="no pieces to draw"):
        export_pieces(empty_stash, easy, path, "38")
    with pytest.raises(BadInputError, match="no drawing"):
        export_pieces(empty_stash, easy, tmp_path / "out.png")


@pytest.mark.parametrize(("on_fold", "along", "across"), [(False, 330, 230), (True, 330, 215)])
def test_a_seam_is_added_outside_but_not_at_the_fold(
    tmp_path: Path, on_fold: bool, along: float, across: float
) -> None:
    """A rectangle 300 x 200 with 15 mm all round: 330 x 230; at a fold nothing is added."""
    ring = ((0.0, 0.0), (300.0, 0.0), (300.0, 200.0), (0.0, 200.0))
    marks = ((300.0, 80.0), (150.0, 200.0), (0.0, 0.0))
    drawn = Piece(name="yoke", outline=ring, on_fold=on_fold, match=(40.0, 20.0), notches=marks)
    path = tmp_path / "yoke.svg"
    path.write_text(pieces_svg([drawn, replace(drawn, name="own", seam=10.0)]), encoding="utf-8")
    grown, own = (one.piece for one in look_at(path, Said(seam="1.5 cm")).taken)
    assert grown is not None
    assert Polygon(grown.outline).bounds == pytest.approx((0, 0, along, across))
    assert Polygon(grown.outline).area == pytest.approx(along * across)
    assert grown.seam == 15
    assert grown.match == pytest.approx((55, 20 if on_fold else 35), abs=0.01)
    edge = Polygon(grown.outline).exterior
    assert all(edge.distance(Point(notch)) <= 0.01 for notch in grown.notches)
    assert grown.notches[0] == pytest.approx((330, 80 if on_fold else 95), abs=0.01)
    assert grown.notches[1] == pytest.approx((165, 215 if on_fold else 230), abs=0.01)
    assert (grown.notches[2] == (0.0, 0.0)) is on_fold
    assert own is not None
    assert (own.outline, own.seam) == (ring, 10.0)
    with pytest.raises(BadInputError, match="no seam allowance"):
        look_at(path, Said(seam="2 m"))


def test_notches_stand_in_our_own_drawings(tmp_path: Path) -> None:
    ring = ((0.0, 0.0), (300.0, 0.0), (300.0, 200.0), (0.0, 200.0))
    marks = ((300.0, 80.25), (150.5, 0.0), (295.125, 10.0))
    pieces = (Piece(name="yoke", outline=ring, notches=marks), Piece(name="band", outline=ring))
    path = tmp_path / "yoke.svg"
    path.write_text(pieces_svg(pieces), encoding="utf-8")
    assert read_svg_pieces(path) == pieces
    path.write_text(TWO.format('<circle cx="250" cy="9" r="2"><title>notch</title></circle>'))
    with pytest.raises(BadInputError, match="250 x 9 mm is at the edge of no piece"):
        read_svg_pieces(path)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ({"tiles": "banana"}, "'banana' is no grid of pages"),
        ({"tiles": "3by4"}, "'3by4' is no grid of pages"),
        ({"unit": "cubit"}, "'cubit' is no unit of a drawing"),
        ({"margin": "wide"}, "'wide' is not a length"),
        ({"tiles": "3x4"}, "one.svg has no rows and columns of pages: only a .pdf file has"),
        ({"overlap": "5 mm"}, "one.svg has no overlap of pages: only a .pdf file has"),
        ({"unit": "mm"}, "one.svg has no unit: only a .dxf file has"),
    ],
)
def test_what_is_said_of_a_file_is_refused_where_it_says_nothing(
    tmp_path: Path, words: dict[str, str], told: str
) -> None:
    piece = Piece(name="band", outline=((0.0, 0.0), (400.0, 0.0), (400.0, 80.0), (0.0, 80.0)))
    file = tmp_path / "one.svg"
    file.write_text(pieces_svg([piece]), encoding="utf-8")
    assert look_at(file, Said()).taken
    with pytest.raises(BadInputError, match=re.escape(told)):
        look_at(file, Said(**words))
