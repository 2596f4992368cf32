"""DXF as pieces: the layers of ASTM D6673-10, and plain closed lines of any drawing."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import pytest
from drawn_kit import extent, look, pieces
from ezdxf.filemanagement import new

from stash.errors import BadInputError
from stash.garment.pattern import Grain, Role
from stash.services.pattern_import import Said, look_at

if TYPE_CHECKING:
    from pathlib import Path

    from ezdxf.document import Drawing

    from stash.services.pattern_import import Look

FRONT = [(0.0, 0.0), (200.0, 0.0), (200.0, 300.0), (0.0, 320.0)]


def _seen(folder: Path, document: Drawing, pick: str = "", **said: str) -> Look:
    path = folder / "drawing.dxf"
    document.saveas(path)
    return look_at(path, Said(**said), pick)


def _piece_block(
    document: Drawing, name: str, ring: list[tuple[float, float]], *texts: str, size: str = ""
) -> object:
    """A block as ASTM D6673-10 has it: boundary on 1, texts on 1."""
    block = document.blocks.new(f"{name}{size}")
    block.add_polyline2d(ring, close=True, dxfattribs={"layer": "1"})
    for line, text in enumerate((f"Piece Name: {name}", f"Size: {size}", *texts)):
        place = {"layer": "1", "insert": (20, 20 + 9 * line)}
        block.add_text(text, dxfattribs=place)
    document.modelspace().add_blockref(block.name, (500, 700), dxfattribs={"layer": "1"})
    return block


def _standard(units: str) -> Drawing:
    document = new("R12")
    document.modelspace().add_text(f"UNITS: {units}", dxfattribs={"layer": "1"})
    return document


@pytest.mark.parametrize(("units", "unit_mm"), [("METRIC", 1.0), ("ENGLISH", 25.4)])
def test_a_block_is_a_piece(tmp_path: Path, units: str, unit_mm: float) -> None:
    document = _standard(units)
    ring = [(x / unit_mm, y / unit_mm) for x, y in FRONT]
    block = _piece_block(document, "FRONT", ring, "Quantity: 2", "Material: lining")
    for layer, line in {
        "7": ((100, 20), (100, 280)),  # grain
        "8": ((10, 100), (190, 100)),  # internal
        "14": ((10, 10), (10, 290)),  # sew line
        "4": ((0, 150), (5, 150)),  # notch
    }.items():
        ends = [(x / unit_mm, y / unit_mm) for x, y in line]
        block.add_line(*ends, dxfattribs={"layer": layer})  # type: ignore[attr-defined]
    (found,) = _seen(tmp_path, document).sheet.found
    assert found.piece is not None
    assert (found.name, found.piece.copies, found.piece.role) == ("FRONT", 2, Role.LINING)
    assert extent(found.piece) == pytest.approx((320, 200), abs=0.01)
    assert found.guessed == ()


@pytest.mark.parametrize(("units", "unit_mm"), [("METRIC", 1.0), ("ENGLISH", 25.4)])
def test_notches_stay_on_the_edge(tmp_path: Path, units: str, unit_mm: float) -> None:
    """Notches are points of layers 4 and 80-83 in ASTM D6673-10; lines are drawn there too.

    The grain of the half runs up the sheet and its fold on the left: laid down, x is what was up.
    """
    document = _standard(units)
    block: Any = _piece_block(
        document, "BACK", [(x / unit_mm, y / unit_mm) for x, y in FRONT], "Quantity: 1"
    )

    def at(*places: tuple[float, float]) -> list[tuple[float, float]]:
        return [(x / unit_mm, y / unit_mm) for x, y in places]

    block.add_line(*at((0, 0), (0, 320)), dxfattribs={"layer": "6"})
    block.add_line(*at((90, 20), (90, 280)), dxfattribs={"layer": "7"})
    block.add_point(*at((200, 70)), dxfattribs={"layer": "4"})
    block.add_point(*at((200, 70.2)), dxfattribs={"layer": "80"})  # the same one once more
    block.add_point(*at((120, 0)), dxfattribs={"layer": "81"})
    block.add_line(*at((192, 150), (200, 150)), dxfattribs={"layer": "82"})  # a slit
    for ends in (((200, 226), (195, 230)), ((195, 230), (200, 234))):  # a V, drawn in two
        block.add_line(*at(*ends), dxfattribs={"layer": "83"})
    block.add_polyline2d(at((56, 0), (60, 6), (64, 0)), dxfattribs={"layer": "83"})
    block.add_point(*at((100, 150)), dxfattribs={"layer": "4"})  # at no edge
    block.add_point(*at((200, 20)), dxfattribs={"layer": "2"})  # a turn point, no notch
    (found,) = _seen(tmp_path, document).sheet.found
    assert found.piece is not None
    assert found.piece.on_fold
    wanted = [(70, 200), (0, 120), (150, 200), (226, 200), (234, 200), (0, 60)]
    assert len(found.piece.notches) == len(wanted)
    for place in wanted:
        assert any(math.dist(place, notch) <= 0.3 for notch in found.piece.notches), place


def test_notches_without_end_are_cut_short(tmp_path: Path) -> None:
    document = _standard("METRIC")
    block: Any = _piece_block(document, "BACK", FRONT, "Quantity: 1")
    for step in range(300):
        block.add_point((200, step), dxfattribs={"layer": "4"})
    found = _seen(tmp_path, document)
    (back,) = found.sheet.found
    assert back.piece is not None
    assert len(back.piece.notches) == 200
    assert "of its notches only the first 200 are read" in back.guessed
    assert "Notches are read with their pieces: 200 in all" in found.sheet.notes


def test_a_mirror_line_makes_a_half(tmp_path: Path) -> None:
    document = _standard("METRIC")
    block = _piece_block(document, "BACK", FRONT, "Quantity: 1")
    block.add_line((0, 0), (0, 320), dxfattribs={"layer": "6"})  # type: ignore[attr-defined]
    block.add_line((90, 20), (90, 280), dxfattribs={"layer": "7"})  # type: ignore[attr-defined]
    back = pieces(_seen(tmp_path, document))["BACK"]
    assert (back.on_fold, back.grain) == (True, Grain.LENGTHWISE)
    assert sorted(x for x, y in back.outline if y == 0) == [0, 320]
    assert extent(back) == (320, 200)


def test_sizes_of_the_standard_are_told_apart(tmp_path: Path) -> None:
    document = _standard("METRIC")
    for size, factor in (("38", 1.0), ("40", 1.1)):
        ring = [(x * factor, y * factor) for x, y in FRONT]
        _piece_block(document, "FRONT", ring, "Quantity: 1,1", size=size)
    found = _seen(tmp_path, document)
    assert found.sheet.sizes == ("38", "40")
    front = pieces(_seen(tmp_path, document, size="40", grain="across"))["FRONT"]
    assert extent(front) == pytest.approx((220, 352), abs=0.01)
    # A left one and a right one.
    assert (front.copies, front.mirrored) == (2, True)


@pytest.mark.parametrize(("code", "unit_mm"), [(1, 25.4), (4, 1.0), (5, 10.0), (6, 1000.0)])
def test_units_of_plain_files(tmp_path: Path, code: int, unit_mm: float) -> None:
    document = new("R2010")
    document.units = code
    ring = [(x / unit_mm, y / unit_mm) for x, y in FRONT]
    document.modelspace().add_lwpolyline(ring, close=True, dxfattribs={"layer": "front"})
    assert extent(pieces(_seen(tmp_path, document))["front"]) == pytest.approx((320, 200), abs=0.01)


def test_a_unit_may_be_typed(tmp_path: Path) -> None:
    document = new("R12")
    document.modelspace().add_polyline2d([(0, 0), (10, 0), (10, 8)], close=True)
    silent = _seen(tmp_path, document, unit="in", grain="across")
    assert extent(pieces(silent)["piece 1"]) == pytest.approx((254, 203.2), abs=0.01)
    with pytest.raises(BadInputError, match="does not say how large"):
        _seen(tmp_path, document)
    with pytest.raises(BadInputError, match="no unit"):
        _seen(tmp_path, document, unit="cubit")


def test_loose_lines_and_arcs_become_an_outline(tmp_path: Path) -> None:
    document = new("R2000", units=4)
    space = document.modelspace()
    space.add_line((0, 0), (200, 0))
    space.add_line((0, 300), (0, 0))
    space.add_line((200, 300), (200, 0))
    space.add_arc((100, 300), 100, 0, 180)
    space.add_text("coupe 2", dxfattribs={"insert": (50, 60)})
    space.add_text("dos", dxfattribs={"insert": (50, 80)})
    (found,) = _seen(tmp_path, document).sheet.found
    assert found.piece is not None
    assert (found.name, found.piece.copies) == ("dos", 2)
    assert extent(found.piece) == pytest.approx((400, 200), abs=0.2)


@pytest.mark.parametrize("high", [2, 0])
def test_a_file_far_too_small_says_what_to_type(tmp_path: Path, high: float) -> None:
    document = new("R2000", units=4)
    document.modelspace().add_lwpolyline([(0, 0), (3, 0), (3, high), (0, high)], close=True)
    with pytest.raises(BadInputError, match="no closed outline as large as a piece") as caught:
        _seen(tmp_path, document)
    assert "--unit mm, cm or in" in caught.value.hint


@pytest.mark.parametrize(
    ("number", "told"),
    [
        (math.nan, r"^\w+\.dxf holds a number that cannot be read"),
        (1e12, r"^\w+\.dxf draws something farther than 1 km away"),
    ],
)
def test_numbers_of_no_sheet_are_told_with_the_file(
    tmp_path: Path, number: float, told: str
) -> None:
    document = new("R2000", units=4)
    document.modelspace().add_lwpolyline([(0, 0), (number, 0), (300, 200)], close=True)
    with pytest.raises(BadInputError, match=told):
        _seen(tmp_path, document)


def test_a_file_in_metres_says_what_to_type(tmp_path: Path) -> None:
    document = new("R2000", units=6)
    document.modelspace().add_lwpolyline(FRONT, close=True)
    found = _seen(tmp_path, document).sheet
    assert found.found[0].wrong == ("it is 320.0 m long. Check the unit of the drawing",)
    assert any("1000 mm" in note and "--unit mm" in note for note in found.notes)
    assert not _seen(tmp_path, document, unit="mm").sheet.notes


def test_bulges_and_mirrored_blocks(tmp_path: Path) -> None:
    document = new("R2000", units=4)
    block = document.blocks.new("leaf")
    block.add_lwpolyline([(0, 0, 0), (100, 0, 1), (100, 80, 0)], format="xyb", close=True)
    document.modelspace().add_blockref("leaf", (0, 0), dxfattribs={"xscale": -2, "yscale": 2})
    (found,) = _seen(tmp_path, document, grain="across").sheet.found
    assert found.piece is not None
    # A half circle of radius 40 stands out of the side (bulge 1), twice as large.
    assert extent(found.piece) == pytest.approx((280, 160), abs=0.4)
    middle = min(x for x, _ in found.piece.outline)
    assert math.isclose(middle, 0.0, abs_tol=0.01)


def test_layers_named_as_sizes(tmp_path: Path) -> None:
    document = new("R2000", units=4)
    for size, wide in (("size 38", 200), ("size 40", 210)):
        ring = [(0, 0), (wide, 0), (wide, 300), (0, 300)]
        document.modelspace().add_lwpolyline(ring, close=True, dxfattribs={"layer": size})
    assert _seen(tmp_path, document).sheet.sizes == ("38", "40")
    (found,) = _seen(tmp_path, document, size="40").taken
    assert found.piece is not None
    assert extent(found.piece) == (300, 210)


def test_a_block_that_draws_itself_is_refused(tmp_path: Path) -> None:
    document = new("R2000", units=4)
    block = document.blocks.new("again")
    block.add_lwpolyline(FRONT, close=True)
    block.add_blockref("again", (9, 9))
    document.modelspace().add_blockref("again", (0, 0))
    with pytest.raises(BadInputError, match="within itself"):
        _seen(tmp_path, document)


def test_blocks_of_blocks_without_end_are_refused(tmp_path: Path) -> None:
    document = new("R2000", units=4)
    document.blocks.new("b0").add_lwpolyline(FRONT, close=True)
    for level in range(1, 12):
        block = document.blocks.new(f"b{level}")
        for place in range(10):
            block.add_blockref(f"b{level - 1}", (place, level))
    document.modelspace().add_blockref("b11", (0, 0))
    with pytest.raises(BadInputError, match="more things than any pattern"):
        _seen(tmp_path, document)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "not a DXF"),
        ("0\nSECTION\n2\nENTITIES\n0\nLINE\n8\n", "damaged|holds no lines"),
        ("AutoCAD Binary DXF\r\n", "not a text DXF"),
        ("%PDF-1.4", "not a DXF"),
    ],
)
def test_files_that_are_no_dxf(tmp_path: Path, text: str, told: str) -> None:
    with pytest.raises(BadInputError, match=told):
        look(tmp_path, text, ending=".dxf")


@pytest.mark.parametrize(
    ("texts", "told"),
    [
        (("GRADE RULE TABLE: PIER", "SAMPLE SIZE: 40"), "(table PIER): only the size they are "),
        (("SAMPLE SIZE: 40",), "by rules: only the size they are drawn in, 40, is read"),
    ],
)
def test_grade_rules_are_told_of(tmp_path: Path, texts: tuple[str, ...], told: str) -> None:
    """ASTM D6673-10 keeps the rules in a table of its own: what is drawn is the sample size."""
    document = _standard("METRIC")
    for text in texts:
        document.modelspace().add_text(text, dxfattribs={"layer": "1"})
    block = _piece_block(document, "FRONT", FRONT, "Quantity: 2", size="40")
    for number, place in enumerate(FRONT, 1):
        block.add_text(  # type: ignore[attr-defined]
            f"# {number}", dxfattribs={"layer": "2", "insert": place}
        )
        block.add_point(place, dxfattribs={"layer": "2"})  # type: ignore[attr-defined]
    found = _seen(tmp_path, document)
    (note,) = [note for note in found.sheet.notes if "rules" in note]
    assert told in note
    assert "drawn in, 40, is read" in note
    (front,) = found.taken
    assert (front.name, front.size) == ("FRONT", "40")


def test_notches_drills_and_sew_lines_are_no_pieces(tmp_path: Path) -> None:
    """Layers 4, 8, 11, 13, 14 and 80-87 of ASTM D6673-10 lie in a piece and are not cut apart."""
    document = _standard("ENGLISH")
    inches = [(x / 25.4, y / 25.4) for x, y in FRONT]
    block = _piece_block(document, "BACK", inches, "Quantity: 2")
    inner = [(1.0, 1.0), (6.0, 1.0), (6.0, 9.0), (1.0, 9.0)]
    for layer in ("4", "8", "11", "14", "80", "81", "82", "83", "84", "87"):
        block.add_polyline2d(  # type: ignore[attr-defined]
            inner, close=True, dxfattribs={"layer": layer}
        )
    block.add_circle((3, 3), 0.1, dxfattribs={"layer": "13"})  # type: ignore[attr-defined]
    (back,) = _seen(tmp_path, document).sheet.found
    assert back.piece is not None
    assert extent(back.piece) == pytest.approx((320, 200), abs=0.01)
    assert back.piece.notches == ()
